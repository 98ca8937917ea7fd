"""Tabs that are words only: the current one bold over a line in the accent."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPaintEvent
from PySide6.QtWidgets import QTabBar, QWidget

from desktop import fonts
from desktop.theme import colour, colours_of

_GAP = 20


class TextTabs(QTabBar):
    """A tab bar, so arrows and screen readers work as everywhere."""

    def __init__(self, names: tuple[str, ...], parent: QWidget | None = None, *, size: int = fonts.HEADING) -> None:
        super().__init__(parent)
        self._size = size
        self.setDrawBase(False)
        self.setExpanding(False)
        self.setUsesScrollButtons(False)
        for name in names:
            self.addTab(name)

    def tabSizeHint(self, index: int) -> QSize:  # noqa: D102
        width = QFontMetricsF(fonts.sans(self._size, bold=True)).horizontalAdvance(self.tabText(index))
        return QSize(int(width) + _GAP, max(self.height(), 24))

    def minimumTabSizeHint(self, index: int) -> QSize:  # noqa: D102
        return self.tabSizeHint(index)

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: D102
        painter = QPainter(self)
        colours = colours_of(self.palette())
        for index in range(self.count()):
            box = QRectF(self.tabRect(index))
            box.setRight(box.right() - _GAP + 1)
            current = index == self.currentIndex()
            font = fonts.sans(self._size, bold=current)
            painter.setFont(font)
            painter.setPen(colour(colours.text if current else colours.second))
            painter.drawText(box.adjusted(0, 0, 0, -3), Qt.AlignmentFlag.AlignVCenter, self.tabText(index))
            if current:
                width = QFontMetricsF(font).horizontalAdvance(self.tabText(index))
                thick = 2.0 if not self.hasFocus() else 3.0
                painter.fillRect(QRectF(box.left(), box.bottom() - thick, width, thick), colour(colours.accent))
