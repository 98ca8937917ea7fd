"""A small table of figures under quiet heads, as tall as it has rows."""

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

from desktop import fonts
from desktop.cells import pasted
from desktop.panels.charts.size import text_scale
from desktop.theme import Colours
from desktop.widgets.labels import tip
from desktop.widgets.ring import RingedCells

_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
_WIDEST_HEAD, _NARROWEST = 170, 48


class FigureTable(QTableWidget):
    """Read with the arrow keys, copied whole with its heads; the first column holds words."""

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._heads: tuple[str, ...] = ()
        self.setAccessibleName(name)
        self.setFont(fonts.sans(fonts.FORM))
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setShowGrid(False)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionMode(QAbstractItemView.SelectionMode.ContiguousSelection)
        self.setTabKeyNavigation(False)
        self.setItemDelegate(RingedCells(self))
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
        # Short figures in two columns do not read as one.
        head.setMinimumSectionSize(round(_NARROWEST * text_scale()))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_rows(self, heads: Sequence[str], rows: Sequence[Sequence[str]], strong: Sequence[int] = ()) -> None:
        """Other heads and rows, all texts; the rows in `strong` stand out."""
        self._heads = tuple(heads)
        metrics = QFontMetricsF(fonts.sans(fonts.HEAD))
        self.setColumnCount(len(heads))
        self.horizontalHeader().setSectionResizeMode(0, QHeaderView.ResizeMode.Stretch)
        for column, head in enumerate(heads):
            item = QTableWidgetItem(metrics.elidedText(head, Qt.TextElideMode.ElideRight, _WIDEST_HEAD))
            item.setToolTip(tip(head))
            item.setTextAlignment(_RIGHT if column else _LEFT)
            self.setHorizontalHeaderItem(column, item)
        self.setRowCount(len(rows))
        for row, texts in enumerate(rows):
            for column, text in enumerate(texts):
                self._put(row, column, text, bold=row in strong)
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
        rows = [[self._cell(row, column) for column in range(self.columnCount())] for row in range(self.rowCount())]
        return pasted((self._heads, *rows))

    def _cell(self, row: int, column: int) -> str:
        item = self.item(row, column)
        return item.text() if item is not None else ""

    def _put(self, row: int, column: int, text: str, *, bold: bool) -> None:
        item = QTableWidgetItem(text)
        item.setFont(fonts.sans(fonts.FORM, bold=bold))
        if column:
            item.setTextAlignment(_RIGHT)
        self.setItem(row, column, item)
