"""The shapes to choose from: name, one line on it, and what it needs as soon as that is known."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QPainter
from PySide6.QtWidgets import (
    QAbstractItemView,
    QFrame,
    QListWidget,
    QListWidgetItem,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QWidget,
)

from core.routes.pairs import Shape
from core.routes.shapes import SHAPES
from desktop import fonts
from desktop.theme import colour, colours_of
from desktop.words import new_route as words

_FIGURE = int(Qt.ItemDataRole.UserRole)
_FADED = _FIGURE + 1
_PAD, _WIDE = 12, 340
_ELIDED = Qt.TextElideMode.ElideRight
_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter


class ShapeList(QListWidget):
    """Up and Down choose, as everywhere."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(words.SHAPES_NAME)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setMouseTracking(True)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setItemDelegate(_Look(self))
        for shape in SHAPES:
            item = QListWidgetItem(words.HEADS[shape][0], self)
            item.setData(Qt.ItemDataRole.AccessibleDescriptionRole, words.HEADS[shape][1])
        self.setCurrentRow(0)

    @property
    def shape(self) -> Shape:
        """The chosen shape."""
        return SHAPES[self.currentRow()]

    def show_figure(self, shape: Shape, figure: str, *, lacks: str) -> None:
        """What a shape needs; one that lacks something is quiet, and tells why when pointed at."""
        item = self.item(SHAPES.index(shape))
        head, about = words.HEADS[shape]
        item.setData(_FIGURE, figure)
        item.setData(_FADED, bool(lacks))
        item.setData(Qt.ItemDataRole.AccessibleTextRole, ", ".join(part for part in (head, figure, lacks) if part))
        item.setData(Qt.ItemDataRole.AccessibleDescriptionRole, about)

    def sizeHint(self) -> QSize:  # noqa: D102
        return QSize(self._wide(), self.sizeHintForRow(0) * self.count() + 2)

    def minimumSizeHint(self) -> QSize:  # noqa: D102
        # What a shape is gives way: its name says it, too.
        return QSize(min(_WIDE, self._wide()), self.sizeHintForRow(0) * 3)

    def _wide(self) -> int:
        metrics = QFontMetricsF(fonts.sans(fonts.HEAD))
        about = max(metrics.horizontalAdvance(words.HEADS[shape][1]) for shape in SHAPES)
        return max(_WIDE, int(about) + 2 * _PAD + 2)


class _Look(QStyledItemDelegate):
    def __init__(self, view: ShapeList) -> None:
        super().__init__(view)
        self._view = view

    def sizeHint(self, _option: QStyleOptionViewItem, _index: QModelIndex | QPersistentModelIndex) -> QSize:
        tall = sum(QFontMetricsF(fonts.sans(size)).height() for size in (fonts.HEADING, fonts.HEAD))
        return QSize(100, int(tall) + 14)

    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        colours = colours_of(option.palette)
        rect: QRect = option.rect
        state: QStyle.StateFlag = option.state
        chosen = bool(state & QStyle.StateFlag.State_Selected)
        faded = bool(index.data(_FADED))
        painter.save()
        if chosen or state & QStyle.StateFlag.State_MouseOver:
            painter.fillRect(rect, colour(colours.selected if chosen else colours.hover))
        line = colours.accent if chosen and self._view.hasFocus() else colours.hairline
        painter.fillRect(QRect(rect.left(), rect.bottom(), rect.width(), 1), colour(line))
        head, about = fonts.sans(fonts.HEADING, bold=chosen), fonts.sans(fonts.HEAD)
        top = QRectF(rect.left() + _PAD, rect.top() + 6, rect.width() - 2 * _PAD, QFontMetricsF(head).height())
        below = QRectF(top.left(), top.bottom(), top.width(), QFontMetricsF(about).height())
        painter.setFont(head)
        painter.setPen(colour(colours.notes if faded else colours.text))
        painter.drawText(top, _LEFT, str(index.data()))
        painter.drawText(top, _RIGHT, str(index.data(_FIGURE) or ""))
        painter.setFont(about)
        painter.setPen(colour(colours.notes if faded else colours.second))
        said = QFontMetricsF(about).elidedText(words.HEADS[SHAPES[index.row()]][1], _ELIDED, below.width())
        painter.drawText(below, _LEFT, said)
        painter.restore()
