"""The end of a season where only a count of goal animals matters: one row wanted, and nothing to hold back."""

from __future__ import annotations

import numpy as np

from core.routes.simulation.clutches import nth_hit
from core.routes.simulation.flock import Tally
from core.routes.simulation.lots import Indices
from core.routes.simulation.outcome import Scene


def count_goal(scene: Scene, need: Tally, rng: np.random.Generator) -> None:
    """Count goal animals; the first in laying order are the ones that count. need: [columns], how many are wanted."""
    if not scene.shown.patterns:
        return
    hits = scene.shown.of(scene.shown.patterns[0])
    counted = np.minimum(hits.sum(axis=0), need)
    some = np.flatnonzero(counted)
    if not some.size:
        return
    scene.outcome.surplus[scene.runs] -= counted
    scene.outcome.filled[0, scene.runs] = counted
    hits, need = hits.take(some, axis=1), need.take(some)
    sums = np.cumsum(hits, axis=0)
    _not_sold(scene, some, np.minimum(sums, need))
    met = np.flatnonzero(sums[-1] >= need)
    if met.size:
        clutch = np.argmax(sums[:, met] >= need[met], axis=0)
        own = hits[clutch, met]
        nth = need[met] - (sums[clutch, met] - own)
        scene.meet(some[met], clutch, nth_hit(scene.clutches.eggs[clutch, some[met]], own, nth, rng))


def _not_sold(scene: Scene, columns: Indices, counted: Indices) -> None:
    """Take what counted out of the sales. counted: [clutches, columns], running sums."""
    own = np.diff(counted, axis=0, prepend=0)
    values = scene.look.worth[0].take(scene.clutches.pairs.take(columns, axis=1))
    scene.outcome.sales[scene.runs[columns]] -= (own * values).sum(axis=0)
