"""A layout that sets its items like words: side by side, on as many lines as they need."""

from __future__ import annotations

from PySide6.QtCore import QPoint, QRect, QSize, Qt
from PySide6.QtWidgets import QLabel, QLayout, QLayoutItem, QWidget

_MARKS = frozenset(",.;:")


class Flow(QLayout):
    """Lines as high as their highest item, items centred on their line; a comma stays with what it follows."""

    def __init__(self, parent: QWidget | None = None, *, gap: int = 6, line_gap: int = 4) -> None:
        super().__init__(parent)
        self._items: list[QLayoutItem] = []
        self._gap, self._line_gap = gap, line_gap
        self.setContentsMargins(0, 0, 0, 0)

    def addItem(self, item: QLayoutItem) -> None:  # noqa: D102
        self._items.append(item)

    def count(self) -> int:  # noqa: D102
        return len(self._items)

    def itemAt(self, index: int) -> QLayoutItem | None:  # noqa: D102
        return self._items[index] if 0 <= index < len(self._items) else None

    def takeAt(self, index: int) -> QLayoutItem | None:  # noqa: D102
        return self._items.pop(index) if 0 <= index < len(self._items) else None

    def clear(self) -> None:
        """Takes out every widget; what held its place is freed with it."""
        for widget in self.widgets():
            self.removeWidget(widget)

    def widgets(self) -> list[QWidget]:
        """What it sets, in order."""
        return [widget for item in self._items if (widget := item.widget())]

    def expandingDirections(self) -> Qt.Orientation:  # noqa: D102
        return Qt.Orientation(0)

    def hasHeightForWidth(self) -> bool:  # noqa: D102
        return True

    def heightForWidth(self, width: int) -> int:  # noqa: D102
        return self._lay_out(QRect(0, 0, width, 0), place=False)

    def setGeometry(self, rect: QRect) -> None:  # noqa: D102
        super().setGeometry(rect)
        self._lay_out(rect, place=True)

    def sizeHint(self) -> QSize:  # noqa: D102
        sizes = [item.sizeHint() for item in self._shown()]
        wide = sum(size.width() for size in sizes) + self._gap * max(len(sizes) - 1, 0)
        return QSize(wide, max((size.height() for size in sizes), default=0))

    def minimumSize(self) -> QSize:  # noqa: D102
        sizes = [item.minimumSize() for item in self._shown()]
        return QSize(max((s.width() for s in sizes), default=0), max((s.height() for s in sizes), default=0))

    def _shown(self) -> list[QLayoutItem]:
        return [item for item in self._items if not item.isEmpty()]

    def _lay_out(self, rect: QRect, *, place: bool) -> int:
        x, y, line = rect.x(), rect.y(), list[tuple[QLayoutItem, int, QSize]]()
        for item in self._shown():
            size = _within(item, rect.width())
            mark = _mark_of(item)
            if mark and line:
                x -= self._gap
            if line and x + size.width() > rect.right() + 1 and len(mark) != 1:
                y += _set_line(line, y, place=place) + self._line_gap
                x, line = rect.x(), []
            line.append((item, x, size))
            x += size.width() + self._gap
        return y + _set_line(line, y, place=place) - rect.y()


def _within(item: QLayoutItem, room: int) -> QSize:
    """The size of an item, which gives way where a whole line is too short for it."""
    size = item.sizeHint()
    if size.width() <= room or not item.hasHeightForWidth():
        return size
    wide = max(room, item.minimumSize().width())
    return QSize(wide, item.heightForWidth(wide))


def _mark_of(item: QLayoutItem) -> str:
    """The words of a label that begins with a mark."""
    widget = item.widget()
    return widget.text() if isinstance(widget, QLabel) and widget.text()[:1] in _MARKS else ""


def _set_line(line: list[tuple[QLayoutItem, int, QSize]], y: int, *, place: bool) -> int:
    high = max((size.height() for _, _, size in line), default=0)
    if place:
        for item, x, size in line:
            item.setGeometry(QRect(QPoint(x, y + (high - size.height()) // 2), size))
    return high
