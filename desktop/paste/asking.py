"""One unclear word at a time: which, why, and how it could be meant, each meaning a button."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from core.paste.parts import Choice, Line, Listing, Mark
from desktop import fonts
from desktop.widgets.flow import Flow
from desktop.widgets.inked import Inked, button
from desktop.widgets.labels import PlainLabel
from desktop.words import paste as words


class Asking(Inked):
    """Nothing is chosen beforehand, and Enter chooses nothing: a meaning is never guessed."""

    # The mark asked about, the places of the lines that have it alike, and what the person chose.
    settled = Signal(object, list, object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.question = PlainLabel(font=fonts.sans(fonts.LEAD, bold=True))
        self.question.setWordWrap(True)
        self.choices: list[QPushButton] = []
        self._mark: Mark | None = None
        self._alike: list[int] = []
        self._box = QWidget()
        self._flow = Flow(self._box, gap=8, line_gap=8)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(8)
        column.addWidget(self.question)
        column.addWidget(self._box)

    def ask(self, listing: Listing, number: int | None) -> None:
        """Asks about the first mark of a line, and of all lines that have it alike; None: there is nothing to ask."""
        self._mark = None
        self._alike = []
        if number is None:
            self.question.setText(words.ALL_CLEAR if listing.lines else "")
            self._offer(())
            return
        line = listing.lines[number]
        self._mark = line.marks[0]
        self._alike = [place for place, other in enumerate(listing.lines) if _alike(line, self._mark, other)]
        self.question.setText(words.question([place + 1 for place in self._alike], line, self._mark))
        self._offer(self._mark.choices)

    def _offer(self, choices: tuple[Choice, ...]) -> None:
        had_focus = any(one.hasFocus() for one in self.choices)
        for one in self.choices:
            self._flow.removeWidget(one)
            one.hide()
            one.deleteLater()
        self.choices = []
        for place, choice in enumerate(choices):
            made = button(choice.words.replace("&", "&&"), "plain", self._box)
            made.setAccessibleName(choice.words)
            made.setProperty("place", place)
            made.clicked.connect(self._choose)
            self._flow.addWidget(made)
            made.show()
            self.choices.append(made)
        self._box.setVisible(bool(choices))
        if had_focus and self.choices:
            self.choices[0].setFocus()
        self.dress()

    def _choose(self) -> None:
        if self._mark is not None:
            self.settled.emit(self._mark, self._alike, self._mark.choices[int(self.sender().property("place"))])


def _alike(line: Line, mark: Mark, other: Line) -> bool:
    """Whether another line has the same unclear word, with the same ways to mean it."""
    if other is line:
        return True
    word = _word(line, mark)
    return bool(word) and any(
        _word(other, one) == word and (one.reason, one.choices) == (mark.reason, mark.choices) for one in other.marks
    )


def _word(line: Line, mark: Mark) -> str:
    return line.text[mark.start : mark.end].strip().casefold()
