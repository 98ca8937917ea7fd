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
        self.before = Elided(font, min(int(1.2 * self._most), _WIDEST) if named else _WIDEST)
        self.link, self.mark, self.after = (PlainLabel(font=font) for _ in range(3))
        self.choice = SentenceChoice(name, fonts.serif(fonts.ANSWER, bold=True), ("–",), most=self._most)
        flow = Flow(self, gap=8)
        for widget in (self.before, self.link, self.choice, self.mark, self.after):
            flow.addWidget(widget)

    def say(self, before: str, link: str, after: str) -> None:
        """Sets the words around the choice; `link`: those right before it. A mark after it stays on its line."""
        self.before.show_text(before)
        self.before.setVisible(bool(before))
        rest = after.lstrip(",.;:")
        for label, text in (
            (self.link, link),
            (self.mark, after[: len(after) - len(rest)]),
            (self.after, rest.strip()),
        ):
            label.setText(text)
            label.setVisible(bool(text))

    def text(self) -> str:
        """The sentence as one string."""
        said = f"{self.before.whole} {self.link.text()} {self.choice.currentText()}{self.mark.text()}"
        return " ".join(part for part in (said, self.after.text()) if part)
