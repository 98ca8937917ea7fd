"""A small table of figures: two routes side by side and their difference."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtGui import QFontMetricsF, QGuiApplication, QKeyEvent, QKeySequence
from PySide6.QtWidgets import (
    QAbstractItemView,
    QFrame,
    QHeaderView,
    QSizePolicy,
    QTableWidget,
    QTableWidgetItem,
    QWidget,
)

from core.explain.beats import Line
from desktop import fonts
from desktop.theme import Colours
from desktop.widgets.labels import tip
from desktop.words import why as words
from desktop.words.numbers import Numbers

_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
_WIDEST_HEAD = 170
# Cents below this still matter.
_WHOLE_FROM = 100


class Figures(QTableWidget):
    """Read with the arrow keys, copied whole with its heads; as tall as it has rows."""

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(0, 4, parent)
        self._names: tuple[str, str] = ("", "")
        self.setAccessibleName(name)
        self.setFont(fonts.sans(fonts.FORM))
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setShowGrid(False)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionMode(QAbstractItemView.SelectionMode.ContiguousSelection)
        self.setTabKeyNavigation(False)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.verticalHeader().hide()
        self.verticalHeader().setDefaultSectionSize(int(QFontMetricsF(self.font()).height() + 8))
        head = self.horizontalHeader()
        head.setSectionsClickable(False)
        head.setHighlightSections(False)
        head.setFont(fonts.sans(fonts.HEAD))
        head.setDefaultAlignment(_RIGHT)
        head.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        head.setSectionResizeMode(0, QHeaderView.ResizeMode.Stretch)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_lines(self, names: tuple[str, str], lines: Sequence[Line], numbers: Numbers) -> None:
        """Other lines; the last is their sum where it says so."""
        self._names = names
        metrics = QFontMetricsF(fonts.sans(fonts.HEAD))
        heads = [metrics.elidedText(name, Qt.TextElideMode.ElideRight, _WIDEST_HEAD) for name in names]
        self.setHorizontalHeaderLabels(["", *heads, words.DIFFERENCE])
        for column, name in enumerate(names, start=1):
            item = self.horizontalHeaderItem(column)
            if item is not None:
                item.setToolTip(tip(name))
        places = 0 if max((abs(line.first) for line in lines), default=0.0) >= _WHOLE_FROM else 2
        self.setRowCount(len(lines))
        for row, line in enumerate(lines):
            figures = (line.first, line.second, line.difference)
            texts = (
                line.words,
                *(words.money(figure, numbers, places, signed=place == 2) for place, figure in enumerate(figures)),
            )
            for column, text in enumerate(texts):
                self._put(row, column, text, bold=line.words == words.TOGETHER)
        self.setFixedHeight(self.horizontalHeader().sizeHint().height() + self.verticalHeader().length() + 2)

    def ink(self, colours: Colours) -> None:
        """Takes on the page's colours; said from outside, as a sheet changes the table's own palette."""
        self.setStyleSheet(
            f"QTableWidget {{ background: transparent; color: {colours.text};"
            f" selection-background-color: {colours.selected}; selection-color: {colours.text}; }}"
            f"QHeaderView {{ background: transparent; }}"
            f"QHeaderView::section {{ background: transparent; color: {colours.second}; border: none;"
            f" border-bottom: 1px solid {colours.hairline}; padding: 2px 3px; }}"
        )

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: D102
        if event.matches(QKeySequence.StandardKey.Copy):
            QGuiApplication.clipboard().setText(self.as_text())
            return
        super().keyPressEvent(event)

    def as_text(self) -> str:
        """Heads and rows, cells apart by tabs."""
        heads = ["", *self._names, words.DIFFERENCE]
        rows = [[self._cell(row, column) for column in range(self.columnCount())] for row in range(self.rowCount())]
        return "\n".join("\t".join(cells) for cells in (heads, *rows))

    def _cell(self, row: int, column: int) -> str:
        item = self.item(row, column)
        return item.text() if item is not None else ""

    def _put(self, row: int, column: int, text: str, *, bold: bool) -> None:
        item = QTableWidgetItem(text)
        item.setFont(fonts.sans(fonts.FORM, bold=bold))
        if column:
            item.setTextAlignment(_RIGHT)
        self.setItem(row, column, item)
