"""Young one by one, of those patterns that more than one goal row or herd could ask for."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.routes.simulation.flock import Tally
from core.routes.simulation.lots import Indices

Flags = NDArray[np.bool_]


@dataclass(frozen=True)
class Young:
    """Young in order of column and laying: their column, clutch and pattern."""

    column: Indices
    clutch: Indices
    pattern: Indices

    def chosen(self, where: Flags | Indices) -> Young:
        """Some of them, in the same order."""
        return Young(self.column[where], self.clutch[where], self.pattern[where])

    def count(self, columns: int) -> Indices:
        """How many are in each column."""
        return np.bincount(self.column, minlength=columns)

    def rank(self, columns: int) -> Indices:
        """Each one's place among those of its column, from 0."""
        counts = self.count(columns)
        return np.asarray(np.arange(len(self.column)) - (np.cumsum(counts) - counts).take(self.column))


class Listed:
    """Young listed for several claims, of whom each is chosen by the first that may have it."""

    def __init__(self, young: Young, columns: int) -> None:
        """All of them open to be chosen."""
        self.young, self._columns = young, columns
        self._starts = np.searchsorted(young.column, np.arange(columns))

    def first(self, eligible: Flags, limit: Tally | Indices) -> Flags:
        """The first eligible young of each column, up to its limit."""
        sums = np.cumsum(eligible)
        before = np.concatenate(([0], sums)).take(self._starts)
        return np.asarray(eligible & (sums <= (before + limit).take(self.young.column)))

    def fitting(self, fits: Sequence[bool]) -> Flags:
        """Those whose pattern fits; fits: by pattern."""
        return np.array(fits, dtype=np.bool_).take(self.young.pattern)


def list_young(
    counts: Sequence[tuple[int, Indices]], limits: Sequence[Tally], columns: int, rng: np.random.Generator
) -> Listed:
    """List young by pattern and counts [clutches, columns], at least as many of a pattern as its limit [columns].

    A clutch's young of a pattern are listed all or none: only then are all orders of the listed young equally likely.
    """
    places: list[Indices] = [np.empty(0, dtype=np.intp)]
    patterns: list[Indices] = [np.empty(0, dtype=np.intp)]
    for (pattern, own), limit in zip(counts, limits, strict=True):
        before = np.cumsum(own, axis=0) - own
        asked = np.where(before < limit, own, 0).T.ravel()
        some = np.flatnonzero(asked)
        places.append(np.repeat(some, asked[some]))
        patterns.append(np.full(len(places[-1]), pattern, dtype=np.intp))
    place: Indices = np.concatenate(places)
    pattern_of: Indices = np.concatenate(patterns)
    if len(counts) > 1:
        order = np.argsort(place + rng.random(len(place)))
        place, pattern_of = place[order], pattern_of[order]
    clutches = len(counts[0][1]) if counts else 1
    return Listed(Young(place // clutches, place % clutches, pattern_of), columns)


def first_young(pattern: int, counts: Indices, limit: Tally) -> Young:
    """The first young of one pattern in each column, up to its limit; counts: [clutches, columns]."""
    left = limit
    taken = np.empty((counts.shape[1], counts.shape[0]), dtype=np.intp)
    for clutch, own in enumerate(counts):
        taken[:, clutch] = np.minimum(own, left)
        left = left - taken[:, clutch]
    some = np.flatnonzero(taken)
    place = np.repeat(some, taken.ravel()[some])
    return Young(place // len(counts), place % len(counts), np.full(len(place), pattern, dtype=np.intp))
