"""The sign that a value opens a choice: a chevron at its right end, in the ink of the text."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRect, Qt
from PySide6.QtGui import QColor, QPainter, QPen

# Room that the sign takes up beside the words.
ROOM = 17
_HALF, _TALL = 4.0, 4.0


def draw_chevron(painter: QPainter, rect: QRect, ink: QColor) -> None:
    """Draws it at the right end of `rect`."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    pen = QPen(ink, 1.7)
    pen.setCapStyle(Qt.PenCapStyle.RoundCap)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    painter.setPen(pen)
    middle = QPointF(rect.right() - ROOM / 2 + 1, rect.center().y() + 1)
    left, right = QPointF(-_HALF, -_TALL / 2), QPointF(_HALF, -_TALL / 2)
    painter.drawPolyline([middle + left, middle + QPointF(0, _TALL / 2), middle + right])
