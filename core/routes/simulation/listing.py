"""Young one by one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.routes.simulation.flock import Tally
from core.routes.simulation.lots import Indices
from core.routes.simulation.shown import Shown

Flags = NDArray[np.bool_]


@dataclass(frozen=True)
class Young:
    """Young one by one. clutch: their clutch's place in `shown`; column, pattern: as there."""

    shown: Shown
    clutch: Indices
    column: Indices
    pattern: Indices

    @staticmethod
    def of(shown: Shown, clutch: Indices, pattern: Indices) -> Young:
        """Young of these clutches and patterns."""
        return Young(shown, clutch, shown.column.take(clutch), pattern)

    def chosen(self, where: Indices) -> Young:
        """Some of them, in this order."""
        return Young(self.shown, self.clutch.take(where), self.column.take(where), self.pattern.take(where))

    def by_run(self) -> Young:
        """The same in order of run, within a run as they were."""
        # Sorting small whole numbers is several times faster.
        small = self.column.astype(np.uint16) if len(self.shown.runs) < 2**16 else self.column
        return self.chosen(np.argsort(small, kind="stable"))


def together(parts: Sequence[Young]) -> Young:
    """Several lists in one, one after the other."""
    return Young(
        parts[0].shown,
        np.concatenate([part.clutch for part in parts]),
        np.concatenate([part.column for part in parts]),
        np.concatenate([part.pattern for part in parts]),
    )


class Listed:
    """Young that more than one goal row or herd could ask for, in order of run and laying."""

    def __init__(self, young: Young) -> None:
        """Nothing is counted or held yet."""
        self.young = young
        self.counted: Flags = np.zeros(len(young.clutch), dtype=np.bool_)
        self.held: Flags = np.zeros(len(young.clutch), dtype=np.bool_)
        counts = np.bincount(young.column, minlength=len(young.shown.runs))
        self._starts = np.cumsum(counts) - counts

    def count(self, bit: int, limit: Tally) -> Young:
        """Count the first young of each column whose pattern has the bit, up to its limit: [columns]."""
        return self._take(self.counted, bit, limit)

    def hold(self, bit: int, limit: Tally) -> Young:
        """Hold the first such young back, up to the limit: [columns]; those that counted may be among them."""
        return self._take(self.held, bit, limit)

    def _take(self, taken: Flags, bit: int, limit: Tally) -> Young:
        fits = np.array([bool(own >> bit & 1) for own in self.young.shown.look.patterns], dtype=np.bool_)
        eligible = fits.take(self.young.pattern) & ~taken if fits.any() else np.zeros_like(taken)
        if eligible.any():
            sums = np.cumsum(eligible)
            before = np.concatenate(([0], sums)).take(self._starts)
            eligible &= sums <= (before + limit).take(self.young.column)
            taken |= eligible
        return self.young.chosen(np.flatnonzero(eligible))


def list_young(shown: Shown, limits: dict[int, Tally], rng: np.random.Generator) -> Listed:
    """List young of some patterns, at least as many of a pattern as its limit, [columns], where there are so many.

    A clutch's young of a pattern are listed all or none: only then are all orders of the listed young equally likely.
    """
    clutches: list[Indices] = [np.empty(0, dtype=np.intp)]
    patterns: list[Indices] = [np.empty(0, dtype=np.intp)]
    for pattern, limit in limits.items():
        own = shown.counts[pattern]
        asked = np.where(shown.earlier(own) < limit.take(shown.column), own, 0)
        clutches.append(_each(asked))
        patterns.append(np.full(len(clutches[-1]), pattern, dtype=np.intp))
    clutch: Indices = np.concatenate(clutches)
    pattern_of: Indices = np.concatenate(patterns)
    if len(limits) > 1:
        order = np.argsort(clutch + rng.random(len(clutch)))
        clutch, pattern_of = clutch[order], pattern_of[order]
    return Listed(Young.of(shown, clutch, pattern_of))


def first_young(shown: Shown, pattern: int, limit: Tally) -> Young:
    """The first young of one pattern in each column, up to its limit: [columns]."""
    own = shown.counts[pattern]
    clutch = _each(np.clip(limit.take(shown.column) - shown.earlier(own), 0, own))
    return Young.of(shown, clutch, np.full(len(clutch), pattern, dtype=np.intp))


def _each(counts: Indices) -> Indices:
    """Every place as often as its count says."""
    some = np.flatnonzero(counts)
    return np.repeat(some, counts[some])
