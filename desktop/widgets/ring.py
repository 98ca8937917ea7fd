"""The ring around what has the focus, where nothing else of it changes as plainly."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect
from PySide6.QtGui import QColor, QGuiApplication, QPainter, QPen
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem

from desktop.theme import colour, colours_of


def draw_ring(painter: QPainter, box: QRect, ink: QColor) -> None:
    """Draws it just inside `box`."""
    painter.setPen(QPen(ink, 1))
    painter.drawRect(box.adjusted(0, 0, -1, -1))


class RingedCells(QStyledItemDelegate):
    """Cells of a table with the ring around the current one, in place of the style's own tint."""

    def paint(  # noqa: D102
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        plain = QStyleOptionViewItem(option)
        focused = bool(option.state & QStyle.StateFlag.State_HasFocus)
        plain.state &= ~QStyle.StateFlag.State_HasFocus
        super().paint(painter, plain, index)
        if focused:
            # Not the option's own palette: a sheet changes it.
            draw_ring(painter, option.rect, colour(colours_of(QGuiApplication.palette()).accent))
