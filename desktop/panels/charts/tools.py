"""What can be done with a chart, as quiet words in its heading."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPaintEvent
from PySide6.QtWidgets import QAbstractButton, QHBoxLayout, QWidget

from desktop import fonts
from desktop.theme import colour, colours_of
from desktop.words import charts as words

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


class Tools(QWidget):
    """Words for zooming and for the table; those that would do nothing are not in use."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        # The first one comes and goes, so that the others keep their place.
        self.whole = Word(words.WHOLE_CHART, self)
        self.zoom_in = Word(words.ZOOM_IN, self)
        self.zoom_out = Word(words.ZOOM_OUT, self)
        self.table = Word(words.AS_TABLE, self)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(12)
        layout.addStretch(1)
        for word in (self.whole, self.zoom_in, self.zoom_out, self.table):
            layout.addWidget(word)
        self.show_state(zoomed=False, as_table=False)

    def show_state(self, *, zoomed: bool, as_table: bool) -> None:
        """What there is to do now."""
        self.whole.setVisible(zoomed and not as_table)
        self.zoom_out.setVisible(zoomed and not as_table)
        self.zoom_in.setVisible(not as_table)
        text = words.AS_CHART if as_table else words.AS_TABLE
        self.table.setText(text)
        self.table.setAccessibleName(text)
        self.table.updateGeometry()
