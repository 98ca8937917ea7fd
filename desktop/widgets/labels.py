"""Labels and tool tips that show text as typed."""

from __future__ import annotations

from html import escape

from PySide6.QtCore import Qt
from PySide6.QtGui import QFont, QPalette
from PySide6.QtWidgets import QLabel, QWidget


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
