"""Two columns side by side, or one under the other where the window is narrow or they are wide."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QSize, Qt
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

    def minimumSizeHint(self) -> QSize:  # noqa: D102
        # No more than the wider one needs: side by side they stand only where both have room.
        return QSize(max(self._least()), super().minimumSizeHint().height())

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: D102
        super().resizeEvent(event)
        self._arrange()

    def event(self, event: QEvent) -> bool:  # noqa: D102
        if event.type() == QEvent.Type.LayoutRequest:
            self._arrange()
        return super().event(event)

    def _least(self) -> list[int]:
        """What the columns need across."""
        return [column.minimumSize().width() for column in (self.left, self.right)]

    def _arrange(self) -> None:
        side_by_side = sum(self._least()) + self._row.spacing()
        narrow = self.width() < max(_NARROW * text_scale(), side_by_side)
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
