"""Paints the rows of the route list: mark, name, figures, and the cheapest by bar, weight and word."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter, QPen
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem, QWidget

from desktop import fonts
from desktop.findings import Finding
from desktop.marks import LIST_MARK_WIDTH, draw_list_mark, mark_of
from desktop.panels.routes.columns import BUYS, CHANCE, COLUMNS, ROUTE, SET_ASIDE
from desktop.panels.routes.model import FINDING, GREY, NOTE, OVER, WINNER
from desktop.theme import Colours, colour, colours_of
from desktop.words.routes import CHEAPEST

Index = QModelIndex | QPersistentModelIndex
MARK_LEFT, NAME_LEFT, PAD = 12, 80, 12
# Room right of the chance for its noise, so that the figures stay aligned.
NOTE_ROOM = 56


class RouteDelegate(QStyledItemDelegate):
    """Rows with a hairline below; hover and selection are tints without a frame."""

    def __init__(self, view: QWidget) -> None:
        super().__init__(view)
        self._view = view
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
        if index.column() == ROUTE:
            self._route(painter, rect, colours, index)
        else:
            self._figure(painter, rect, colours, index)
        painter.restore()

    def _background(self, painter: QPainter, rect: QRect, colours: Colours, selected: bool, index: Index) -> None:
        if selected:
            painter.fillRect(rect, colour(colours.selected))
        elif index.row() == self.hovered_row:
            painter.fillRect(rect, colour(colours.hover))
        focused = selected and self._view.hasFocus()
        line = colour(colours.accent if focused else colours.hairline)
        painter.fillRect(QRect(rect.left(), rect.bottom(), rect.width(), 1), line)

    def _route(self, painter: QPainter, rect: QRect, colours: Colours, index: Index) -> None:
        one: Finding = index.data(FINDING)
        winner = bool(index.data(WINNER))
        middle = rect.center().y() + 0.5
        if winner:
            painter.fillRect(QRect(rect.left(), rect.top(), 3, rect.height()), colour(colours.accent))
        at = QPointF(rect.left() + MARK_LEFT + LIST_MARK_WIDTH / 2, middle)
        draw_list_mark(painter, mark_of(one.place), colours, at)
        font = fonts.sans(fonts.HEADING, bold=winner)
        room = rect.width() - NAME_LEFT - PAD - (_pill_width() + 12 if winner else 0)
        name = QFontMetricsF(font).elidedText(one.name, Qt.TextElideMode.ElideRight, room)
        painter.setFont(font)
        painter.setPen(colour(colours.notes if index.data(GREY) else colours.text))
        box = QRectF(rect.left() + NAME_LEFT, rect.top(), room + 1, rect.height() - 1)
        painter.drawText(box, _LEFT, name)
        if winner:
            _pill(painter, QPointF(box.left() + QFontMetricsF(font).horizontalAdvance(name) + 12, middle), colours)

    def _figure(self, painter: QPainter, rect: QRect, colours: Colours, index: Index) -> None:
        one: Finding = index.data(FINDING)
        text, note = str(index.data()), str(index.data(NOTE))
        column = index.column()
        over = column == SET_ASIDE and bool(index.data(OVER))
        box = QRectF(rect.adjusted(PAD, 0, -PAD, -1))
        if column == CHANCE:
            box.setRight(box.right() - NOTE_ROOM)
        painter.setFont(_figure_font(column, bool(index.data(WINNER))))
        painter.setPen(colour(colours.notes if index.data(GREY) else _figure_ink(colours, one, column, over)))
        if COLUMNS[column].numeric:
            painter.drawText(box, _RIGHT, text)
        else:
            text = painter.fontMetrics().elidedText(text, Qt.TextElideMode.ElideRight, int(box.width()))
            painter.drawText(box, _LEFT, text)
        if note:
            self._note(painter, box, colours, QFontMetricsF(painter.font()).horizontalAdvance(text), note, index)

    def _note(self, painter: QPainter, box: QRectF, colours: Colours, width: float, note: str, index: Index) -> None:
        painter.setFont(fonts.sans(fonts.HEAD if COLUMNS[index.column()].note_left else fonts.NOTE))
        if COLUMNS[index.column()].note_left:
            painter.setPen(colour(colours.caution if index.data(OVER) else colours.notes))
            painter.drawText(box.adjusted(-PAD, 0, -width - 14, 0), _RIGHT, note)
        else:
            painter.setPen(colour(colours.notes))
            painter.drawText(QRectF(box.right() + 8, box.top(), NOTE_ROOM, box.height()), _LEFT, note)


_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter


def _figure_font(column: int, winner: bool) -> QFont:
    if column == BUYS:
        return fonts.sans(fonts.FORM)
    return fonts.sans(fonts.HEADING, bold=winner and column == SET_ASIDE)


def _figure_ink(colours: Colours, one: Finding, column: int, over: bool) -> str:
    if over:
        return colours.caution
    if column == SET_ASIDE and one.to_goal is None:
        return colours.notes
    return colours.second if column == BUYS else colours.text


def _pill_width() -> float:
    return QFontMetricsF(fonts.sans(fonts.HEAD, bold=True)).horizontalAdvance(CHEAPEST) + 16


def _pill(painter: QPainter, at: QPointF, colours: Colours) -> None:
    box = QRectF(at.x(), at.y() - 9, _pill_width(), 18)
    painter.setPen(QPen(Qt.PenStyle.NoPen))
    painter.setBrush(colour(colours.accent))
    painter.drawRoundedRect(box, 9, 9)
    painter.setPen(colour(colours.on_accent))
    painter.setFont(fonts.sans(fonts.HEAD, bold=True))
    painter.drawText(box.adjusted(0, -1, 0, 0), Qt.AlignmentFlag.AlignCenter, CHEAPEST)
