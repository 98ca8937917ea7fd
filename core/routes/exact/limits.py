"""Up to where routes are answered exactly; beyond, they are simulated."""

from __future__ import annotations

import math

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
# Young held back by one group.
MOST_HELD = 24
# Counts of young to hold told apart in one element of the founders; beyond, nurseries are followed one by one.
MOST_COUNTS = 60
# Numbers worked out for a route that holds young back, at all probe points: about two seconds.
MOST_NUMBERS = 60_000_000
# Numbers kept meanwhile, as far as they are counted: up to a GB in all. More goes in pieces.
MOST_KEPT = 26_000_000
# Numbers in one array over seasons, states of the goal and probe points; a route works with some dozens of them.
MOST_AT_ONCE = 1_000_000
# Numbers for the eggs of females that lay in turn: each has some arrays of her own over seasons and points.
MOST_IN_TURN = 5_000_000


class OutOfReach(ValueError):
    """Raised where an exact answer would take too many states; says which."""


class OutOfRoom(OutOfReach):
    """Raised where too many numbers would have to be worked out or kept at once."""


class Room:
    """How many numbers may still be worked out for an answer, and kept; without a limit by default."""

    def __init__(self, numbers: float = math.inf, kept: float = math.inf) -> None:
        self.left, self.left_to_keep = numbers, kept

    def take(self, numbers: int) -> None:
        """Takes room for so many, before they are worked out. Raises OutOfRoom where there is none left."""
        self.left -= numbers
        if self.left < 0:
            raise OutOfRoom("too many numbers for an exact answer")

    def keep(self, numbers: int) -> None:
        """Takes room for so many that are kept to the end. Raises OutOfRoom where there is none left."""
        self.left_to_keep -= numbers
        if self.left_to_keep < 0:
            raise OutOfRoom("too many numbers to keep for an exact answer")
