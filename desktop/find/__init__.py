"""Finding routes in the window: proposals as they come, the trade of money, and one click to the plan."""
