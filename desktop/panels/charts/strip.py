"""Paints the strip over the money chart: which route gives the best chance at each sum."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter

from desktop import fonts
from desktop.marks import draw_symbol, mark_of
from desktop.panels.charts.layer import Scene
from desktop.panels.charts.series import Segment
from desktop.theme import Colours, colour

_ROOM_FOR_MARK = 14.0
_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter | Qt.TextFlag.TextSingleLine


def height() -> float:
    """How tall the strip is."""
    return QFontMetricsF(fonts.sans(fonts.NOTE)).height() + 1


def strip(painter: QPainter, scene: Scene) -> None:
    """Tinted stretches with the route's symbol, and its name where it fits."""
    frame, picture = scene.frame, scene.picture
    if not picture.segments:
        return
    tall = height()
    top = frame.area.top() - tall - 6
    painter.setFont(fonts.sans(fonts.NOTE))
    painter.setPen(colour(scene.colours.second))
    painter.drawText(QRectF(0, top, frame.area.left() - 8, tall), _RIGHT, picture.segments_head)
    for segment in picture.segments:
        left = max(frame.px(segment.low), frame.area.left())
        right = min(frame.px(segment.high), frame.area.right())
        if right - left >= 2:
            _stretch(painter, QRectF(left, top, right - left - 1, tall), segment, scene.colours)


def _stretch(painter: QPainter, box: QRectF, segment: Segment, colours: Colours) -> None:
    ink = mark_of(segment.mark).ink(colours)
    tint = QColor(ink)
    tint.setAlphaF(0.28 if colours.dark else 0.16)
    painter.fillRect(box, tint)
    painter.fillRect(QRectF(box.left(), box.bottom() - 1.6, box.width(), 1.6), ink)
    if box.width() < _ROOM_FOR_MARK:
        return
    width = QFontMetricsF(painter.font()).horizontalAdvance(segment.name)
    named = box.width() >= width + 30
    at = QPointF(box.left() + 12 if named else box.center().x(), box.center().y() - 0.8)
    draw_symbol(painter, mark_of(segment.mark), colours, at, 8)
    if named:
        painter.setPen(colour(colours.text))
        painter.drawText(QRectF(box.left() + 21, box.top(), width + 4, box.height() - 2), _LEFT, segment.name)
