"""Lays out the words inside the plot so that none lies over another and few lie over a curve."""

from __future__ import annotations

from collections.abc import Iterator

import msgspec
import numpy as np
from PySide6.QtCore import QRectF
from PySide6.QtGui import QFont, QFontMetricsF

from core.routes.result import Floats
from desktop import fonts
from desktop.panels.charts.frame import Frame
from desktop.panels.charts.placing import Box, Places
from desktop.panels.charts.series import Crossing, Picture, Series, in_sight, kept, stairs

_AWAY = 8.0
_SYMBOL = 14.0
# Points of ink lie this far apart.
_EVERY = 4.0


class Label(msgspec.Struct, frozen=True):
    """Lines of text in a box."""

    box: QRectF
    lines: tuple[str, ...]
    font: QFont


def in_order(picture: Picture) -> list[Series]:
    """The curves from the faintest to the strongest."""
    order = {"other": 0, "selected": 1, "cheapest": 2}
    return sorted(picture.series, key=lambda one: order[one.emphasis])


def crossings_in_sight(frame: Frame, picture: Picture) -> list[tuple[Series, Crossing]]:
    """Where routes reach the goal, from the faintest to the strongest."""
    if not frame.shows_chance(picture.goal):
        return []
    return [(one, one.crossing) for one in in_order(picture) if one.crossing and frame.shows(one.crossing.x)]


def lay_out(frame: Frame, picture: Picture) -> tuple[Label, ...]:
    """The labels there is room for, the ones that matter most first."""
    goal = frame.py(picture.goal)
    found = crossings_in_sight(frame, picture)
    symbols = [_around(frame.px(crossing.x), goal) for _, crossing in found]
    area = Box(frame.area.left() + 2, frame.top - 8, frame.area.width() - 4, frame.base - frame.top + 6)
    places = Places(area, _ink(frame, picture, [c.x for one, c in found if one.emphasis != "other"]), symbols)
    labels = []
    for lines, font, boxes in _wanted(frame, picture, found):
        at = places.take(boxes)
        if at is not None:
            box = boxes[at]
            labels.append(Label(QRectF(box.left, box.top, box.width, box.height), lines, font))
    return tuple(labels)


_Wanted = tuple[tuple[str, ...], QFont, list[Box]]


def _wanted(frame: Frame, picture: Picture, found: list[tuple[Series, Crossing]]) -> Iterator[_Wanted]:
    strong, quiet = fonts.sans(fonts.HEAD, bold=True), fonts.sans(fonts.NOTE)
    goal = frame.py(picture.goal)
    for one, crossing in reversed(found):
        if one.emphasis != "other" and crossing.note:
            yield crossing.note, strong, list(_along_drop(frame, crossing.x, goal, _size(crossing.note, strong)))
    # The cheapest route's own stands on the axis; the same number again would not tell of which curve it is.
    said = {crossing.text for one, crossing in found if one.emphasis == "cheapest"}
    for one, crossing in reversed(found):
        if crossing.numbered and crossing.text not in said:
            said.add(crossing.text)
            font = fonts.sans(fonts.NOTE, bold=one.emphasis == "selected")
            text = (crossing.text,)
            yield text, font, list(_about(frame, frame.px(crossing.x), goal, _size(text, font)))
    if picture.outright and picture.series and frame.shows(picture.outright[0]):
        text = (picture.outright[1],)
        yield text, quiet, list(_beside(frame, picture.outright[0], goal, _size(text, quiet)))
    if picture.limit and picture.series and picture.limit[0] < frame.sight.high:
        text = (picture.limit[1],)
        yield text, quiet, list(_at_the_right(frame, _size(text, quiet)))


def _size(lines: tuple[str, ...], font: QFont) -> tuple[float, float]:
    metrics = QFontMetricsF(font)
    return max(metrics.horizontalAdvance(line) for line in lines), metrics.height() * len(lines)


def _around(x: float, y: float) -> Box:
    return Box(x - _SYMBOL / 2, y - _SYMBOL / 2, _SYMBOL, _SYMBOL)


def _about(frame: Frame, x: float, goal: float, size: tuple[float, float]) -> Iterator[Box]:
    """Under or over the goal line, in the middle or to a side, and farther off if need be."""
    width, height = size
    rows = (goal + _AWAY, goal - _AWAY - height, goal + _AWAY + height, goal - _AWAY - 2 * height)
    sides = (x - width / 2, x - width - 4, x + 4)
    edge = frame.area.right() - 3
    for near in (rows[:2], rows[2:]):
        for side in sides:
            for row in near:
                yield Box(min(side, edge - width), row, width, height)


def _beside(frame: Frame, at: float, goal: float, size: tuple[float, float]) -> Iterator[Box]:
    """Beside an upright line, from the bottom up, on its right and on its left."""
    width, height = size
    x = frame.px(at)
    bottom = frame.base - _AWAY / 2
    while bottom - height > frame.top:
        if not goal - _AWAY - height < bottom - height < goal + _AWAY:
            yield Box(x + 7, bottom - height, width, height)
            yield Box(x - 7 - width, bottom - height, width, height)
        bottom -= height / 2


def _along_drop(frame: Frame, at: float, goal: float, size: tuple[float, float]) -> Iterator[Box]:
    """Beside the dotted line, so that it is clear whose note it is."""
    for box in _beside(frame, at, goal, size):
        if box.top > goal:
            yield box


def _at_the_right(frame: Frame, size: tuple[float, float]) -> Iterator[Box]:
    width, height = size
    bottom = frame.base - _AWAY / 2
    while bottom - height > frame.top:
        yield Box(frame.area.right() - _AWAY - width, bottom - height, width, height)
        bottom -= height / 2


def _ink(frame: Frame, picture: Picture, drops: list[float]) -> Floats:
    """Points along every curve and upright line."""
    lines = [_points(polyline(one, frame)) for one in picture.series]
    uprights = [*drops, *([picture.outright[0]] if picture.outright else [])]
    lines += [_points(np.array([[frame.px(x), frame.base], [frame.px(x), frame.top]])) for x in uprights]
    return np.concatenate(lines) if lines else np.zeros((0, 2))


def polyline(one: Series, frame: Frame) -> Floats:
    """A curve's corners in px, as (n, 2)."""
    x, y = drawn_points(one, frame)
    # A step of one in each direction, so that thousands of corners cost two products.
    start = frame.at(0.0, 0.0)
    across, up = frame.px(1.0) - start.x(), frame.py(1.0) - start.y()
    return np.column_stack([start.x() + x * across, start.y() + y * up])


def drawn_points(one: Series, frame: Frame) -> tuple[Floats, Floats]:
    """A curve in sight, with no more corners than can be told apart."""
    part = in_sight(one.x, frame.sight.low, frame.sight.high)
    x, y = one.x[part], one.y[part]
    keep = kept(y, is_step=one.is_step, rise=(frame.sight.top - frame.sight.bottom) / max(frame.area.height(), 60))
    return stairs(x[keep], y[keep], frame.sight.high) if one.is_step else (x[keep], y[keep])


def _points(corners: Floats) -> Floats:
    if len(corners) < 2:
        return corners
    along = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(corners, axis=0).T))])
    at = np.arange(0.0, along[-1] + _EVERY, _EVERY)
    return np.column_stack([np.interp(at, along, corners[:, 0]), np.interp(at, along, corners[:, 1])])
