"""Paints what lies over the curves: symbols, the goal line, crossings, the outright price."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPen

from desktop import fonts
from desktop.marks import draw_symbol, mark_of
from desktop.panels.charts.frame import Frame
from desktop.panels.charts.series import Picture, Series, marks_on
from desktop.theme import Colours, colour

_CENTRE = Qt.AlignmentFlag.AlignCenter
_LINE = 17.0
# The name of the band beyond the budget stands at the lower right.
_LIMIT_ROOM = 70.0
# In a narrower chart the price is read on the axis: its words would lie over the crossings' own.
_ROOM_FOR_WORDS = 260.0


def symbols(painter: QPainter, frame: Frame, picture: Picture, colours: Colours) -> None:
    """A few of each route's symbols along its curve."""
    for one in in_order(picture):
        size = 9.0 if one.emphasis == "cheapest" else 7.5
        for x, y in marks_on(one, picture):
            if abs(x - (one.crossing.x if one.crossing else -1)) * frame.area.width() > 12 * (
                picture.high - picture.low
            ):
                draw_symbol(painter, mark_of(one.place), colours, frame.at(x, y), size)


def outright_price(painter: QPainter, frame: Frame, picture: Picture, colours: Colours) -> None:
    """An upright line where buying the finished animal would do."""
    if picture.outright is None or not picture.series or not picture.low < picture.outright[0] < picture.high:
        return
    x = frame.px(picture.outright[0])
    painter.setPen(QPen(colour(colours.second), 1.4))
    painter.drawLine(QPointF(x, frame.py(0)), QPointF(x, frame.py(1)))
    if frame.area.width() < _ROOM_FOR_WORDS:
        return
    painter.setFont(fonts.sans(fonts.NOTE))
    width = QFontMetricsF(painter.font()).horizontalAdvance(picture.outright[1])
    left = x + 7 if x + 7 + width < frame.area.right() else x - 7 - width
    # One line higher where the name of the band beyond the budget stands.
    low = frame.py(0) - (23 if left + width < frame.area.right() - _LIMIT_ROOM else 40)
    _backed(painter, QRectF(left, low, width, 18), picture.outright[1], colours)


def goal_line(painter: QPainter, frame: Frame, picture: Picture, colours: Colours) -> None:
    """The goal's chance across the chart, with its grip on the axis."""
    y = frame.py(picture.goal)
    painter.setPen(QPen(colour(colours.accent), 1.6))
    painter.drawLine(QPointF(frame.area.left(), y), QPointF(frame.area.right(), y))
    text = f"{picture.goal * 100:.4g} %"
    font = fonts.sans(fonts.HEAD, bold=True)
    width = QFontMetricsF(font).horizontalAdvance(text) + 14
    box = QRectF(frame.area.left() - 4 - width, y - 9.5, width, 19)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colour(colours.accent))
    painter.drawRoundedRect(box, 9, 9)
    painter.setPen(colour(colours.on_accent))
    painter.setFont(font)
    painter.drawText(box, _CENTRE, text)


def crossings(painter: QPainter, frame: Frame, picture: Picture, colours: Colours) -> None:
    """Each route's symbol, open, where it first reaches the goal, with its number."""
    shown = [one for one in in_order(picture) if one.crossing and picture.low <= one.crossing.x <= picture.high]
    taken: list[QRectF] = []
    for one in reversed(shown):
        if one.emphasis != "other":
            _drop_line(painter, frame, one, picture.goal, colours, taken)
    for one in reversed(shown):
        if one.emphasis != "cheapest" and one.crossing and one.crossing.numbered:
            _number(painter, frame, one, picture.goal, colours, taken)
    for one in shown:
        if one.crossing:
            size = 15.0 if one.emphasis == "cheapest" else 11.0
            at = frame.at(one.crossing.x, picture.goal)
            draw_symbol(painter, mark_of(one.place), colours, at, size, is_open=True)


def in_order(picture: Picture) -> list[Series]:
    """The curves from the faintest to the strongest."""
    order = {"other": 0, "selected": 1, "cheapest": 2}
    return sorted(picture.series, key=lambda one: order[one.emphasis])


def _drop_line(
    painter: QPainter, frame: Frame, one: Series, goal: float, colours: Colours, taken: list[QRectF]
) -> None:
    if one.crossing is None:
        return
    x = frame.px(one.crossing.x)
    pen = QPen(mark_of(one.place).ink(colours), 1.4)
    pen.setDashPattern([2, 1.6])
    painter.setPen(pen)
    painter.drawLine(QPointF(x, frame.py(goal)), QPointF(x, frame.py(0)))
    if not one.crossing.note:
        return
    painter.setFont(fonts.sans(fonts.HEAD, bold=True))
    width = max(QFontMetricsF(painter.font()).horizontalAdvance(line) for line in one.crossing.note)
    left = x + 7 if x + 7 + width < frame.area.right() else x - 7 - width
    box = QRectF(left, frame.py(0) - 26 - _LINE * len(one.crossing.note), width, _LINE * len(one.crossing.note))
    while any(box.intersects(other) for other in taken):
        box.translate(0, -box.height() - 2)
    taken.append(box)
    for place, line in enumerate(one.crossing.note):
        _backed(painter, QRectF(left, box.top() + place * _LINE, width, _LINE), line, colours)


def _number(painter: QPainter, frame: Frame, one: Series, goal: float, colours: Colours, taken: list[QRectF]) -> None:
    if one.crossing is None:
        return
    painter.setFont(fonts.sans(fonts.NOTE, bold=one.emphasis == "selected"))
    width = QFontMetricsF(painter.font()).horizontalAdvance(one.crossing.text)
    x = min(frame.px(one.crossing.x) - width / 2, frame.area.right() - width)
    for y in (frame.py(goal) + 8, frame.py(goal) - 24):
        box = QRectF(x, y, width, 16)
        if not any(box.adjusted(-5, 0, 5, 0).intersects(other) for other in taken):
            taken.append(box)
            _backed(painter, box, one.crossing.text, colours)
            return


def _backed(painter: QPainter, box: QRectF, text: str, colours: Colours) -> None:
    """Text on a hint of page colour, so that curves do not run through it."""
    ink = painter.pen().color()
    page = colour(colours.page)
    veil = page.__class__(page.red(), page.green(), page.blue(), 200)
    painter.fillRect(box.adjusted(-2, 1, 2, -1), veil)
    painter.setPen(colour(colours.text if painter.font().bold() else colours.second))
    painter.drawText(box, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, text)
    painter.setPen(ink)
