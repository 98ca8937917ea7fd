"""The clutches of one season, and how many of their young show what matters."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.routes.simulation.looks import NEVER, Look
from core.routes.simulation.lots import Binomials, Floats, Indices
from core.routes.simulation.pairs import NOTHING, Pairs
from core.routes.simulation.roster import Roster


@dataclass(frozen=True)
class Clutches:
    """Clutches in laying order, [clutches, runs]: their pair, eggs and live young."""

    pairs: Indices
    eggs: Indices
    young: Indices

    def of(self, runs: Indices) -> Clutches:
        """Those of some runs only."""
        return Clutches(self.pairs.take(runs, axis=1), self.eggs.take(runs, axis=1), self.young.take(runs, axis=1))


def lay(pairs: Pairs, kinds: NDArray[np.int32], roster: Roster, rng: np.random.Generator) -> Clutches:
    """Lay and hatch the clutches of a season. kinds: [places, runs]."""
    biology = pairs.problem.biology
    found = pairs.find(roster.pairings, _gather(kinds, roster.males), _gather(kinds, roster.females))
    if biology.clutches > 1:
        if biology.lays < 1:
            found = np.where(rng.random(found.shape) < biology.lays, found, NOTHING)
        found = np.repeat(found, biology.clutches, axis=0)
    eggs, young = pairs.lay(rng, found)
    return Clutches(found, eggs, young)


def _gather(kinds: NDArray[np.int32], rows: Indices) -> NDArray[np.int32]:
    if rows.shape[1] == 1:
        return np.asarray(kinds.take(rows[:, 0], axis=0))
    return np.asarray(kinds.ravel().take(rows * kinds.shape[1] + np.arange(kinds.shape[1])))


@dataclass(frozen=True)
class Shown:
    """Young by pattern: how many of each clutch show it.

    patterns: the numbers of those that came up. counts: for each of these patterns, in the clutches `where` (indices
    into the flattened clutches) that could show any.
    """

    patterns: tuple[int, ...]
    where: Indices
    counts: tuple[Indices, ...]
    shape: tuple[int, ...]

    def of(self, pattern: int) -> Indices:
        """How many young of each clutch show the pattern: [clutches, runs]."""
        every = np.zeros(self.shape, dtype=np.intp)
        every.ravel()[self.where] = self.counts[self.patterns.index(pattern)]
        return every


def show(look: Look, binomials: Binomials, clutches: Clutches, rng: np.random.Generator) -> Shown:
    """Draw how many of each clutch's young show each pattern."""
    look.learn()
    where = np.flatnonzero(look.shows.take(clutches.pairs) & (clutches.young > 0))
    pairs, left = clutches.pairs.ravel().take(where), clutches.young.ravel().take(where)
    patterns, counts = [], []
    for pattern in range(len(look.patterns) if where.size else 0):
        rows = look.rows[pattern].take(pairs)
        able = np.flatnonzero(rows != NEVER)
        if not able.size:
            continue
        if able.size == rows.size:
            own = binomials.draw(rng, rows + left)
        else:
            own = np.zeros_like(left)
            own[able] = binomials.draw(rng, rows[able] + left[able])
        left = left - own
        patterns.append(pattern)
        counts.append(own)
    return Shown(tuple(patterns), where, tuple(counts), clutches.pairs.shape)


def worth(look: Look, clutches: Clutches, shown: Shown) -> Floats:
    """What all young of each run could bring if none counted or were held: [runs]."""
    total = (clutches.young * look.worth[-1].take(clutches.pairs)).sum(axis=0)
    if shown.patterns:
        pairs, runs = clutches.pairs.ravel().take(shown.where), shown.where % shown.shape[1]
        more = sum(
            own * (look.worth[pattern] - look.worth[-1]).take(pairs)
            for pattern, own in zip(shown.patterns, shown.counts, strict=True)
        )
        total += np.bincount(runs, weights=np.asarray(more), minlength=shown.shape[1])
    return np.asarray(total)


def nth_hit(eggs: Indices, hits: Indices, nth: Indices, rng: np.random.Generator) -> Indices:
    """Which egg of a clutch is the n-th of its hits, all orders equally likely; every array [clutches]."""
    position = np.zeros(len(eggs), dtype=np.intp)
    going, eggs, hits, nth = np.arange(len(eggs)), eggs.copy(), hits.copy(), nth.copy()
    while going.size:
        hit = rng.random(len(going)) * eggs < hits
        position[going] += 1
        eggs -= 1
        hits -= hit
        nth -= hit
        on = np.flatnonzero(nth > 0)
        if on.size < going.size:
            going, eggs, hits, nth = going[on], eggs[on], hits[on], nth[on]
    return position
