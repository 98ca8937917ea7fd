"""Young one by one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.routes.simulation.lots import Indices
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

    def chosen(self, where: Indices) -> Young:
        """Some of them, in this order."""
        return Young(self.shown, self.clutch.take(where), self.run.take(where), self.code.take(where))


def together(parts: Sequence[Young]) -> Young:
    """Several lists in one, one after the other."""
    clutches, runs, codes = zip(*((part.clutch, part.run, part.code) for part in parts), strict=True)
    return Young(parts[0].shown, np.concatenate(clutches), np.concatenate(runs), np.concatenate(codes))


class Listed:
    """Young that more than one goal row or herd could ask for, in order of run and laying."""

    def __init__(self, young: Young, pattern: Indices, runs: int) -> None:
        """Nothing is counted or held yet. pattern: of each young. runs: of the flock."""
        self.young, self._pattern = young, pattern
        self.counted: Flags = np.zeros(len(young.clutch), dtype=np.bool_)
        self.held: Flags = np.zeros(len(young.clutch), dtype=np.bool_)
        counts = np.bincount(young.run, minlength=runs)
        self._starts = np.cumsum(counts) - counts

    def count(self, bit: int, limit: Indices) -> Young:
        """Count the first young of each run whose pattern has the bit, up to its limit: [runs]."""
        return self._take(self.counted, bit, limit)

    def hold(self, bit: int, limit: Indices) -> Young:
        """Hold the first such young back, up to the limit: [runs]; those that counted may be among them."""
        return self._take(self.held, bit, limit)

    def _take(self, taken: Flags, bit: int, limit: Indices) -> Young:
        fits = np.array([bool(own >> bit & 1) for own in self.young.shown.look.patterns], dtype=np.bool_)
        eligible = fits.take(self._pattern) & ~taken if fits.any() else np.zeros_like(taken)
        if eligible.any():
            sums = np.cumsum(eligible)
            before = np.concatenate(([0], sums)).take(self._starts)
            eligible &= sums <= (before + limit).take(self.young.run)
            taken |= eligible
        return self.young.chosen(np.flatnonzero(eligible))


def list_young(shown: Shown, limits: dict[int, Indices], runs: int, rng: np.random.Generator) -> Listed:
    """List young of some patterns, at least as many of a pattern as its limit, [runs], where there are so many.

    A clutch's young of a pattern are listed all or none: only then are all orders of the listed young equally likely.
    """
    lists: list[tuple[int, Indices]] = []
    for pattern, limit in limits.items():
        own = shown.counts[pattern]
        some = np.flatnonzero((own > 0) & (shown.earlier(own) < limit.take(shown.run)))
        lists.append((pattern, np.repeat(some, own.take(some))))
    clutch, pattern_of = _shuffled(lists, len(shown.run), rng)
    return Listed(
        Young(shown, clutch, shown.run.take(clutch), shown.look.code(pattern_of, shown.pair.take(clutch))),
        pattern_of,
        runs,
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


def first_young(shown: Shown, pattern: int, limit: Indices) -> Young:
    """The first young of one pattern in each run, up to its limit: [runs]."""
    own = shown.counts[pattern]
    some = np.flatnonzero(own > 0)
    each = np.minimum(limit.take(shown.run.take(some)) - shown.earlier(own).take(some), own.take(some))
    taken = np.flatnonzero(each > 0)
    clutch = np.repeat(some.take(taken), each.take(taken))
    return Young(shown, clutch, shown.run.take(clutch), shown.look.code(pattern, shown.pair.take(clutch)))
