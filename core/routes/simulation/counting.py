"""The end of a season where only a count of goal animals matters: one row wanted, and nothing to hold back."""

from __future__ import annotations

import numpy as np

from core.routes.simulation.flock import Tally
from core.routes.simulation.outcome import Outcome
from core.routes.simulation.shown import Shown, earlier

_GOAL = 0


def count_goal(outcome: Outcome, shown: Shown, need: Tally, rng: np.random.Generator) -> None:
    """Count goal animals, the first in laying order. need: [runs], how many are wanted."""
    some = np.flatnonzero(shown.counts[_GOAL]) if shown.counts else shown.column[:0]
    if not some.size:
        return
    hits, column, clutch = shown.counts[_GOAL][some], shown.column[some], shown.clutch[some]
    runs = shown.runs[column]
    left = need[runs] - earlier(column, hits)
    counted = np.clip(left, 0, hits)
    outcome.not_surplus(runs, counted)
    outcome.add_sales(runs, -counted * shown.look.worth[_GOAL].take(shown.pair[some]))
    outcome.filled[0] += np.bincount(runs, weights=counted, minlength=len(need)).astype(np.int32)
    met = np.flatnonzero((left > 0) & (left <= hits))
    outcome.meet(runs[met], clutch[met], hits[met], left[met], rng)
