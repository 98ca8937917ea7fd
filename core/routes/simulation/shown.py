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

    columns, runs: [columns], which of `clutches` have any such clutch, ascending, and their runs in the flock.
    column: the place of a clutch's run in `runs`. begins, sizes: [columns], the first clutch of each run here and how
    many it has. clutch: a clutch's place in the laying order of its run. counts: for each pattern that came up, by its
    number, the young that show it.
    """

    look: Look
    clutches: Clutches
    columns: Indices
    runs: Indices
    begins: Indices
    sizes: Indices
    column: Indices
    clutch: Indices
    pair: Indices
    counts: dict[int, Indices]

    def earlier(self, counts: Indices) -> Indices:
        """The sum of the counts before each clutch in its run."""
        sums = np.cumsum(counts)
        sums -= counts
        sums -= np.repeat(sums.take(self.begins), self.sizes)
        return sums


def show(look: Look, binomials: Binomials, clutches: Clutches, rng: np.random.Generator) -> Shown:
    """Draw how many young of some clutches show each pattern."""
    look.learn()
    all_young = young_of(clutches.packed)
    able = look.shows.take(clutches.pairs) & (all_young > 0)
    each = able.sum(axis=0)
    columns = np.flatnonzero(each)
    sizes = each.take(columns)
    column = np.repeat(np.arange(len(columns)), sizes)
    run = columns.take(column)
    clutch = np.flatnonzero(able.T) - run * len(able)
    cells = clutch * able.shape[1] + run
    pair, young = clutches.pairs.take(cells), all_young.take(cells)
    left, counts = young, {}
    for pattern in range(len(look.patterns) if columns.size else 0):
        rows = look.rows[pattern].take(pair)
        can = np.flatnonzero(rows != NEVER)
        if can.size == rows.size:
            own = binomials.draw(rng, rows + left)
        elif can.size:
            own = np.zeros_like(left)
            own[can] = binomials.draw(rng, rows[can] + left[can])
        else:
            continue
        left = left - own
        counts[pattern] = own
    begins = np.cumsum(sizes) - sizes
    return Shown(look, clutches, columns, clutches.runs.take(columns), begins, sizes, column, clutch, pair, counts)
