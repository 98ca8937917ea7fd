"""How many of each clutch's young show what matters, only for the clutches where any can."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from core.routes.simulation.clutches import Clutches
from core.routes.simulation.looks import NEVER, Look
from core.routes.simulation.lots import Binomials, Indices
from core.routes.simulation.pairs import young_of


@dataclass(frozen=True)
class Shown:
    """Clutches of some runs in order of run and laying, with their young by pattern; arrays are [clutches].

    begin: the first clutch of its run here. clutch: its place in the laying order of its run. counts: for each pattern
    that came up, by its number, the young that show it.
    """

    look: Look
    clutches: Clutches
    run: Indices
    begin: Indices
    clutch: Indices
    pair: Indices
    counts: dict[int, Indices]

    def earlier(self, counts: Indices) -> Indices:
        """The sum of the counts before each clutch in its run."""
        sums = np.cumsum(counts)
        sums -= counts
        sums -= sums.take(self.begin)
        return sums


def show(look: Look, binomials: Binomials, clutches: Clutches, runs: Indices, rng: np.random.Generator) -> Shown:
    """Draw how many young of the clutches of some runs show each pattern."""
    look.learn()
    pairs, packed = (
        own if len(runs) == own.shape[1] else own.take(runs, axis=1) for own in (clutches.pairs, clutches.packed)
    )
    all_young = young_of(packed)
    able = look.shows.take(pairs) & (all_young > 0)
    # By run, and within one by clutch.
    places = np.flatnonzero(np.ascontiguousarray(able.T))
    column = places // max(len(able), 1)
    clutch = places - column * len(able)
    cells = clutch * len(runs) + column
    pair, left = pairs.take(cells), all_young.take(cells)
    counts = {}
    for pattern in range(len(look.patterns) if places.size else 0):
        rows = look.rows[pattern].take(pair)
        can = np.flatnonzero(rows != NEVER)
        if can.size == rows.size:
            own = binomials.draw(rng, rows + left)
        elif can.size:
            own = np.zeros_like(left)
            own[can] = binomials.draw(rng, rows.take(can) + left.take(can))
        else:
            continue
        left = left - own
        counts[pattern] = own
    sizes = np.add.reduce(able, axis=0, dtype=np.intp)
    begin = (np.cumsum(sizes) - sizes).take(column)
    return Shown(look, clutches, runs.take(column), begin, clutch, pair, counts)
