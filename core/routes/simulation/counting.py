"""The end of a season where only a count of goal animals matters: one row wanted, and nothing to hold back."""

from __future__ import annotations

import numpy as np

from core.routes.simulation.clutches import Clutches
from core.routes.simulation.flock import Tally
from core.routes.simulation.lots import Floats
from core.routes.simulation.outcome import Outcome
from core.routes.simulation.pairs import hits_of


def count_goal(
    outcome: Outcome, clutches: Clutches, need: Tally, worth: Floats | None, rng: np.random.Generator
) -> None:
    """Count goal animals, the first in laying order.

    need: [runs of the flock], how many are wanted. worth: [pairs], what a goal animal could bring.
    """
    hitting = np.flatnonzero(hits_of(outcome.add(clutches)))
    if not hitting.size:
        return
    runs, own = clutches.runs.take(hitting), clutches.packed.take(hitting, axis=1)
    hits, wanted = hits_of(own), need.take(runs).astype(np.intp)
    sums = np.cumsum(hits, axis=0)
    counted = np.minimum(sums[-1], wanted)
    outcome.surplus[runs] -= counted
    outcome.filled[0, runs] += counted.astype(np.int32)
    if worth is not None:
        each = np.clip(wanted - (sums - hits), 0, hits)
        outcome.sales[runs] -= (each * worth.take(clutches.pairs.take(hitting, axis=1))).sum(axis=0)
    met = np.flatnonzero(sums[-1] >= wanted)
    clutch = (sums[:, met] < wanted[met]).sum(axis=0)
    of_clutch = hits[clutch, met]
    nth = wanted[met] - (sums[clutch, met] - of_clutch)
    outcome.meet(clutches, hitting[met], clutch, of_clutch, nth, rng)
