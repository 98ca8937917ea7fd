"""This season: what hatched, what it says of my animals, and what to do next."""
