"""Up to where routes are answered exactly; beyond, they are simulated."""

from __future__ import annotations

# Rows of the goal, followed together by inclusion and exclusion.
MOST_ROWS = 6
# Counts short of the goal that are told apart.
MOST_GOAL_STATES = 1_000
# Combined true states of males that share females.
MOST_MALE_STATES = 2_000
# Combined true states of founders that young are held back from, or of named animals.
MOST_WORLDS = 400
# Nurseries (young held by season and class) told apart at the end of a season, over all seasons and worlds.
MOST_NURSERIES = 4_000
# Counts of young to hold told apart in one element of the founders; beyond, nurseries are followed one by one.
MOST_COUNTS = 60


class OutOfReach(ValueError):
    """Raised where an exact answer would take too many states; says which."""
