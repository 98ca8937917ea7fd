"""How many of each clutch's young show what matters, only for the clutches where any can."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from core.routes.simulation.clutches import Clutches
from core.routes.simulation.looks import NEVER, Look
from core.routes.simulation.lots import Binomials, Indices
from core.routes.simulation.pairs import ONE_YOUNG, young_of


@dataclass(frozen=True)
class Shown:
    """Clutches of some runs in order of run and laying, with their young by pattern.

    runs: those of a flock that have any clutch here, begin: where each of them begins. All other arrays are [clutches].
    run: a place in `runs`. clutch: its place in the laying order of its run. counts: for each pattern that came up, by
    its number, the young that show it.
    """

    look: Look
    clutches: Clutches
    runs: Indices
    begin: Indices
    run: Indices
    clutch: Indices
    pair: Indices
    counts: dict[int, Indices]

    def with_room(self, pattern: int, limit: Indices) -> tuple[Indices, Indices]:
        """The clutches with young of a pattern, and what those before leave of a limit, [runs]; 0 or less: nothing."""
        counts = self.counts[pattern]
        some = np.flatnonzero(counts > 0)
        before = np.cumsum(counts)
        before -= counts
        room = (limit + before.take(self.begin)).take(self.run.take(some))
        room -= before.take(some)
        return some, room


def show(look: Look, binomials: Binomials, clutches: Clutches, runs: Indices, rng: np.random.Generator) -> Shown:
    """Draw how many young of the clutches of some runs show each pattern."""
    look.learn()
    pairs, packed = (
        own if len(runs) == own.shape[1] else own.take(runs, axis=1) for own in (clutches.pairs, clutches.packed)
    )
    able = look.shows.take(pairs)
    able &= packed >= ONE_YOUNG
    # By run, and within one by clutch.
    places = np.flatnonzero(np.ascontiguousarray(able.T))
    column = places // max(len(able), 1)
    clutch = places - column * len(able)
    cells = clutch * len(runs) + column
    pair, left = pairs.take(cells), young_of(packed.take(cells))
    sizes = np.add.reduce(able, axis=0, dtype=np.intp)
    begin = np.cumsum(sizes) - sizes
    counts = _draw(look, binomials, pair, left, rng)
    some = np.flatnonzero(sizes)
    if len(some) < len(runs):
        column = (np.cumsum(sizes > 0) - 1).take(column)
        runs, begin = runs.take(some), begin.take(some)
    return Shown(look, clutches, runs, begin, column, clutch, pair, counts)


def _draw(
    look: Look, binomials: Binomials, pair: Indices, left: Indices, rng: np.random.Generator
) -> dict[int, Indices]:
    """How many young of clutches show each pattern: one after the other, each among those that are left."""
    counts = {}
    for pattern in range(len(look.patterns) if pair.size else 0):
        rows = look.rows[pattern].take(pair)
        if rows.min() != NEVER:
            rows += left
            own = binomials.draw(rng, rows)
        elif (can := np.flatnonzero(rows != NEVER)).size:
            own = np.zeros_like(left)
            own[can] = binomials.draw(rng, rows.take(can) + left.take(can))
        else:
            continue
        left = left - own
        counts[pattern] = own
    return counts
