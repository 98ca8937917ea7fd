"""Paints what lies under the curves: hairlines, numbers, the band beyond the budget."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPen

from desktop import fonts
from desktop.panels.charts.frame import Frame
from desktop.panels.charts.layer import Painting
from desktop.panels.charts.series import Picture, round_ticks
from desktop.theme import Colours, colour
from desktop.words.numbers import Numbers

_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
_LOW_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignBottom
_CENTRE = Qt.AlignmentFlag.AlignCenter
_TICK_EVERY = 76


def hairlines(painter: QPainter, frame: Frame, picture: Picture, colours: Colours) -> None:
    """A line each 20 %, with its number left of it; the goal's own number stands in its grip."""
    painter.setFont(fonts.sans(fonts.NOTE))
    for share in range(0, 101, 20):
        y = frame.py(share / 100)
        painter.setPen(QPen(colour(colours.rule if share == 0 else colours.hairline), 1))
        painter.drawLine(QPointF(frame.area.left(), y), QPointF(frame.area.right(), y))
        if abs(share / 100 - picture.goal) > 0.06:
            painter.setPen(colour(colours.second))
            text = "100 %" if share == 100 else str(share)
            painter.drawText(QRectF(0, y - 9, frame.area.left() - 8, 18), _RIGHT, text)


def over_limit(painter: QPainter, frame: Frame, picture: Picture, colours: Colours) -> None:
    """The stretch of money that is more than there is."""
    if picture.limit is None or picture.limit[0] >= picture.high or not picture.series:
        return
    left = max(frame.px(picture.limit[0]), frame.area.left())
    top = frame.py(1)
    band = QRectF(left, top, frame.area.right() - left, frame.py(0) - top)
    painter.fillRect(band, colour(colours.hover))
    painter.setFont(fonts.sans(fonts.NOTE))
    painter.setPen(colour(colours.second))
    # The lower right is where curves seldom run.
    painter.drawText(band.adjusted(0, 0, -8, -6), _LOW_RIGHT, picture.limit[1])


def bottom_numbers(numbers: Numbers) -> Painting:
    """Round numbers under the chart, the unit after the last one, and room for the ones that matter."""

    def paint(painter: QPainter, frame: Frame, picture: Picture, colours: Colours) -> None:
        y = frame.py(0) + 4
        taken = _bold_numbers(painter, frame, picture, colours, y)
        painter.setFont(fonts.sans(fonts.NOTE))
        painter.setPen(colour(colours.second))
        metrics = QFontMetricsF(painter.font())
        for value in _ticks(frame, picture):
            text = numbers.whole(round(value))
            width = metrics.horizontalAdvance(text)
            box = QRectF(frame.px(value) - width / 2, y, width, 18)
            if not any(box.adjusted(-8, 0, 8, 0).intersects(other) for other in taken):
                painter.drawText(box, _CENTRE, text)
        painter.drawText(QRectF(frame.area.right() + 14, y, frame.width - frame.area.right() - 14, 18), picture.unit)

    return paint


def _ticks(frame: Frame, picture: Picture) -> list[float]:
    if picture.marked:
        return list(picture.marked)
    ticks = round_ticks(picture.low, picture.high, max(2, int(frame.area.width() / _TICK_EVERY)))
    return [tick for tick in ticks if not picture.step or abs(tick - round(tick)) < 1e-9]


def _bold_numbers(painter: QPainter, frame: Frame, picture: Picture, colours: Colours, y: float) -> list[QRectF]:
    """The cheapest route's own number, on the axis under its crossing."""
    taken = []
    painter.setFont(fonts.sans(fonts.FORM, bold=True))
    painter.setPen(colour(colours.text))
    metrics = QFontMetricsF(painter.font())
    for one in picture.series:
        if one.emphasis == "cheapest" and one.crossing and one.crossing.x <= picture.high:
            width = metrics.horizontalAdvance(one.crossing.text)
            box = QRectF(frame.px(one.crossing.x) - width / 2, y - 1, width, 18)
            painter.drawText(box, _CENTRE, one.crossing.text)
            taken.append(box)
    return taken
