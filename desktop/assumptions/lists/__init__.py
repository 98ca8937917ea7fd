"""The lists of a plan, one module each."""
