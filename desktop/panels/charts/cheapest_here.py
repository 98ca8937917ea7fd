"""Which route gives the best chance at each sum of money; no Qt."""

from __future__ import annotations

import math

import numpy as np

from core.routes.result import Floats
from desktop.panels.charts.series import Segment, Series, distinct

# Differences that no one could see must not flicker between routes: of the chance, and of the money that it takes.
_ALIKE = 0.001
_AS_SOON = 0.002


def segments(series: list[Series], low: float, high: float) -> tuple[Segment, ...]:
    """Stretches of money with their best route; of equals the one that needs least for the goal.

    What gives no chance at all is nobody's best.
    """
    ranked = sorted(series, key=lambda one: (one.crossing.x if one.crossing else math.inf, one.mark))
    edges = distinct(np.concatenate([one.x[(one.x >= low) & (one.x < high)] for one in ranked] or [np.zeros(0)]))
    if edges.size == 0:
        return ()
    highest = np.stack([_values(one, edges) for one in ranked]).max(axis=0)
    edges, highest = edges[highest > 0], highest[highest > 0]
    if edges.size == 0:
        return ()
    soon = np.stack([_values(one, edges + (high - low) * _AS_SOON) for one in ranked])
    best = np.argmax(soon >= highest - _ALIKE, axis=0)
    turns = [0, *(np.flatnonzero(np.diff(best)) + 1).tolist()]
    ends = [*(float(edges[turn]) for turn in turns[1:]), high]
    return tuple(
        Segment(float(edges[turn]), end, ranked[best[turn]].mark, ranked[best[turn]].name)
        for turn, end in zip(turns, ends, strict=True)
        if end > edges[turn]
    )


def segment_at(stretches: tuple[Segment, ...], x: float) -> Segment | None:
    """The stretch that `x` lies in."""
    return next((one for one in reversed(stretches) if one.low <= x + 1e-9), None)


def _values(one: Series, edges: Floats) -> Floats:
    at = np.searchsorted(one.x, edges, side="right") - 1
    return np.where(at >= 0, one.y[np.maximum(at, 0)], -1.0)
