"""What animals carry, as choices in the trade's words."""
