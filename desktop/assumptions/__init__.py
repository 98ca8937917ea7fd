"""The page of everything a plan takes for given."""
