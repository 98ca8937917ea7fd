"""A season as it goes by: what a clutch said, what the next one would say, and how to go on from here."""
