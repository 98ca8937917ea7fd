"""Where the data lies on the canvas."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF


@dataclass(frozen=True)
class Frame:
    """The plot area in px, the data range in it, and the width of the whole canvas."""

    area: QRectF
    low: float
    high: float
    bottom: float
    top: float
    width: float

    def px(self, x: float) -> float:
        """The px of a data x."""
        return self.area.left() + (x - self.low) / (self.high - self.low) * self.area.width()

    def py(self, y: float) -> float:
        """The px of a chance."""
        return self.area.bottom() - (y - self.bottom) / (self.top - self.bottom) * self.area.height()

    def at(self, x: float, y: float) -> QPointF:
        """The point of a data pair."""
        return QPointF(self.px(x), self.py(y))

    def x_of(self, px: float) -> float:
        """The data x at a px."""
        return self.low + (px - self.area.left()) / self.area.width() * (self.high - self.low)
