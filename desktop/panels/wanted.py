"""How the animals of one row look, as a word in the goal's sentence that opens its choices."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QFont, QFontMetrics, QPainter, QPaintEvent, QPalette
from PySide6.QtWidgets import QPushButton, QWidget

from desktop.theme import Colours
from desktop.widgets.chevron import ROOM, draw_chevron
from desktop.widgets.labels import give_tip
from desktop.widgets.ring import draw_ring
from desktop.words import goal as words

_WIDEST_WORD = 460


class WantedWord(QPushButton):
    """The look in the sentence, as a field that opens its choices."""

    def __init__(self, font: QFont, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFont(font)
        self.setAutoDefault(False)
        self.setCursor(Qt.CursorShape.PointingHandCursor)

    def show_words(self, text: str) -> None:
        """What it says; a long name is cut, and whole in its tip."""
        shown = QFontMetrics(self.font()).elidedText(text, Qt.TextElideMode.ElideRight, _WIDEST_WORD)
        self.setText(shown.replace("&", "&&"))
        give_tip(self, text if shown != text else "")
        self.setAccessibleName(f"{words.FORMS_NAME}: {text}")

    def sizeHint(self) -> QSize:  # noqa: D102
        metrics = QFontMetrics(self.font())
        return QSize(metrics.horizontalAdvance(self.text().replace("&&", "&")) + 8 + ROOM, metrics.height() + 4)

    def minimumSizeHint(self) -> QSize:  # noqa: D102
        return self.sizeHint()

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: D102
        super().paintEvent(event)
        painter, ink = QPainter(self), self.palette().color(QPalette.ColorRole.ButtonText)
        if self.hasFocus():
            draw_ring(painter, self.rect(), ink)
        draw_chevron(painter, self.rect(), ink)

    def ink(self, colours: Colours) -> None:
        """Takes on the page's colours."""
        self.setStyleSheet(
            f"QPushButton {{ background: transparent; color: {colours.text}; border: none; text-align: left;"
            f" border-bottom: 2px solid {colours.accent}; padding: 0px 2px; }}"
            f"QPushButton:hover {{ background: {colours.hover}; }}"
            f"QPushButton:focus {{ background: {colours.selected}; }}"
        )
