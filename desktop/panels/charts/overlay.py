"""Paints what lies over the curves: symbols, the goal line, crossings, the outright price, the words inside."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPen

from desktop.marks import draw_symbol, mark_of
from desktop.panels.charts.labels import Label, crossings_in_sight, in_order
from desktop.panels.charts.layer import Scene
from desktop.panels.charts.series import Series, marks_on
from desktop.theme import Colours, colour

_FLAGS = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter | Qt.TextFlag.TextDontClip
# Symbols nearer than this to the open one at the goal only blur it.
_NEAR = 12.0


def symbols(painter: QPainter, scene: Scene) -> None:
    """A few of each route's symbols along its curve."""
    frame = scene.frame
    for one in in_order(scene.picture):
        size = 9.0 if one.emphasis == "cheapest" else 7.5
        for x, y in marks_on(one, scene.picture, frame.sight.low, frame.sight.high):
            at = frame.at(x, y)
            near = one.crossing is not None and abs(at.x() - frame.px(one.crossing.x)) <= _NEAR
            if frame.shows_chance(y) and not near:
                draw_symbol(painter, mark_of(one.mark), scene.colours, at, size, ink=stale_ink(one, scene.colours))


def stale_ink(one: Series, colours: Colours) -> QColor | None:
    """The grey of a curve whose new answer is still to come; None for the mark's own colour."""
    return colour(colours.notes) if one.is_stale else None


def outright_price(painter: QPainter, scene: Scene) -> None:
    """An upright line where buying the finished animal would do."""
    frame, outright = scene.frame, scene.picture.outright
    if outright is None or not scene.picture.series or not frame.shows(outright[0]):
        return
    x = frame.px(outright[0])
    painter.setPen(QPen(colour(scene.colours.second), 1.4))
    painter.drawLine(QPointF(x, frame.base), QPointF(x, frame.top))


def goal_line(painter: QPainter, scene: Scene) -> None:
    """The goal's chance across the chart."""
    frame, goal = scene.frame, scene.picture.goal
    if frame.shows_chance(goal):
        y = frame.py(goal)
        painter.setPen(QPen(colour(scene.colours.accent), 1.6))
        painter.drawLine(QPointF(frame.area.left() - 6, y), QPointF(frame.area.right(), y))


def crossings(painter: QPainter, scene: Scene) -> None:
    """Each route's symbol, open, where it first reaches the goal; the strongest drop a line to the axis."""
    found = crossings_in_sight(scene.frame, scene.picture)
    goal = scene.picture.goal
    for one, crossing in found:
        if one.emphasis != "other":
            x = scene.frame.px(crossing.x)
            pen = QPen(stale_ink(one, scene.colours) or mark_of(one.mark).ink(scene.colours), 1.4)
            pen.setDashPattern([2, 1.6])
            painter.setPen(pen)
            painter.drawLine(QPointF(x, scene.frame.py(goal)), QPointF(x, scene.frame.base))
    for one, crossing in found:
        size = 15.0 if one.emphasis == "cheapest" else 11.0
        at = scene.frame.at(crossing.x, goal)
        mark, ink = mark_of(one.mark), stale_ink(one, scene.colours)
        draw_symbol(painter, mark, scene.colours, at, size, is_open=True, ink=ink)


def words(painter: QPainter, scene: Scene) -> None:
    """The labels, on a hint of page colour, so that curves do not run through them."""
    for label in scene.labels:
        _draw(painter, label, scene.colours)


def _draw(painter: QPainter, label: Label, colours: Colours) -> None:
    veil = QColor(colour(colours.page))
    veil.setAlpha(205)
    height = QFontMetricsF(label.font).height()
    painter.setFont(label.font)
    for place, line in enumerate(label.lines):
        width = QFontMetricsF(label.font).horizontalAdvance(line)
        box = QRectF(label.box.left(), label.box.top() + place * height, width, height)
        painter.fillRect(box.adjusted(-2, 1, 2, -1), veil)
        painter.setPen(colour(colours.text if label.font.bold() or label.font.weight() > 500 else colours.second))
        painter.drawText(box, _FLAGS, line)
