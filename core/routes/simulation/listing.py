"""Young one by one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from core.routes.simulation.flock import Tally
from core.routes.simulation.lots import Indices, spread
from core.routes.simulation.shown import Shown

Flags = NDArray[np.bool_]

# Bits of a whole number without its sign.
_WORD = 63


@dataclass(frozen=True)
class Young:
    """Young one by one. clutch: their clutch's place in `shown`. run: as there. code: as `Look.code` gives it."""

    shown: Shown
    clutch: Indices
    run: Indices
    code: Indices

    def chosen(self, where: Indices) -> Taken:
        """Some of them, in this order."""
        return Taken(self.run.take(where), self.code.take(where))


class Taken(NamedTuple):
    """Young that count or are held back, in order of run; as in `Young`."""

    run: Indices
    code: Indices


class Listed:
    """Young that more than one goal row or herd could ask for, in order of run and laying."""

    def __init__(self, young: Young, pattern: Indices) -> None:
        """Nothing is counted or held yet. pattern: of each young."""
        self.young, self._pattern = young, pattern
        self.counted: Flags = np.zeros(len(young.clutch), dtype=np.bool_)
        self.held: Flags = np.zeros(len(young.clutch), dtype=np.bool_)
        counts = np.bincount(young.run, minlength=len(young.shown.runs))
        self._starts = np.cumsum(counts) - counts

    def count(self, bit: int, limit: Indices | Tally) -> Taken:
        """Count the first young of each run whose pattern has the bit, up to its limit: [runs]."""
        return self._take(self.counted, bit, limit)

    def hold(self, bit: int, limit: Indices) -> Taken:
        """Hold the first such young back, up to the limit: [runs]; those that counted may be among them."""
        return self._take(self.held, bit, limit)

    def gone(self) -> Taken:
        """All that are counted or held."""
        return self.young.chosen(np.flatnonzero(self.counted | self.held))

    def only_counted(self) -> Taken:
        """Those that are counted and not held."""
        return self.young.chosen(np.flatnonzero(self.counted & ~self.held))

    def _take(self, taken: Flags, bit: int, limit: Indices | Tally) -> Taken:
        fits = np.array([bool(own >> bit & 1) for own in self.young.shown.look.patterns], dtype=np.bool_)
        eligible = fits.take(self._pattern) & ~taken if fits.any() else np.zeros_like(taken)
        if eligible.any():
            sums = np.cumsum(eligible)
            before = np.concatenate(([0], sums)).take(self._starts)
            eligible &= sums <= (before + limit).take(self.young.run)
            taken |= eligible
        return self.young.chosen(np.flatnonzero(eligible))


def list_young(shown: Shown, limits: dict[int, Indices], rng: np.random.Generator) -> Listed:
    """List young of some patterns, at least as many of a pattern as its limit, [runs], where there are so many.

    A clutch's young of a pattern are listed all or none: only then are all orders of the listed young equally likely.
    """
    lists: list[tuple[int, Indices]] = []
    for pattern, limit in limits.items():
        some, room = shown.with_room(pattern, limit)
        some = some.compress(room > 0)
        lists.append((pattern, some.take(spread(shown.counts[pattern].take(some)))))
    clutch, pattern_of = _shuffled(lists, len(shown.run), rng)
    return Listed(
        Young(shown, clutch, shown.run.take(clutch), shown.look.code(pattern_of, shown.pair.take(clutch))),
        pattern_of,
    )


def _shuffled(lists: Sequence[tuple[int, Indices]], clutches: int, rng: np.random.Generator) -> tuple[Indices, Indices]:
    """Lists of clutches in one, ascending, the same clutch in random order; and the number of the list each is from."""
    if not lists:
        return np.empty(0, dtype=np.intp), np.empty(0, dtype=np.intp)
    if len(lists) == 1:
        return lists[0][1], np.full(len(lists[0][1]), lists[0][0], dtype=np.intp)
    # Clutch, luck and pattern in one number: whole numbers sort faster than places in a list of them do.
    low = max(pattern for pattern, _ in lists).bit_length()
    high = _WORD - max(clutches, 1).bit_length()
    keys = np.concatenate([(clutch << high) + pattern for pattern, clutch in lists])
    keys += rng.integers(0, 1 << (high - low), len(keys)) << low
    keys.sort()
    return keys >> high, keys & ((1 << low) - 1)


def first_young(shown: Shown, pattern: int, limit: Indices) -> Taken:
    """The first young of one pattern in each run, up to its limit: [runs]."""
    some, room = shown.with_room(pattern, limit)
    each = np.minimum(np.maximum(room, 0), shown.counts[pattern].take(some))
    young = some.take(spread(each))
    return Taken(shown.run.take(young), shown.look.code(pattern, shown.pair.take(young)))
