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
# Numbers worked out in all where goal rows overlap, so that every egg is followed.
MOST_ORDERED = 20_000_000_000
# Ways told apart in which the young of one season can be held and count.
MOST_FILLINGS = 500
# Young held back by one group.
MOST_HELD = 24
# Counts of young to hold told apart in one element of the founders; beyond, nurseries are followed one by one.
MOST_COUNTS = 60
# Numbers worked out in one step: a fifth of a second to half of one.
MOST_NUMBERS = 40_000_000
# Numbers worked out in all, for a route that holds young back and for one that does not: half a minute, a minute.
MOST_IN_ALL_HELD = 6_000_000_000
MOST_IN_ALL = 30_000_000_000
# Numbers kept meanwhile, as far as they are counted: 160 MB, and about as much besides. More goes in pieces.
MOST_KEPT = 10_000_000
# Numbers in one array over seasons, states of the goal and probe points; a route works with some dozens of them.
MOST_AT_ONCE = 250_000
# Numbers for the eggs of females that lay in turn: each has some arrays of her own over seasons and points.
MOST_IN_TURN = 1_250_000
# Pieces that an answer is worked out in, and numbers over seasons and points that they leave behind.
MOST_PIECES = 64
MOST_LEFT = 4_000_000


# Whatever is worked out takes as long as so many numbers more.
_AT_EACH = 2_000


class OutOfReach(ValueError):
    """Raised where an exact answer would take too many states; says which."""


class OutOfRoom(OutOfReach):
    """Raised where too many numbers would have to be worked out or kept at once."""


class Room:
    """How many numbers may still be worked out in a step, and kept; without a limit by default."""

    def __init__(self, numbers: float = math.inf, kept: float = math.inf) -> None:
        self.used, self.kept = 0, 0
        self._times = 0
        self._most_kept = kept
        self._step = self._end = numbers

    @property
    def fills(self) -> bool:
        """Whether so much is kept that more of the like may be too much."""
        return self.kept > self._most_kept / 4

    @property
    def effort(self) -> int:
        """How many numbers would have taken as long as all that was worked out, by few or by many at a time."""
        return self.used + _AT_EACH * self._times

    def lift(self) -> None:
        """From here on there is no limit: what was begun is to be answered."""
        self._step = self._end = self._most_kept = math.inf

    def rest(self) -> None:
        """Begins another step."""
        self._end = self.used + self._step

    def take(self, numbers: int) -> None:
        """Takes room for so many, before they are worked out. Raises OutOfRoom where there is none left."""
        self.used += numbers
        self._times += 1
        if self.used > self._end:
            raise OutOfRoom("too many numbers for an exact answer")

    def keep(self, numbers: int) -> None:
        """Takes room for so many that are kept to the end. Raises OutOfRoom where there is none left."""
        self.kept += numbers
        if self.kept > self._most_kept:
            raise OutOfRoom("too many numbers to keep for an exact answer")
