"""The head of the route list: quiet words over a line, the sorted column bold with its direction."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPen
from PySide6.QtWidgets import QHeaderView, QWidget

from desktop import fonts
from desktop.panels.routes.columns import CHANCE, COLUMNS, ROUTE
from desktop.panels.routes.delegate import MARK_LEFT, NOTE_ROOM, PAD
from desktop.theme import colour, colours_of

HEIGHT = 28


class RouteHeader(QHeaderView):
    """Click, or Space when focused, sorts."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(Qt.Orientation.Horizontal, parent)
        self.setSectionsClickable(True)
        self.setHighlightSections(False)
        self.setSortIndicatorShown(True)
        self.setAccessibleName("Heads of the route list; click one to sort by it")

    def sizeHint(self) -> QSize:  # noqa: D102
        return QSize(super().sizeHint().width(), HEIGHT)

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
        if sorted_by:
            width = QFontMetricsF(font).horizontalAdvance(text)
            x = box.right() - width - 11 if numeric else box.left() + width + 11
            self._direction(painter, QPointF(x, box.center().y()))
        painter.restore()

    def _box(self, rect: QRect, section: int) -> QRectF:
        left = MARK_LEFT if section == ROUTE else PAD
        right = PAD + (NOTE_ROOM if section == CHANCE else 0)
        return QRectF(rect.adjusted(left, 0, -right, -2))

    def _direction(self, painter: QPainter, at: QPointF) -> None:
        up = self.sortIndicatorOrder() == Qt.SortOrder.AscendingOrder
        tip = -2.0 if up else 2.0
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(painter.pen().color(), 1.6))
        painter.drawPolyline([at + QPointF(-4, -tip), at + QPointF(0, tip), at + QPointF(4, -tip)])
