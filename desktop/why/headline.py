"""A large sentence with one choice in it."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from desktop import fonts
from desktop.forms.fields import SentenceChoice
from desktop.widgets.flow import Flow
from desktop.widgets.labels import PlainLabel

_MOST = 520


class Headline(QWidget):
    """Words before and after a choice; they wrap where the window is narrow."""

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.before = PlainLabel(font=fonts.serif(fonts.ANSWER))
        self.choice = SentenceChoice(name, fonts.serif(fonts.ANSWER, bold=True), ("–",), most=_MOST)
        self.after = PlainLabel(font=fonts.serif(fonts.ANSWER))
        flow = Flow(self, gap=8)
        for widget in (self.before, self.choice, self.after):
            flow.addWidget(widget)

    def say(self, before: str, after: str) -> None:
        """Sets the words around the choice."""
        self.before.setText(before)
        self.after.setText(after)
        self.after.setVisible(bool(after))

    def text(self) -> str:
        """The sentence as one string."""
        return f"{self.before.text()} {self.choice.currentText()}{self.after.text()}"
