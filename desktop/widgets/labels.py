"""Labels and tool tips that show text as typed."""

from __future__ import annotations

from html import escape

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QFont, QPainter, QPaintEvent, QPalette
from PySide6.QtWidgets import QLabel, QSizePolicy, QWidget

_LEAST_LETTERS = 8
_NARROWEST = 160


class PlainLabel(QLabel):
    """A label that never reads markup, in one of the page's inks."""

    def __init__(
        self,
        text: str = "",
        *,
        font: QFont,
        ink: QPalette.ColorRole = QPalette.ColorRole.WindowText,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setFont(font)
        self.setForegroundRole(ink)
        self.setText(text)


def tip(text: str) -> str:
    """A tool tip that shows `text` as typed: tool tips guess markup, so it is escaped and said to be markup."""
    return f"<qt>{escape(text)}</qt>" if text else ""


def give_tip(widget: QWidget, text: str) -> None:
    """Gives a widget a tip; one without words of its own for screen readers gets them too, where Qt would read out the
    markup of the tip."""
    described = widget.accessibleDescription()
    if not described or tip(described) == widget.toolTip():
        widget.setAccessibleDescription(text)
    widget.setToolTip(tip(text))


class ShortLabel(PlainLabel):
    """A label that gives way: what does not fit ends in dots, and stands whole in its tip and for screen readers."""

    def minimumSizeHint(self) -> QSize:  # noqa: D102
        least = self.fontMetrics().averageCharWidth() * _LEAST_LETTERS
        return QSize(min(least, super().sizeHint().width()), super().minimumSizeHint().height())

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: D102
        shown = self.fontMetrics().elidedText(self.text(), Qt.TextElideMode.ElideRight, self.width())
        whole = self.text() if shown != self.text() else ""
        if tip(whole) != self.toolTip():
            give_tip(self, whole)
        painter = QPainter(self)
        painter.setFont(self.font())
        painter.setPen(self.palette().color(self.foregroundRole()))
        painter.drawText(self.rect(), Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, shown)


class Wrapped(PlainLabel):
    """A label that wraps, as tall as its width makes it and no taller."""

    def __init__(self, text: str, font: QFont, ink: QPalette.ColorRole) -> None:
        super().__init__(text, font=font, ink=ink)
        self.setWordWrap(True)
        self.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def minimumSizeHint(self) -> QSize:  # noqa: D102
        # Qt's own is the height of the narrowest column, which a page that scrolls would then keep free.
        return QSize(_NARROWEST, self.fontMetrics().height())


def wrapped(text: str, font: QFont, ink: QPalette.ColorRole = QPalette.ColorRole.WindowText) -> Wrapped:
    """A label that wraps."""
    return Wrapped(text, font, ink)
