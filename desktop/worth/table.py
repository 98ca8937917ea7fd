"""A table of sentences and figures: rows as tall as their words, one chosen, copied whole, some cells drawn as well."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QRectF, QSignalBlocker, Qt, Signal
from PySide6.QtGui import QFontMetricsF, QGuiApplication, QKeyEvent, QKeySequence, QResizeEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QFrame,
    QTableWidget,
    QTableWidgetItem,
    QWidget,
)

from desktop import fonts
from desktop.cells import pasted
from desktop.panels.charts.size import text_scale
from desktop.theme import Colours
from desktop.worth.look import CELL, HIGH, PAD, WRAPPED, Cell, Column, Row, RowLook, aligned, font_of

# What the list takes of the page before it scrolls by itself, at the usual text size.
_LEAST_HIGH = 200


class SentenceTable(QTableWidget):
    """Read with the arrow keys; `chosen` tells the place of the current row."""

    chosen = Signal(int)

    def __init__(self, name: str, columns: Sequence[Column], parent: QWidget | None = None) -> None:
        super().__init__(0, len(columns), parent)
        self.columns = tuple(columns)
        self._rows: tuple[Row, ...] = ()
        # Whether the person chose the current row.
        self._moved = False
        self.setAccessibleName(name)
        self.setFont(fonts.sans(fonts.HEADING))
        self._look = RowLook(self.columns, self)
        self.setItemDelegate(self._look)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setShowGrid(False)
        self.setWordWrap(True)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        # Tab leads on to the next part of the page, as everywhere.
        self.setTabKeyNavigation(False)
        self.verticalHeader().hide()
        head = self.horizontalHeader()
        head.setSectionsClickable(False)
        head.setHighlightSections(False)
        head.setFont(fonts.sans(fonts.HEAD))
        head.setMinimumSectionSize(1)
        for place, column in enumerate(self.columns):
            item = QTableWidgetItem(column.head)
            item.setTextAlignment(aligned(column) | Qt.AlignmentFlag.AlignBottom)
            self.setHorizontalHeaderItem(place, item)
        self.currentCellChanged.connect(self._tell)

    @property
    def rows(self) -> tuple[Row, ...]:
        """What is shown."""
        return self._rows

    def show_rows(self, rows: Sequence[Row]) -> None:
        """Other rows; the one the person chose stays the current one while it is there, else the first is."""
        current = self.currentRow()
        key = self._rows[current].key if self._moved and 0 <= current < len(self._rows) else None
        self._rows = tuple(rows)
        at = next((place for place, row in enumerate(rows) if row.key == key), 0)
        with QSignalBlocker(self):
            self._fill_in()
            self.setCurrentCell(at, 0)
        if rows:
            self.chosen.emit(at)
        self._spread()

    def keep_row(self) -> None:
        """The current row is one that the person chose, though it may never have been another."""
        self._moved = True

    def set_outdated(self, outdated: bool) -> None:
        """Whether newer rows are on their way."""
        self._look.outdated = outdated
        self.viewport().update()

    def say_head(self, column: int, text: str) -> None:
        """Other words over a column."""
        self.model().setHeaderData(column, Qt.Orientation.Horizontal, text)

    def ink(self, colours: Colours) -> None:
        """Takes on the page's colours; said from outside, as a sheet changes the table's own palette."""
        self.setStyleSheet(
            f"QTableWidget {{ background: transparent; color: {colours.text};"
            f" selection-background-color: {colours.selected}; selection-color: {colours.text}; }}"
            "QHeaderView { background: transparent; }"
            f"QHeaderView::section {{ background: transparent; color: {colours.second}; border: none;"
            f" border-bottom: 1px solid {colours.rule}; padding: 2px {PAD}px 4px {PAD}px; }}"
        )

    def as_text(self) -> str:
        """Heads and rows, cells apart by tabs."""
        lines = [[column.head for column in self.columns], *([cell.text for cell in row.cells] for row in self._rows)]
        return pasted(lines)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: D102
        if event.matches(QKeySequence.StandardKey.Copy):
            QGuiApplication.clipboard().setText(self.as_text())
            return
        super().keyPressEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: D102
        super().resizeEvent(event)
        self._spread()

    def _fill_in(self) -> None:
        self.setRowCount(len(self._rows))
        for place, row in enumerate(self._rows):
            for column, cell in enumerate(row.cells):
                item = QTableWidgetItem(cell.text)
                item.setData(CELL, cell)
                self.setItem(place, column, item)

    def _tell(self, row: int, _column: int, before: int, _before_column: int) -> None:
        if row != before and row >= 0:
            self._moved = True
            self.chosen.emit(row)

    def _spread(self) -> None:
        """Figures as wide as they are, the other columns by their shares; rows as tall as their words."""
        figures = [self._widest(place) if not one.share else 0.0 for place, one in enumerate(self.columns)]
        room = max(self.viewport().width() - sum(figures), 0.0)
        shares = sum(one.share for one in self.columns)
        left = self.viewport().width()
        for place, column in enumerate(self.columns):
            wide = int(figures[place] or room * column.share / shares)
            last = place == len(self.columns) - 1
            self.setColumnWidth(place, left if last else wide)
            left -= wide
        for place, row in enumerate(self._rows):
            self.setRowHeight(place, int(max(self._tall(at, cell) for at, cell in enumerate(row.cells)) + 1))
        # No taller than its rows, so that what belongs to them stands right below; a few of them always in sight.
        whole = self.horizontalHeader().sizeHint().height() + self.verticalHeader().length() + 2
        self.setMinimumHeight(min(whole, int(_LEAST_HIGH * text_scale())))
        self.setMaximumHeight(whole)

    def _widest(self, place: int) -> float:
        head = QFontMetricsF(fonts.sans(fonts.HEAD)).horizontalAdvance(self.columns[place].head)
        texts = (
            QFontMetricsF(font_of(row.cells[place])).horizontalAdvance(row.cells[place].text) for row in self._rows
        )
        return max([head, *texts]) + 2 * PAD + 2

    def _tall(self, place: int, cell: Cell) -> float:
        column = self.columns[place]
        if cell.drawn is not None and column.high is not None:
            return column.high() + 2 * HIGH
        room = self.columnWidth(place) - 2 * PAD
        box = QFontMetricsF(font_of(cell)).boundingRect(QRectF(0, 0, room, 10_000), WRAPPED, cell.text)
        return box.height() + 2 * HIGH
