"""The head of the route list: quiet words over a line, the sorted column bold with its direction."""

from __future__ import annotations

import math

from PySide6.QtCore import QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QFocusEvent, QFontMetricsF, QKeyEvent, QPainter, QPen
from PySide6.QtWidgets import QHeaderView, QWidget

from desktop import fonts
from desktop.panels.routes.columns import CHANCE, COLUMNS, ROUTE, ROUTE_AT
from desktop.panels.routes.delegate import MARK_LEFT, NOTE_ROOM, PAD
from desktop.theme import colour, colours_of
from desktop.words import routes as words

_HEIGHT = 26
# Room for the direction beside a head, beyond what is left free around it.
ARROW = 10
_TURNS = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}
_SORTS = (Qt.Key.Key_Space, Qt.Key.Key_Return, Qt.Key.Key_Enter)


def head_height() -> int:
    """The usual height, or more where the text is large."""
    return max(_HEIGHT, math.ceil(QFontMetricsF(fonts.sans(fonts.HEAD, bold=True)).height()) + 4)


class RouteHeader(QHeaderView):
    """A click sorts, the other way round with the next, and in the plan's own order with the one after.

    By keyboard, Left and Right go from head to head and Space sorts.
    """

    def __init__(self, parent: QWidget) -> None:
        super().__init__(Qt.Orientation.Horizontal, parent)
        self._at = ROUTE_AT
        self.setSectionsClickable(True)
        self.setHighlightSections(False)
        self.setSortIndicatorShown(True)
        self.setSortIndicatorClearable(True)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setAccessibleName(words.HEADS_NAME)
        self.sortIndicatorChanged.connect(self._say)

    def sizeHint(self) -> QSize:  # noqa: D102
        return QSize(super().sizeHint().width(), head_height())

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: D102
        key = Qt.Key(event.key())
        if key in _TURNS:
            self._turn(_TURNS[key])
        elif key in _SORTS:
            self._sort()
        else:
            super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:  # noqa: D102
        super().focusInEvent(event)
        self._say()

    def _turn(self, step: int) -> None:
        seen = [place for place in range(self.count()) if not self.isSectionHidden(place)]
        at = seen.index(self._at) if self._at in seen else 0
        self._at = seen[min(max(at + step, 0), len(seen) - 1)]
        self._say()

    def _sort(self) -> None:
        up, down = Qt.SortOrder.AscendingOrder, Qt.SortOrder.DescendingOrder
        if self.sortIndicatorSection() != self._at:
            self.setSortIndicator(self._at, up)
        elif self.sortIndicatorOrder() == up:
            self.setSortIndicator(self._at, down)
        else:
            self.setSortIndicator(-1, up)

    def _say(self) -> None:
        text = str(self.model().headerData(self._at, Qt.Orientation.Horizontal)) if self.model() else ""
        is_sorted = self._at == self.sortIndicatorSection()
        up = self.sortIndicatorOrder() == Qt.SortOrder.AscendingOrder
        self.setAccessibleDescription(words.head_spoken(text, is_sorted=is_sorted, up=up))
        self.viewport().update()

    def paintSection(self, painter: QPainter, rect: QRect, section: int) -> None:  # noqa: D102
        colours = colours_of(self.palette())
        sorted_by = section == self.sortIndicatorSection()
        painter.save()
        painter.fillRect(rect, colour(colours.page))
        painter.fillRect(QRect(rect.left(), rect.bottom(), rect.width(), 1), colour(colours.rule))
        font = fonts.sans(fonts.HEAD, bold=sorted_by)
        painter.setFont(font)
        painter.setPen(colour(colours.text if sorted_by else colours.second))
        text = str(self.model().headerData(section, Qt.Orientation.Horizontal))
        box = self._box(rect, section)
        numeric = COLUMNS[section].numeric
        side = Qt.AlignmentFlag.AlignRight if numeric else Qt.AlignmentFlag.AlignLeft
        painter.drawText(box, side | Qt.AlignmentFlag.AlignVCenter, text)
        width = QFontMetricsF(font).horizontalAdvance(text)
        if self.hasFocus() and section == self._at:
            left = box.right() - width if numeric else box.left()
            painter.fillRect(QRectF(left, rect.bottom() - 4, width, 3), colour(colours.accent))
        if sorted_by:
            x = box.right() - width - 11 if numeric else box.left() + width + 11
            self._direction(painter, QPointF(x, box.center().y()))
        painter.restore()

    def _box(self, rect: QRect, section: int) -> QRectF:
        left = MARK_LEFT if COLUMNS[section] is ROUTE else PAD
        right = PAD + (NOTE_ROOM if COLUMNS[section] is CHANCE else 0)
        return QRectF(rect.adjusted(left, 0, -right, -2))

    def _direction(self, painter: QPainter, at: QPointF) -> None:
        up = self.sortIndicatorOrder() == Qt.SortOrder.AscendingOrder
        tip = -2.0 if up else 2.0
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(painter.pen().color(), 1.6))
        painter.drawPolyline([at + QPointF(-4, -tip), at + QPointF(0, tip), at + QPointF(4, -tip)])
