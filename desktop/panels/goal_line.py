"""The question across the top."""

from __future__ import annotations

from PySide6.QtCore import QEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from desktop import fonts
from desktop.document import Document
from desktop.theme import colours_of
from desktop.widgets.runs_text import RunsText
from desktop.words.goal import goal_sentence
from desktop.words.numbers import Numbers


class GoalLine(QWidget):
    """The goal as a sentence: words quiet, values strong."""

    def __init__(self, document: Document, numbers: Numbers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document, self._numbers = document, numbers
        self.sentence = RunsText(fonts.serif(fonts.SENTENCE), fonts.serif(fonts.SENTENCE, bold=True), self)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.sentence)
        document.plan_changed.connect(self._show)
        self._show()
        self._ink()

    def changeEvent(self, event: QEvent) -> None:  # noqa: D102
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self._ink()

    def _show(self) -> None:
        self.sentence.set_runs(goal_sentence(self._document.plan, self._numbers))

    def _ink(self) -> None:
        colours = colours_of(self.palette())
        self.sentence.set_inks(colours.second, colours.text)
