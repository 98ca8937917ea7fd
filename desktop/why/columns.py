"""Two columns side by side, or one under the other where the window is narrow."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QVBoxLayout, QWidget

from desktop.panels.charts.size import text_scale

# At the usual text size.
_NARROW = 980


class Columns(QWidget):
    """Columns of the same width; what stands in them keeps to the top."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._row = QBoxLayout(QBoxLayout.Direction.LeftToRight, self)
        self._row.setContentsMargins(0, 0, 0, 0)
        self._row.setSpacing(40)
        self.left, self.right = self._column(), self._column()

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: D102
        super().resizeEvent(event)
        narrow = self.width() < _NARROW * text_scale()
        way = QBoxLayout.Direction.TopToBottom if narrow else QBoxLayout.Direction.LeftToRight
        if way != self._row.direction():
            self._row.setDirection(way)

    def _column(self) -> QVBoxLayout:
        holder = QWidget()
        column = QVBoxLayout(holder)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(24)
        # Said of the item: a layout of its own alignment takes no more height than it would want unwrapped.
        self._row.addWidget(holder, 1, Qt.AlignmentFlag.AlignTop)
        return column
