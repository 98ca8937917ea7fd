"""What a chart shows, as plain values: curves, where they reach the goal, and the values at any x; no Qt."""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

import msgspec
import numpy as np
from msgspec.structs import fields

from core.routes.result import Floats

Emphasis = Literal["cheapest", "selected", "other"]
# More levels than this cannot be told apart on screen and cost time to draw.
LEVELS = 500


def distinct(values: Floats) -> Floats:
    """Every value once, ascending. Numpy's own function for this loads its masked arrays, which a start waits for."""
    ordered: Floats = np.sort(values)
    first = np.append(True, np.diff(ordered) > 0)
    return np.compress(first[: ordered.size], ordered)


class Crossing(msgspec.Struct, frozen=True):
    """Where a route first reaches the goal's chance; `note` says with what (`1.2, season 3`).

    `numbered` puts the text beside the symbol; where every x is on the axis anyway it would only crowd.
    """

    x: float
    text: str
    note: tuple[str, ...] = ()
    numbered: bool = True


class Series(msgspec.Struct, frozen=True, eq=False):
    """One route's curve; `noise` is two standard errors at each point, where simulated.

    `is_stale`: the curve is the one from before the last change, until the new one is there.
    """

    id: str
    name: str
    mark: int
    x: Floats
    y: Floats
    emphasis: Emphasis = "other"
    is_step: bool = False
    noise: Floats | None = None
    crossing: Crossing | None = None
    is_stale: bool = False


class Segment(msgspec.Struct, frozen=True):
    """A stretch of money over which one route gives the best chance."""

    low: float
    high: float
    mark: int
    name: str


class Picture(msgspec.Struct, frozen=True, eq=False):
    """A whole chart.

    `marked` are the x values that get a symbol on every curve, none for evenly spread ones; `grid` is what a pointed-at
    x is rounded to; `stops` are the x values that keys move through and the table lists; `notes` stand under it.
    """

    series: tuple[Series, ...]
    low: float
    high: float
    goal: float
    unit: str
    read_at: Callable[[float, str], str]
    description: str
    grid: float = 1.0
    stops: Floats = msgspec.field(default_factory=lambda: np.zeros(0))
    marked: tuple[float, ...] = ()
    segments: tuple[Segment, ...] = ()
    segments_head: str = ""
    outright: tuple[float, str] | None = None
    limit: tuple[float, str] | None = None
    notes: tuple[str, ...] = ()


def thinned(x: Floats, y: Floats, *, is_step: bool = False, rise: float = 1 / LEVELS) -> tuple[Floats, Floats]:
    """A rising curve without the points that no eye can tell apart; first, last and every rise of `rise` stay."""
    keep = kept(y, is_step=is_step, rise=rise)
    return x[keep], y[keep]


def kept(y: Floats, *, is_step: bool, rise: float) -> Floats:
    """Which points of a rising curve have to be drawn, as a mask."""
    keep = np.ones(y.size, dtype=bool)
    if y.size <= 2:
        return keep
    level = np.floor(y / rise)
    keep[1:-1] = level[1:-1] != level[:-2]
    if not is_step:
        # A slope needs both ends of a flat stretch.
        keep[1:-1] |= level[1:-1] != level[2:]
    return keep


def in_sight(x: Floats, low: float, high: float) -> slice:
    """The points between `low` and `high`, and the one beyond on either side."""
    first = int(np.searchsorted(x, low, side="right")) - 1
    last = int(np.searchsorted(x, high, side="left")) + 1
    return slice(max(first, 0), last)


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
    if series.x.size == 0 or x < series.x[0] - 1e-9:
        return None
    return float(_values(series, series.y, x))


def noise_at(series: Series, x: float) -> float | None:
    """Two standard errors at `x`, where the curve is simulated."""
    if series.noise is None or value_at(series, x) is None:
        return None
    return float(_values(series, series.noise, x))


def _values(series: Series, of: Floats, x: float) -> float:
    if series.is_step:
        return float(of[max(int(np.searchsorted(series.x, x + 1e-9, side="right")) - 1, 0)])
    return float(np.interp(x, series.x, of))


def marks_on(series: Series, picture: Picture, low: float, high: float) -> list[tuple[float, float]]:
    """Where the route's symbol stands on its curve in sight: apart from those of its neighbours."""
    if picture.marked:
        wanted = [x for x in picture.marked if low <= x <= high]
    else:
        shift = 0.25 + (series.mark % 8) * 0.11
        wanted = [low + (high - low) * (i + shift) / 5 for i in range(5)]
    points = ((x, value_at(series, x)) for x in wanted if x <= high)
    return [(x, y) for x, y in points if y is not None]


def next_stop(picture: Picture, x: float | None, turns: int, *, start: float) -> float | None:
    """The stop `turns` stops away from `x`; the first time the one at or after `start`."""
    stops = picture.stops
    if not stops.size:
        return None
    if x is None:
        at = int(np.searchsorted(stops, start - 1e-9))
    elif turns >= 0:
        at = int(np.searchsorted(stops, x + 1e-9)) + turns - 1
    else:
        at = int(np.searchsorted(stops, x - 1e-9)) + turns
    return float(stops[min(max(at, 0), stops.size - 1)])


def alike(one: object, other: object) -> bool:
    """Whether two pictures, or parts of them, show the same: what is seen already need not be painted again."""
    if isinstance(one, np.ndarray) or isinstance(other, np.ndarray):
        return isinstance(one, np.ndarray) and isinstance(other, np.ndarray) and np.array_equal(one, other)
    if isinstance(one, tuple) and isinstance(other, tuple):
        return len(one) == len(other) and all(map(alike, one, other))
    if isinstance(one, msgspec.Struct) and type(one) is type(other):
        return all(alike(getattr(one, part.name), getattr(other, part.name)) for part in fields(one))
    return one == other
