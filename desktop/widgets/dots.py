"""One hundred dots: how many of 100 people who try it reach the goal."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QSize
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from desktop.theme import colour, colours_of

_ACROSS, _DOWN, _STEP, _RADIUS = 20, 5, 9.0, 3.3


class Dots(QWidget):
    """A grid of 100 dots, the first `share` of them filled."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._share = 0
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def set_share(self, share: int) -> None:
        """Fills `share` dots."""
        if share != self._share:
            self._share = share
            self.update()

    def share(self) -> int:
        """How many dots are filled."""
        return self._share

    def sizeHint(self) -> QSize:  # noqa: D102
        return QSize(int(_ACROSS * _STEP), int(_DOWN * _STEP))

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: D102
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colours = colours_of(self.palette())
        accent, rule = colour(colours.accent), colour(colours.rule)
        for place in range(_ACROSS * _DOWN):
            at = QPointF((place % _ACROSS + 0.5) * _STEP, (place // _ACROSS + 0.5) * _STEP)
            filled = place < self._share
            painter.setPen(QPen(accent if filled else rule, 0.9))
            painter.setBrush(accent if filled else colour(colours.page))
            painter.drawEllipse(at, _RADIUS, _RADIUS)
