"""The answer: the largest text on the page, with its lead and the 100 dots."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from core.text import tr
from desktop import fonts
from desktop.document import Document
from desktop.panels.charts.goal_chance import GoalChance
from desktop.theme import SECOND
from desktop.widgets.dots import Dots
from desktop.widgets.labels import PlainLabel
from desktop.widgets.runs_text import RunsText
from desktop.widgets.word import Word
from desktop.words.answer import CANCEL, CANCEL_NAME, GO_ON, GO_ON_NAME, SHARE_NOTE, Answer, answer
from desktop.words.numbers import Numbers
from desktop.words.runs import Run


class AnswerLine(QWidget):
    """Always current, and about one plan."""

    def __init__(self, document: Document, numbers: Numbers, chance: GoalChance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document, self._numbers, self._chance = document, numbers, chance
        self.head = RunsText(fonts.serif(fonts.ANSWER), fonts.serif(fonts.ANSWER, bold=True), self)
        self.lead = RunsText(fonts.sans(fonts.LEAD), fonts.sans(fonts.LEAD, bold=True), self)
        self.people = People(self)
        layout = QGridLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setHorizontalSpacing(24)
        layout.setVerticalSpacing(2)
        layout.setColumnStretch(0, 1)
        layout.addWidget(self.head, 0, 0)
        self._is_beside = True
        layout.addWidget(self.people, 0, 1, Qt.AlignmentFlag.AlignTop)
        self.working = Working(document, self)
        # No taller than the line it stands beside: nothing below moves when it comes or goes.
        self.working.setFixedHeight(self.lead.sizeHint().height())
        below = QHBoxLayout()
        below.setSpacing(24)
        below.addWidget(self.lead, 1)
        below.addWidget(self.working, 0, Qt.AlignmentFlag.AlignTop)
        layout.addLayout(below, 2, 0, 1, 2)
        self._layout = layout
        document.answers_changed.connect(self._show)
        chance.moved.connect(self._show)
        self._show()

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: D102
        super().resizeEvent(event)
        # With large text the people would take more than half of the line from the answer.
        beside = self.people.sizeHint().width() <= self.width() / 2
        if beside != self._is_beside:
            self._is_beside = beside
            row, column = (0, 1) if beside else (1, 0)
            self._layout.addWidget(self.people, row, column, Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft)

    def _show(self) -> None:
        chance = self._chance
        if self._document.patient and not self._document.complete and not chance.is_ahead:
            # The new answer is about to come: until then the one that stands there does not flicker.
            return
        shown = tuple(one for one in chance.found() if one.id not in self._document.hidden)
        said = answer(chance.plan(), shown, chance.verdict(), self._numbers)
        self.head.set_runs(said.head)
        self.lead.set_runs((Run(said.lead),))
        self.people.show_share(said)


class Working(Word):
    """Ends a long working out, and takes it up again; not there while there is nothing of the kind to do."""

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(CANCEL, parent)
        self._document = document
        self.clicked.connect(self._act)
        document.answers_changed.connect(self._show)
        self._show()

    def _act(self) -> None:
        if self._document.stopped:
            self._document.resume()
        else:
            self._document.cancel()

    def _show(self) -> None:
        stopped = self._document.stopped
        # Exact answers are there before anybody could stop them.
        slow = any(one.share_done >= 0.01 for one in self._document.found)
        self.setText(GO_ON if stopped else CANCEL)
        self.setAccessibleName(GO_ON_NAME if stopped else CANCEL_NAME)
        self.setVisible(stopped or (slow and not self._document.complete))


class People(QWidget):
    """`80 of 100 who try it reach the goal`, in words and as dots."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.share = PlainLabel(font=fonts.sans(fonts.LEAD, bold=True), parent=self)
        self.note = PlainLabel(font=fonts.sans(fonts.FORM), ink=SECOND, parent=self)
        self.dots = Dots(self)
        words = QVBoxLayout()
        words.setSpacing(0)
        for label in (self.share, self.note):
            label.setAlignment(Qt.AlignmentFlag.AlignRight)
            words.addWidget(label)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 4, 0, 0)
        layout.setSpacing(16)
        layout.addLayout(words)
        layout.addWidget(self.dots)
        # Nothing on the page may move when the first answer comes in.
        self.note.setMinimumWidth(self.note.fontMetrics().horizontalAdvance(SHARE_NOTE) + 1)
        policy = QSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        policy.setRetainSizeWhenHidden(True)
        self.setSizePolicy(policy)

    def show_share(self, said: Answer) -> None:
        """Shows the share of an answer, or nothing where there is none yet."""
        self.setVisible(said.share is not None)
        if said.share is None:
            return
        self.share.setText(tr("{share} of 100", share=said.share))
        self.note.setText(said.share_note)
        self.dots.set_share(said.share)
        self.dots.setAccessibleName(tr("{share} of 100 {share_note}", share=said.share, share_note=said.share_note))
