"""A new route: a known shape, filled, drawn and worked out before it is taken."""
