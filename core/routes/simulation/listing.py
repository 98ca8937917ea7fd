"""Young one by one."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.routes.simulation.flock import Tally
from core.routes.simulation.lots import Indices
from core.routes.simulation.shown import Shown, earlier

Flags = NDArray[np.bool_]


@dataclass(frozen=True)
class Young:
    """Young in order of run and laying. clutch: their clutch's place in `shown`; column, pattern: as there."""

    shown: Shown
    clutch: Indices
    pattern: Indices

    @property
    def column(self) -> Indices:
        """The place of each one's run in `shown.runs`."""
        return self.shown.column.take(self.clutch)

    def chosen(self, where: Flags | Indices) -> Young:
        """Some of them, in the same order."""
        return Young(self.shown, self.clutch[where], self.pattern[where])


class Listed:
    """Young that more than one goal row or herd could ask for; each is chosen by the first that may have it."""

    def __init__(self, young: Young) -> None:
        """Nothing is chosen yet."""
        self.young, self.column = young, young.column
        self._starts = np.searchsorted(self.column, np.arange(len(young.shown.runs)))

    def first(self, eligible: Flags, limit: Tally | Indices) -> Flags:
        """The first eligible young of each column, up to its limit: [columns]."""
        sums = np.cumsum(eligible)
        before = np.concatenate(([0], sums)).take(self._starts)
        return np.asarray(eligible & (sums <= (before + limit).take(self.column)))

    def fitting(self, bit: int) -> Flags:
        """Those whose pattern has this bit."""
        fits = [bool(own >> bit & 1) for own in self.young.shown.look.patterns]
        return np.array(fits, dtype=np.bool_).take(self.young.pattern)


def list_young(shown: Shown, limits: dict[int, Tally], rng: np.random.Generator) -> Listed:
    """List young of some patterns, at least as many of a pattern as its limit, [columns], where there are so many.

    A clutch's young of a pattern are listed all or none: only then are all orders of the listed young equally likely.
    """
    clutches: list[Indices] = [np.empty(0, dtype=np.intp)]
    patterns: list[Indices] = [np.empty(0, dtype=np.intp)]
    for pattern, limit in limits.items():
        own = shown.counts[pattern]
        asked = np.where(earlier(shown.column, own) < limit.take(shown.column), own, 0)
        clutches.append(_each(asked))
        patterns.append(np.full(len(clutches[-1]), pattern, dtype=np.intp))
    clutch: Indices = np.concatenate(clutches)
    pattern_of: Indices = np.concatenate(patterns)
    if len(limits) > 1:
        order = np.argsort(clutch + rng.random(len(clutch)))
        clutch, pattern_of = clutch[order], pattern_of[order]
    return Listed(Young(shown, clutch, pattern_of))


def first_young(shown: Shown, pattern: int, limit: Tally) -> Young:
    """The first young of one pattern in each column, up to its limit: [columns]."""
    own = shown.counts[pattern]
    clutch = _each(np.clip(limit.take(shown.column) - earlier(shown.column, own), 0, own))
    return Young(shown, clutch, np.full(len(clutch), pattern, dtype=np.intp))


def _each(counts: Indices) -> Indices:
    """Every place as often as its count says."""
    some = np.flatnonzero(counts)
    return np.repeat(some, counts[some])
