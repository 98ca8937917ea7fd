"""Dots in rows, painted."""

from __future__ import annotations

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QPainter, QPen

from desktop.theme import Colours, colour


def paint_dots(
    painter: QPainter, at: QPointF, filled: int, of: int, across: int, step: float, colours: Colours, ink: str
) -> None:
    """`of` dots, `across` in a row and `step` apart, the first `filled` of them full."""
    radius = step * 0.37
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    for place in range(of):
        is_full = place < filled
        painter.setPen(QPen(colour(ink if is_full else colours.rule), max(radius * 0.16, 0.8)))
        painter.setBrush(colour(ink) if is_full else Qt.BrushStyle.NoBrush)
        painter.drawEllipse(at + QPointF((place % across + 0.5) * step, (place // across + 0.5) * step), radius, radius)
