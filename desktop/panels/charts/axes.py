"""Paints what lies under the curves: hairlines, numbers, the band beyond the budget."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPen

from desktop import fonts
from desktop.panels.charts.frame import Frame
from desktop.panels.charts.labels import crossings_in_sight
from desktop.panels.charts.layer import Painting, Scene
from desktop.panels.charts.placing import Box, round_ticks
from desktop.panels.charts.series import Picture
from desktop.panels.steps.drawing import numbered
from desktop.theme import colour
from desktop.words.numbers import Numbers, percent, price, trimmed

_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
_CENTRE = Qt.AlignmentFlag.AlignCenter
_TICK_EVERY = 76
_SHARES = 6
_BEFORE_UNIT = 3
_BETWEEN_SEASONS = 6


def hairlines(numbers: Numbers) -> Painting:
    """A line each 20 %, nearer when zoomed, with its number left of it; the goal's number stands in its grip."""

    def paint(painter: QPainter, scene: Scene) -> None:
        frame, colours = scene.frame, scene.colours
        painter.setFont(fonts.sans(fonts.NOTE))
        height = QFontMetricsF(painter.font()).height()
        for share in round_ticks(max(frame.sight.bottom, 0) * 100, min(frame.sight.top, 1) * 100, _SHARES):
            y = frame.py(share / 100)
            painter.setPen(QPen(colour(colours.rule if share == 0 else colours.hairline), 1))
            painter.drawLine(QPointF(frame.area.left(), y), QPointF(frame.area.right(), y))
            if abs(y - frame.py(scene.picture.goal)) > height:
                painter.setPen(colour(colours.second))
                box = QRectF(0, y - height / 2, frame.area.left() - 8, height)
                painter.drawText(box, _RIGHT, _share(share, numbers))

    return paint


def _share(share: float, numbers: Numbers) -> str:
    return percent(1, numbers) if share == 100 else trimmed(share, 4, numbers)


def over_limit(painter: QPainter, scene: Scene) -> None:
    """The stretch of money that is more than there is."""
    frame, picture = scene.frame, scene.picture
    if picture.limit is None or picture.limit[0] >= frame.sight.high or not picture.series:
        return
    left = max(frame.px(picture.limit[0]), frame.area.left())
    band = QRectF(left, frame.top, frame.area.right() - left, frame.base - frame.top)
    painter.fillRect(band, colour(scene.colours.hover))


def bottom_numbers(numbers: Numbers) -> Painting:
    """Round numbers under the chart, the unit after the last one, and room for the ones that matter."""

    def paint(painter: QPainter, scene: Scene) -> None:
        frame, picture = scene.frame, scene.picture
        y = frame.area.bottom() + 4
        taken = _bold_numbers(painter, scene, y)
        painter.setFont(fonts.sans(fonts.NOTE))
        painter.setPen(colour(scene.colours.second))
        for box, text in round_numbers(frame, picture, numbers):
            if not any(box.touches(other, 8) for other in taken):
                painter.drawText(_rect(box), _CENTRE | Qt.TextFlag.TextDontClip, text)
        left, height = unit_from(frame), QFontMetricsF(painter.font()).height()
        room = frame.width - left
        unit = QFontMetricsF(painter.font()).elidedText(picture.unit, Qt.TextElideMode.ElideRight, room)
        painter.drawText(QRectF(left, y, room, height), _unit_flags(), unit)

    return paint


def unit_from(frame: Frame) -> float:
    """The px from which the unit is written."""
    return frame.area.right() + 14


def round_numbers(frame: Frame, picture: Picture, numbers: Numbers) -> list[tuple[Box, str]]:
    """Round values and where they are written; none that would run into the unit."""
    metrics = QFontMetricsF(fonts.sans(fonts.NOTE))
    written = []
    for value in _ticks(frame, picture):
        text = numbers.whole(round(value)) if picture.grid == 1 else price(value, numbers)
        width = metrics.horizontalAdvance(text)
        box = Box(frame.px(value) - width / 2, frame.area.bottom() + 4, width, metrics.height())
        if box.right < unit_from(frame) - _BEFORE_UNIT:
            written.append((box, text))
    return written


def _unit_flags() -> Qt.AlignmentFlag | Qt.TextFlag:
    return Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter | Qt.TextFlag.TextSingleLine


def _ticks(frame: Frame, picture: Picture) -> list[float]:
    if picture.marked:
        return _seasons_numbered(frame, picture)
    wide = QFontMetricsF(fonts.sans(fonts.NOTE)).horizontalAdvance("0") * _TICK_EVERY / 6
    ticks = round_ticks(frame.sight.low, frame.sight.high, max(2, int(frame.area.width() / wide)))
    return [tick for tick in ticks if picture.grid < 1 or abs(tick - round(tick)) < 1e-9]


def _seasons_numbered(frame: Frame, picture: Picture) -> list[float]:
    """Those in sight, or every second, fifth or tenth where their numbers would run into each other."""
    room = QFontMetricsF(fonts.sans(fonts.NOTE)).horizontalAdvance(str(len(picture.marked))) + _BETWEEN_SEASONS
    chosen = numbered(len(picture.marked), frame.px(1) - frame.px(0), room)
    return [float(season) for season in chosen if frame.shows(season)]


def _bold_numbers(painter: QPainter, scene: Scene, y: float) -> list[Box]:
    """The cheapest route's own number, on the axis under its crossing."""
    taken = []
    painter.setFont(fonts.sans(fonts.FORM, bold=True))
    painter.setPen(colour(scene.colours.text))
    metrics = QFontMetricsF(painter.font())
    for one, crossing in crossings_in_sight(scene.frame, scene.picture):
        if one.emphasis == "cheapest":
            width = metrics.horizontalAdvance(crossing.text)
            box = Box(scene.frame.px(crossing.x) - width / 2, y - 1, width, metrics.height())
            painter.drawText(_rect(box), _CENTRE | Qt.TextFlag.TextDontClip, crossing.text)
            taken.append(box)
    return taken


def _rect(box: Box) -> QRectF:
    return QRectF(box.left, box.top, box.width, box.height)
