"""What a chart shows, as plain values: curves, where they reach the goal, and the values at any x; no Qt."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np

from core.routes.result import Floats

Emphasis = Literal["cheapest", "selected", "other"]
# More steps than this cannot be told apart on screen and cost time to draw.
_FINEST_RISE = 500


@dataclass(frozen=True)
class Crossing:
    """Where a route first reaches the goal's chance; `note` says with what (`1.2, season 3`).

    `numbered` puts the text beside the symbol; where every x is on the axis anyway it would only crowd.
    """

    x: float
    text: str
    note: tuple[str, ...] = ()
    numbered: bool = True


@dataclass(frozen=True, eq=False)
class Series:
    """One route's curve; `noise` is two standard errors at each point, where simulated."""

    id: str
    name: str
    place: int
    x: Floats
    y: Floats
    emphasis: Emphasis = "other"
    is_step: bool = False
    noise: Floats | None = None
    crossing: Crossing | None = None


@dataclass(frozen=True)
class Segment:
    """A stretch of money over which one route gives the best chance."""

    low: float
    high: float
    place: int
    name: str


@dataclass(frozen=True)
class Picture:
    """A whole chart; `marked` are the x values that get a symbol on every curve, none for evenly spread ones."""

    series: tuple[Series, ...]
    low: float
    high: float
    goal: float
    unit: str
    read_at: str
    description: str
    step: float = 0.0
    marked: tuple[float, ...] = ()
    segments: tuple[Segment, ...] = ()
    segments_head: str = ""
    outright: tuple[float, str] | None = None
    limit: tuple[float, str] | None = None


def thinned(x: Floats, y: Floats) -> tuple[Floats, Floats]:
    """A rising curve without the points that no eye can tell apart; first, last and every visible rise stay."""
    if x.size <= 2:
        return x, y
    level = np.floor(y * _FINEST_RISE)
    keep = np.ones(x.size, dtype=bool)
    keep[1:-1] = (level[1:-1] != level[:-2]) | (level[1:-1] != level[2:])
    return x[keep], y[keep]


def stairs(x: Floats, y: Floats, high: float) -> tuple[Floats, Floats]:
    """The corners of a staircase that rises at each x and runs on to `high`."""
    shown = x <= high
    xs, ys = x[shown], y[shown]
    if xs.size == 0:
        return xs, ys
    corners_x = np.append(np.repeat(xs, 2)[1:], high)
    return corners_x, np.repeat(ys, 2)


def value_at(series: Series, x: float) -> float | None:
    """The chance at `x`, or None before the curve begins."""
    if series.x.size == 0 or x < series.x[0]:
        return None
    if series.is_step:
        return float(series.y[np.searchsorted(series.x, x, side="right") - 1])
    return float(np.interp(x, series.x, series.y))


def noise_at(series: Series, x: float) -> float | None:
    """Two standard errors at `x`, where the curve is simulated."""
    return None if series.noise is None else float(np.interp(x, series.x, series.noise))


def marks_on(series: Series, picture: Picture) -> list[tuple[float, float]]:
    """Where the route's symbol stands on its curve: apart from those of its neighbours."""
    if picture.marked:
        wanted = list(picture.marked)
    else:
        shift = 0.25 + (series.place % 8) * 0.11
        wanted = [picture.low + (picture.high - picture.low) * (i + shift) / 5 for i in range(5)]
    points = ((x, value_at(series, x)) for x in wanted if x <= picture.high)
    return [(x, y) for x, y in points if y is not None]


def round_ticks(low: float, high: float, most: int) -> list[float]:
    """At most `most` round values between `low` and `high`, 1, 2 or 5 times a power of ten apart."""
    if not high > low or most < 1:
        return []
    rough = (high - low) / most
    power = 10.0 ** math.floor(math.log10(rough))
    step = next(power * times for times in (1, 2, 5, 10) if power * times >= rough * (1 - 1e-9))
    first = math.ceil(low / step - 1e-9)
    return [i * step for i in range(first, math.floor(high / step + 1e-9) + 1)]


def spread(wanted: list[float], heights: list[float], low: float, high: float) -> list[float]:
    """Centres as near to `wanted` (ascending) as they can be without overlapping, within `low`..`high`."""
    blocks: list[tuple[float, float, int]] = []
    for centre, height in zip(wanted, heights, strict=True):
        block = (centre - height / 2, height, 1)
        while blocks and blocks[-1][0] + blocks[-1][1] > block[0]:
            top, tall, many = blocks.pop()
            middle = ((top + tall / 2) * many + (block[0] + block[1] / 2) * block[2]) / (many + block[2])
            block = (middle - (tall + block[1]) / 2, tall + block[1], many + block[2])
        top = min(max(block[0], low), max(high - block[1], low))
        blocks.append((top, block[1], block[2]))
    return _centres(blocks, heights, low, high)


def _centres(blocks: list[tuple[float, float, int]], heights: list[float], low: float, high: float) -> list[float]:
    """The centres of the parts of each block, pushed back inside where the last block ran over the edge."""
    tops: list[float] = []
    start = 0
    for top, _, many in blocks:
        at = top
        for height in heights[start : start + many]:
            tops.append(at)
            at += height
        start += many
    edge = high
    for place in reversed(range(len(tops))):
        tops[place] = max(min(tops[place], edge - heights[place]), low)
        edge = tops[place]
    return [top + height / 2 for top, height in zip(tops, heights, strict=True)]
