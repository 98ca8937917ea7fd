"""Paints the rows of the route list: mark, name, figures, and the cheapest by bar, weight and word."""

from __future__ import annotations

from PySide6.QtCore import QAbstractItemModel, QModelIndex, QPersistentModelIndex, QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter, QPen
from PySide6.QtWidgets import QLineEdit, QStyle, QStyledItemDelegate, QStyleOptionViewItem, QToolTip, QWidget

from core.plan.limits import LONGEST_NAME
from desktop import fonts
from desktop.marks import LIST_MARK_WIDTH, draw_list_mark, mark_of
from desktop.panels.routes.columns import BUYS, CAUTIONS, CHANCE, COLUMNS, ROUTE, SET_ASIDE, Column
from desktop.panels.routes.model import Cell, RouteModel
from desktop.theme import Colours, colour, colours_of
from desktop.widgets.labels import tip
from desktop.words.cautions import NONE_SHORT, READ_SHORT
from desktop.words.route_actions import NEEDS_NAME, NEW_NAME

Index = QModelIndex | QPersistentModelIndex
MARK_LEFT, NAME_LEFT, PAD = 12, 80, 12
# Room right of the chance for its noise, so that the figures stay aligned.
NOTE_ROOM = 46
NOTE_GAP = 14


class RouteDelegate(QStyledItemDelegate):
    """Rows with a hairline below; hover and selection are tints without a frame."""

    def __init__(self, rows: RouteModel, view: QWidget) -> None:
        super().__init__(view)
        self._rows, self._view = rows, view
        self.hovered_row = -1

    def sizeHint(self, _option: QStyleOptionViewItem, _index: Index) -> QSize:  # noqa: D102
        return QSize(60, 26)

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:  # noqa: D102
        colours = colours_of(option.palette)
        rect: QRect = option.rect
        state: QStyle.StateFlag = option.state
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._background(painter, rect, colours, bool(state & QStyle.StateFlag.State_Selected), index)
        cell, column = self._rows.cell(index.row(), index.column()), COLUMNS[index.column()]
        if column is ROUTE:
            _route(painter, rect, colours, cell)
        else:
            _figure(painter, rect, colours, cell, column)
        painter.restore()

    def createEditor(self, parent: QWidget, option: QStyleOptionViewItem, _index: Index) -> QWidget:  # noqa: D102
        field = QLineEdit(parent)
        field.setMaxLength(LONGEST_NAME)
        field.setFont(fonts.sans(fonts.HEADING))
        field.setFrame(False)
        field.setAccessibleName(NEW_NAME)
        colours = colours_of(option.palette)
        field.setStyleSheet(
            f"QLineEdit {{ background: {colours.field}; color: {colours.text}; border: none;"
            f" border-bottom: 2px solid {colours.accent}; padding: 0px 2px; }}"
        )
        return field

    def setModelData(self, editor: QWidget, model: QAbstractItemModel, index: Index) -> None:  # noqa: D102
        if isinstance(editor, QLineEdit) and not model.setData(index, editor.text()):
            at = editor.mapToGlobal(editor.rect().bottomLeft())
            QToolTip.showText(at, tip(NEEDS_NAME), self._view)

    def updateEditorGeometry(self, editor: QWidget, option: QStyleOptionViewItem, _index: Index) -> None:  # noqa: D102
        editor.setGeometry(option.rect.adjusted(NAME_LEFT - 4, 0, -PAD, -1))

    def _background(self, painter: QPainter, rect: QRect, colours: Colours, selected: bool, index: Index) -> None:
        if selected:
            painter.fillRect(rect, colour(colours.selected))
        elif index.row() == self.hovered_row:
            painter.fillRect(rect, colour(colours.hover))
        focused = selected and self._view.hasFocus()
        line = colour(colours.accent if focused else colours.hairline)
        painter.fillRect(QRect(rect.left(), rect.bottom(), rect.width(), 1), line)


_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter


def figure_font(column: Column, *, winner: bool = False) -> QFont:
    """The font of a column's texts."""
    if column is BUYS:
        return fonts.sans(fonts.FORM)
    if column is CAUTIONS:
        return fonts.sans(fonts.HEAD)
    return fonts.sans(fonts.HEADING, bold=winner and column in (ROUTE, SET_ASIDE))


def note_font(column: Column) -> QFont:
    """The font of what stands small beside a figure."""
    return fonts.sans(fonts.HEAD if column.note_left else fonts.NOTE)


def _route(painter: QPainter, rect: QRect, colours: Colours, cell: Cell) -> None:
    middle, winner = rect.center().y() + 0.5, bool(cell.pill)
    if winner:
        painter.fillRect(QRect(rect.left(), rect.top(), 3, rect.height()), colour(colours.accent))
    at = QPointF(rect.left() + MARK_LEFT + LIST_MARK_WIDTH / 2, middle)
    draw_list_mark(painter, mark_of(cell.finding.mark), colours, at)
    font = fonts.sans(fonts.HEADING, bold=winner)
    room = rect.width() - NAME_LEFT - PAD - pill_room(cell.pill)
    name = QFontMetricsF(font).elidedText(cell.text, Qt.TextElideMode.ElideRight, room)
    painter.setFont(font)
    painter.setPen(colour(colours.notes if cell.grey else colours.text))
    box = QRectF(rect.left() + NAME_LEFT, rect.top(), room + 1, rect.height() - 1)
    painter.drawText(box, _LEFT, name)
    if winner:
        at = QPointF(box.left() + QFontMetricsF(font).horizontalAdvance(name) + 12, middle)
        _pill(painter, at, cell.pill, colours)


def _figure(painter: QPainter, rect: QRect, colours: Colours, cell: Cell, column: Column) -> None:
    box = QRectF(rect.adjusted(PAD, 0, -PAD, -1))
    if column is CHANCE:
        box.setRight(box.right() - NOTE_ROOM)
    painter.setFont(figure_font(column, winner=cell.winner))
    painter.setPen(colour(colours.notes if cell.grey else _figure_ink(colours, cell, column)))
    text = cell.text
    if column.numeric:
        painter.drawText(box, _RIGHT, text)
    else:
        text = painter.fontMetrics().elidedText(text, Qt.TextElideMode.ElideRight, int(box.width()))
        painter.drawText(box, _LEFT, text)
    if cell.note:
        _note(painter, box, colours, QFontMetricsF(painter.font()).horizontalAdvance(text), cell, column)


def _note(painter: QPainter, box: QRectF, colours: Colours, width: float, cell: Cell, column: Column) -> None:
    painter.setFont(note_font(column))
    if column.note_left:
        painter.setPen(colour(colours.caution if cell.over else colours.notes))
        painter.drawText(box.adjusted(-PAD, 0, -width - NOTE_GAP, 0), _RIGHT, cell.note)
    else:
        painter.setPen(colour(colours.notes))
        painter.drawText(QRectF(box.right() + 8, box.top(), NOTE_ROOM, box.height()), _LEFT, cell.note)


def _figure_ink(colours: Colours, cell: Cell, column: Column) -> str:
    if cell.over:
        return colours.caution
    if column is CAUTIONS:
        return colours.second if cell.text in (NONE_SHORT, READ_SHORT) else colours.caution
    if column is SET_ASIDE and cell.finding.to_goal is None:
        return colours.notes
    return colours.second if column is BUYS else colours.text


def pill_room(word: str) -> float:
    """The room that the word for the cheapest takes behind the name."""
    return _pill_width(word) + 12 if word else 0.0


def _pill_width(word: str) -> float:
    return QFontMetricsF(fonts.sans(fonts.HEAD, bold=True)).horizontalAdvance(word) + 16


def pill_height() -> float:
    """As high as its word with a little around it."""
    return max(18.0, QFontMetricsF(fonts.sans(fonts.HEAD, bold=True)).height() + 1)


def _pill(painter: QPainter, at: QPointF, word: str, colours: Colours) -> None:
    high = pill_height()
    box = QRectF(at.x(), at.y() - high / 2, _pill_width(word), high)
    painter.setPen(QPen(Qt.PenStyle.NoPen))
    painter.setBrush(colour(colours.accent))
    painter.drawRoundedRect(box, high / 2, high / 2)
    painter.setPen(colour(colours.on_accent))
    painter.setFont(fonts.sans(fonts.HEAD, bold=True))
    painter.drawText(box.adjusted(0, -1, 0, 0), Qt.AlignmentFlag.AlignCenter, word)
