"""Dots out of a hundred, painted: the last one in part, so that no chance looks larger than it is."""

from __future__ import annotations

import math

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen

from desktop.theme import Colours, colour


def paint_dots(
    painter: QPainter, at: QPointF, filled: float, of: int, across: int, step: float, colours: Colours, ink: str
) -> None:
    """`of` dots, `across` in a row and `step` apart, the first `filled` of them full; certain only where it is."""
    radius = step * 0.37
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    full = of if filled >= of else min(math.floor(filled + 1e-9), of - 1)
    part = min(filled - full, 0.9) if full < of else 0.0
    for place in range(of):
        middle = at + QPointF((place % across + 0.5) * step, (place // across + 0.5) * step)
        is_full = place < full
        painter.setPen(QPen(colour(ink if is_full else colours.rule), max(radius * 0.16, 0.8)))
        painter.setBrush(colour(ink) if is_full else Qt.BrushStyle.NoBrush)
        painter.drawEllipse(middle, radius, radius)
        if place == full and part > 0.05:
            box = QRectF(middle.x() - radius, middle.y() - radius, 2 * radius, 2 * radius)
            painter.save()
            painter.setClipRect(QRectF(box.left(), box.top(), box.width() * part, box.height()))
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(colour(ink))
            painter.drawEllipse(box)
            painter.restore()
