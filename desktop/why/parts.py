"""What the sections of the page are built from."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QFont, QFontMetrics, QPalette, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from desktop import fonts
from desktop.theme import ACCENT, NOTES, SECOND
from desktop.why.formula import Formula
from desktop.widgets.labels import PlainLabel, give_tip, wrapped
from desktop.words import why as words

# How strongly drawings show while a newer answer is on its way.
OUTDATED = 0.45
_TEXT = QPalette.ColorRole.WindowText
_LEAST_NAME = 90


class Section(QWidget):
    """A numbered heading with what belongs under it."""

    def __init__(self, number: int, title: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        head = QHBoxLayout()
        head.setSpacing(8)
        self._count = count = PlainLabel(str(number), font=fonts.sans(fonts.HEADING, bold=True), ink=ACCENT)
        self._title, self._name = title, wrapped(title, fonts.sans(fonts.HEADING, bold=True))
        self.set_number(number)
        head.addWidget(count, 0, Qt.AlignmentFlag.AlignTop)
        head.addWidget(self._name, 1)
        self.body = QVBoxLayout()
        self.body.setSpacing(6)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(8)
        layout.addLayout(head)
        layout.addLayout(self.body)

    def set_number(self, number: int) -> None:
        """Another place in the order."""
        self._count.setText(str(number))
        self._name.setAccessibleName(words.section(number, self._title))

    def say(self, text: str, *, quiet: bool = False) -> None:
        """Adds a sentence; nothing for none."""
        if text:
            self.body.addWidget(wrapped(text, fonts.sans(fonts.FORM), SECOND if quiet else _TEXT))

    def name(self, text: str) -> None:
        """Adds a small heading, a little apart from what stands before it."""
        if self.body.count():
            self.body.addSpacing(6)
        self.body.addWidget(wrapped(text, fonts.sans(fonts.FORM, bold=True)))

    def note(self, text: str) -> None:
        """Adds a note; nothing for none."""
        if text:
            self.body.addWidget(wrapped(text, fonts.sans(fonts.HEAD), NOTES))

    def reckon(self, text: str, *, quiet: bool = False) -> None:
        """Adds a sentence with arithmetic in it."""
        self.body.addWidget(Formula(text, fonts.sans(fonts.FORM), SECOND if quiet else _TEXT))

    def formula(self, text: str) -> None:
        """Adds arithmetic in the face of formulas; nothing for none."""
        if text:
            self.body.addWidget(Formula(text, fonts.serif(fonts.SENTENCE)))


class Elided(PlainLabel):
    """A label that is never wider than `most`; the rest stands in its tool tip."""

    def __init__(self, font: QFont, most: int, ink: QPalette.ColorRole = _TEXT) -> None:
        super().__init__(font=font, ink=ink)
        self._most = most
        self.whole = ""

    def show_text(self, text: str) -> None:
        """Another text."""
        self.whole = text
        shown = QFontMetrics(self.font()).elidedText(text, Qt.TextElideMode.ElideRight, self._most)
        self.setText(shown)
        self.setAccessibleName(text)
        give_tip(self, text if shown != text else "")


class GivesWay(Elided):
    """The same, and narrower than that before a row leaves its window."""

    def __init__(self, font: QFont, most: int) -> None:
        super().__init__(font, most)
        self._widest = most

    def show_text(self, text: str) -> None:  # noqa: D102
        super().show_text(text)
        self.updateGeometry()

    def sizeHint(self) -> QSize:  # noqa: D102
        whole = QFontMetrics(self.font()).horizontalAdvance(self.whole) + 2
        return QSize(min(whole, self._widest), super().sizeHint().height())

    def minimumSizeHint(self) -> QSize:  # noqa: D102
        return QSize(min(self.sizeHint().width(), fonts.grown(_LEAST_NAME)), super().minimumSizeHint().height())

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: D102
        super().resizeEvent(event)
        self._most = min(self._widest, self.width())
        super().show_text(self.whole)
