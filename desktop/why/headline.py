"""A large sentence with one choice in it."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from desktop import fonts
from desktop.forms.fields import SentenceChoice
from desktop.panels.charts.size import text_scale
from desktop.why.parts import Elided
from desktop.widgets.flow import Flow
from desktop.widgets.labels import PlainLabel

# The widest that a route's name may be, at the usual text size, and words of ours at any: a page's width.
_MOST, _WIDEST = 520, 1040


class Headline(QWidget):
    """Words before and after a choice; they wrap where the window is narrow, and long names are elided.

    named: whether it begins with a name.
    """

    def __init__(self, name: str, parent: QWidget | None = None, *, named: bool = True) -> None:
        super().__init__(parent)
        font = fonts.serif(fonts.ANSWER)
        self._most = int(_MOST * text_scale())
        self.before = Elided(font, int(1.2 * self._most) if named else _WIDEST)
        self.link, self.after = PlainLabel(font=font), PlainLabel(font=font)
        self.choice = SentenceChoice(name, fonts.serif(fonts.ANSWER, bold=True), ("–",), most=self._most)
        flow = Flow(self, gap=8)
        for widget in (self.before, self.link, self.choice, self.after):
            flow.addWidget(widget)

    def say(self, before: str, link: str, after: str) -> None:
        """Sets the words around the choice; `link`: those right before it."""
        self.before.show_text(before)
        self.before.setVisible(bool(before))
        for label, text in ((self.link, link), (self.after, after)):
            label.setText(text)
            label.setVisible(bool(text))

    def text(self) -> str:
        """The sentence as one string."""
        return f"{self.before.whole} {self.link.text()} {self.choice.currentText()}{self.after.text()}"
