"""A button that is only its word, quiet until it is pointed at."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPaintEvent
from PySide6.QtWidgets import QAbstractButton, QWidget

from desktop import fonts
from desktop.theme import colour, colours_of

_TALL = 24


class Word(QAbstractButton):
    """A button that is only its word."""

    def __init__(self, text: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setText(text)
        self.setAccessibleName(text)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setFont(fonts.sans(fonts.HEAD))
        self.setCursor(Qt.CursorShape.PointingHandCursor)

    def sizeHint(self) -> QSize:  # noqa: D102
        metrics = QFontMetricsF(self.font())
        return QSize(int(metrics.horizontalAdvance(self.text()) + 5), max(_TALL, int(metrics.height()) + 4))

    def changeEvent(self, event: QEvent) -> None:  # noqa: D102
        super().changeEvent(event)
        if event.type() == QEvent.Type.EnabledChange:
            cursor = Qt.CursorShape.PointingHandCursor if self.isEnabled() else Qt.CursorShape.ArrowCursor
            self.setCursor(cursor)

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: D102
        painter = QPainter(self)
        colours = colours_of(self.palette())
        strong = self.isEnabled() and (self.underMouse() or self.hasFocus())
        painter.setFont(self.font())
        painter.setPen(colour(colours.text if strong else colours.second if self.isEnabled() else colours.rule))
        box = QRectF(self.rect()).adjusted(2, 0, -2, 0)
        painter.drawText(box, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, self.text())
        if strong:
            base = box.center().y() + QFontMetricsF(self.font()).height() / 2
            thick = 2.0 if self.hasFocus() else 1.0
            painter.fillRect(QRectF(box.left(), base, box.width(), thick), colour(colours.accent))
