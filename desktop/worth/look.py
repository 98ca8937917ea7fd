"""How rows of sentences look: their cells, and the painter of these."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Literal

import msgspec
from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect, QRectF, Qt
from PySide6.QtGui import QFont, QPainter
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem, QWidget

from desktop import fonts
from desktop.theme import Colours, colour, colours_of

Index = QModelIndex | QPersistentModelIndex
Ink = Literal["text", "second", "notes", "accent", "caution"]
PAD, HIGH = 12, 7
CELL = Qt.ItemDataRole.UserRole
WRAPPED = Qt.TextFlag.TextWordWrap | Qt.AlignmentFlag.AlignTop


class Cell(msgspec.Struct, frozen=True):
    """What stands in a cell; `drawn`: what its column draws instead of the words, which are then only read out."""

    text: str
    ink: Ink = "text"
    bold: bool = False
    drawn: object = None


# Draws a cell's picture into a box.
Draw = Callable[[QPainter, QRectF, Colours, object], None]


class Column(msgspec.Struct, frozen=True):
    """A column; `share` of the width that the figures leave, 0 for figures; `high`: what a drawn row takes at least."""

    head: str
    share: float = 0.0
    draw: Draw | None = None
    high: Callable[[], float] | None = None


class Row(msgspec.Struct, frozen=True):
    """A row, known by its key through changes."""

    key: object
    cells: tuple[Cell, ...]


class RowLook(QStyledItemDelegate):
    """Words wrapped from the top of their cell, a hairline below; the chosen row is a tint without a frame."""

    def __init__(self, columns: Sequence[Column], view: QWidget) -> None:
        super().__init__(view)
        self._columns, self._view = columns, view
        # Pale while newer rows are on their way; not disabled: that would take the keyboard away from the view.
        self.outdated = False

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:  # noqa: D102
        colours, rect = colours_of(self._view.window().palette()), QRect(option.rect)
        selected = bool(option.state & QStyle.StateFlag.State_Selected)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if selected:
            painter.fillRect(rect, colour(colours.selected))
        line = colours.accent if selected and self._view.hasFocus() else colours.hairline
        painter.fillRect(QRect(rect.left(), rect.bottom(), rect.width(), 1), colour(line))
        self._fill(painter, rect, colours, index)
        painter.restore()

    def _fill(self, painter: QPainter, rect: QRect, colours: Colours, index: Index) -> None:
        cell: Cell = index.data(CELL)
        column = self._columns[index.column()]
        box = QRectF(rect).adjusted(PAD, HIGH, -PAD, -HIGH)
        if self.outdated:
            painter.setOpacity(OUTDATED)
        if cell.drawn is not None and column.draw is not None:
            column.draw(painter, box, colours, cell.drawn)
            return
        painter.setFont(font_of(cell))
        painter.setPen(colour(getattr(colours, cell.ink)))
        painter.drawText(box, int(WRAPPED | aligned(column)), cell.text)


# How strongly rows show while newer ones are on their way.
OUTDATED = 0.45


def font_of(cell: Cell) -> QFont:
    """The font of a cell's words."""
    return fonts.sans(fonts.HEADING, bold=cell.bold)


def aligned(column: Column) -> Qt.AlignmentFlag:
    """Figures stand to the right, words to the left."""
    return Qt.AlignmentFlag.AlignLeft if column.share else Qt.AlignmentFlag.AlignRight
