"""Where the data lies on the canvas."""

from __future__ import annotations

import msgspec
from PySide6.QtCore import QPointF, QRectF

from desktop.panels.charts.viewport import Sight


class Frame(msgspec.Struct, frozen=True):
    """The plot area in px, the data in sight in it, and the width of the whole canvas."""

    area: QRectF
    sight: Sight
    width: float

    def px(self, x: float) -> float:
        """The px of a data x."""
        sight = self.sight
        return self.area.left() + (x - sight.low) / (sight.high - sight.low) * self.area.width()

    def py(self, y: float) -> float:
        """The px of a chance."""
        sight = self.sight
        return self.area.bottom() - (y - sight.bottom) / (sight.top - sight.bottom) * self.area.height()

    def at(self, x: float, y: float) -> QPointF:
        """The point of a data pair."""
        return QPointF(self.px(x), self.py(y))

    def x_of(self, px: float) -> float:
        """The data x at a px."""
        sight = self.sight
        return sight.low + (px - self.area.left()) / self.area.width() * (sight.high - sight.low)

    def y_of(self, py: float) -> float:
        """The chance at a px."""
        sight = self.sight
        return sight.bottom + (self.area.bottom() - py) / self.area.height() * (sight.top - sight.bottom)

    @property
    def top(self) -> float:
        """The px of certainty, or of the highest chance in sight."""
        return max(self.py(1), self.area.top())

    @property
    def base(self) -> float:
        """The px of no chance, or of the lowest in sight."""
        return min(self.py(0), self.area.bottom())

    def shows(self, x: float) -> bool:
        """Whether an x is in sight."""
        return self.sight.low <= x <= self.sight.high

    def shows_chance(self, y: float) -> bool:
        """Whether a chance is in sight."""
        return self.sight.bottom <= y <= self.sight.top
