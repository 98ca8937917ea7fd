"""The end of a season where only a count of goal animals matters: one row wanted, and nothing to hold back."""

from __future__ import annotations

import numpy as np

from core.routes.simulation.clutches import Clutches, running_sums
from core.routes.simulation.flock import Tally
from core.routes.simulation.lots import Floats, Indices
from core.routes.simulation.outcome import Outcome
from core.routes.simulation.pairs import hits_of


def count_goal(
    outcome: Outcome, clutches: Clutches, all_hits: Indices, need: Tally, worth: Floats | None, rng: np.random.Generator
) -> None:
    """Count goal animals, the first in laying order.

    all_hits, need: [runs], how many there are and how many are wanted. worth: [pairs], what a goal animal could bring.
    """
    runs = np.flatnonzero(all_hits > 0)
    if not runs.size:
        return
    hits, wanted = hits_of(clutches.packed.take(runs, axis=1)), need.take(runs).astype(np.intp)
    sums = running_sums(hits)
    counted = np.minimum(sums[-1], wanted)
    outcome.surplus[runs] -= counted
    outcome.filled[0, runs] = counted
    if worth is not None:
        each = np.minimum(np.maximum(wanted - (sums - hits), 0), hits)
        outcome.sales[runs] -= (each * worth.take(clutches.pairs.take(runs, axis=1))).sum(axis=0)
    met = np.flatnonzero(sums[-1] >= wanted)
    clutch = (sums.take(met, axis=1) < wanted.take(met)).sum(axis=0)
    of_clutch = hits[clutch, met]
    nth = wanted.take(met) - (sums[clutch, met] - of_clutch)
    outcome.meet(clutches, runs.take(met), clutch, of_clutch, nth, rng)
