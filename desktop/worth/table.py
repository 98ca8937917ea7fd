"""A table of sentences and figures: rows as tall as their words, one chosen, copied whole, some cells drawn as well."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect, QRectF, Qt, Signal
from PySide6.QtGui import QFont, QFontMetricsF, QGuiApplication, QKeyEvent, QKeySequence, QPainter, QResizeEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QFrame,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableWidget,
    QTableWidgetItem,
    QWidget,
)

from desktop import fonts
from desktop.panels.charts.size import text_scale
from desktop.theme import Colours, colour, colours_of

Index = QModelIndex | QPersistentModelIndex
Ink = Literal["text", "second", "notes", "accent", "caution"]
PAD, HIGH = 12, 7
# What the list takes of the page before it scrolls by itself, at the usual text size.
_LEAST_HIGH = 200
_CELL = Qt.ItemDataRole.UserRole
_WRAPPED = Qt.TextFlag.TextWordWrap | Qt.AlignmentFlag.AlignTop


@dataclass(frozen=True)
class Cell:
    """What stands in a cell; `drawn`: what its column draws instead of the words, which are then only read out."""

    text: str
    ink: Ink = "text"
    bold: bool = False
    drawn: object = None


# Draws a cell's picture into a box.
Draw = Callable[[QPainter, QRectF, Colours, object], None]


@dataclass(frozen=True)
class Column:
    """A column; `share` of the width that the figures leave, 0 for figures; `high`: what a drawn row takes at least."""

    head: str
    share: float = 0.0
    draw: Draw | None = None
    high: Callable[[], float] | None = None


@dataclass(frozen=True)
class Row:
    """A row, known by its key through changes."""

    key: object
    cells: tuple[Cell, ...]


class SentenceTable(QTableWidget):
    """Read with the arrow keys; `chosen` tells the place of the current row."""

    chosen = Signal(int)

    def __init__(self, name: str, columns: Sequence[Column], parent: QWidget | None = None) -> None:
        super().__init__(0, len(columns), parent)
        self.columns = tuple(columns)
        self._rows: tuple[Row, ...] = ()
        # Pale, but not disabled: that would take the keyboard away from it.
        self.outdated = False
        self.setAccessibleName(name)
        self.setFont(fonts.sans(fonts.HEADING))
        self.setItemDelegate(_Look(self))
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
            item.setTextAlignment(_aligned(column) | Qt.AlignmentFlag.AlignBottom)
            self.setHorizontalHeaderItem(place, item)
        self.currentCellChanged.connect(self._tell)

    @property
    def rows(self) -> tuple[Row, ...]:
        """What is shown."""
        return self._rows

    def show_rows(self, rows: Sequence[Row]) -> None:
        """Other rows; the current one stays while it is there, else the first is."""
        current = self.currentRow()
        key = self._rows[current].key if 0 <= current < len(self._rows) else None
        self._rows = tuple(rows)
        self.setRowCount(len(rows))
        for place, row in enumerate(rows):
            for column, cell in enumerate(row.cells):
                item = QTableWidgetItem(cell.text)
                item.setData(_CELL, cell)
                self.setItem(place, column, item)
        at = next((place for place, row in enumerate(rows) if row.key == key), 0)
        if rows:
            self.setCurrentCell(at, 0)
            self.chosen.emit(at)
        self._spread()

    def set_outdated(self, outdated: bool) -> None:
        """Whether newer rows are on their way."""
        self.outdated = outdated
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
        return "\n".join("\t".join(cells) for cells in lines)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: D102
        if event.matches(QKeySequence.StandardKey.Copy):
            QGuiApplication.clipboard().setText(self.as_text())
            return
        super().keyPressEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: D102
        super().resizeEvent(event)
        self._spread()

    def _tell(self, row: int, _column: int, before: int, _before_column: int) -> None:
        if row != before and row >= 0:
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
        box = QFontMetricsF(font_of(cell)).boundingRect(QRectF(0, 0, room, 10_000), _WRAPPED, cell.text)
        return box.height() + 2 * HIGH


class _Look(QStyledItemDelegate):
    """Words wrapped from the top of their cell, a hairline below; the chosen row is a tint without a frame."""

    def __init__(self, table: SentenceTable) -> None:
        super().__init__(table)
        self._table = table

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        colours, rect = colours_of(self._table.window().palette()), QRect(option.rect)
        selected = bool(option.state & QStyle.StateFlag.State_Selected)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if selected:
            painter.fillRect(rect, colour(colours.selected))
        line = colours.accent if selected and self._table.hasFocus() else colours.hairline
        painter.fillRect(QRect(rect.left(), rect.bottom(), rect.width(), 1), colour(line))
        self._fill(painter, rect, colours, index)
        painter.restore()

    def _fill(self, painter: QPainter, rect: QRect, colours: Colours, index: Index) -> None:
        cell: Cell = index.data(_CELL)
        column = self._table.columns[index.column()]
        box = QRectF(rect).adjusted(PAD, HIGH, -PAD, -HIGH)
        if self._table.outdated:
            painter.setOpacity(OUTDATED)
        if cell.drawn is not None and column.draw is not None:
            column.draw(painter, box, colours, cell.drawn)
            return
        painter.setFont(font_of(cell))
        painter.setPen(colour(getattr(colours, cell.ink)))
        painter.drawText(box, int(_WRAPPED | _aligned(column)), cell.text)


# How strongly rows show while newer ones are on their way.
OUTDATED = 0.45


def font_of(cell: Cell) -> QFont:
    """The font of a cell's words."""
    return fonts.sans(fonts.HEADING, bold=cell.bold)


def _aligned(column: Column) -> Qt.AlignmentFlag:
    return Qt.AlignmentFlag.AlignLeft if column.share else Qt.AlignmentFlag.AlignRight
