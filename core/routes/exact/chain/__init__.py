"""Exact answers for every kind of holding back for one generation: counts along the seasons, fates taken in at once."""
