"""Paints the strip over the money chart: which route gives the best chance at each sum."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter

from desktop import fonts
from desktop.marks import draw_symbol, mark_of
from desktop.panels.charts.frame import Frame
from desktop.panels.charts.series import Picture, Segment
from desktop.theme import Colours, colour

_TALL = 16.0
_ROOM_FOR_MARK = 14.0


def strip(painter: QPainter, frame: Frame, picture: Picture, colours: Colours) -> None:
    """Tinted stretches with the route's symbol, and its name where it fits."""
    if not picture.segments:
        return
    top = frame.area.top() - _TALL - 6
    painter.setFont(fonts.sans(fonts.NOTE))
    painter.setPen(colour(colours.second))
    head = QRectF(0, top, frame.area.left() - 8, _TALL)
    painter.drawText(head, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, picture.segments_head)
    for segment in picture.segments:
        left, right = frame.px(segment.low), frame.px(segment.high)
        if right - left >= 2:
            _stretch(painter, QRectF(left, top, right - left - 1, _TALL), segment, colours)


def _stretch(painter: QPainter, box: QRectF, segment: Segment, colours: Colours) -> None:
    ink = mark_of(segment.place).ink(colours)
    tint = QColor(ink)
    tint.setAlphaF(0.28 if colours.dark else 0.16)
    painter.fillRect(box, tint)
    painter.fillRect(QRectF(box.left(), box.bottom() - 1.6, box.width(), 1.6), ink)
    if box.width() < _ROOM_FOR_MARK:
        return
    metrics = QFontMetricsF(painter.font())
    width = metrics.horizontalAdvance(segment.name)
    named = box.width() >= width + 30
    middle = box.center().y() - 0.8
    draw_symbol(
        painter, mark_of(segment.place), colours, QPointF(box.left() + 12 if named else box.center().x(), middle), 8
    )
    if named:
        painter.setPen(colour(colours.text))
        painter.drawText(
            QRectF(box.left() + 21, box.top(), width + 4, _TALL - 2), Qt.AlignmentFlag.AlignVCenter, segment.name
        )
