"""The reading line of a chart with its box of values, and the same in words for those who do not see it."""

from __future__ import annotations

from PySide6.QtCore import QLineF, QPoint, QRectF
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent, QColor, QPen
from PySide6.QtWidgets import QGraphicsItem, QGraphicsLineItem

from desktop.panels.charts.frame import Frame
from desktop.panels.charts.library import pg
from desktop.panels.charts.readout import ReadoutBox, spoken
from desktop.panels.charts.series import Picture
from desktop.words.numbers import Numbers

_TOPMOST = 60.0
_EDGE = 8


class Reading:
    """What is read out now; `x` is None while nothing is."""

    def __init__(self, view: pg.GraphicsView, parent: QGraphicsItem, numbers: Numbers) -> None:
        self._view, self._numbers = view, numbers
        self._line = QGraphicsLineItem(parent)
        self._line.setZValue(_TOPMOST)
        self._line.hide()
        self._box: ReadoutBox | None = None
        self.x: float | None = None

    def ink(self, colour: QColor) -> None:
        """The colour of the line."""
        self._line.setPen(QPen(colour, 1.2))

    def show(self, picture: Picture, frame: Frame, x: float) -> None:
        """Reads out at `x`."""
        self.x = x
        at = frame.px(x)
        self._line.setLine(QLineF(at, frame.base, at, frame.top))
        self._line.show()
        self._view.setAccessibleDescription(spoken(picture, x, self._numbers))
        window = self._view.window()
        if self._box is None or self._box.parent() is not window:
            self._box = ReadoutBox(window, self._numbers)
        low = self._view.mapTo(window, QPoint(int(at), int(frame.area.bottom()) - _EDGE))
        self._box.show_at(picture, x, low, QRectF(window.rect()).adjusted(_EDGE, _EDGE, -_EDGE, -_EDGE))

    def end(self, picture: Picture) -> None:
        """Reads out nothing any more: the finding stands for the chart again."""
        self.x = None
        self._line.hide()
        if self._box is not None:
            self._box.hide()
        self._view.setAccessibleDescription(picture.description)

    def announce(self) -> None:
        """Says what is read out."""
        if QAccessible.isActive():
            said = QAccessibleAnnouncementEvent(self._view, self._view.accessibleDescription())
            QAccessible.updateAccessibility(said)
