"""Leads an empty plan to its first answer: four steps in sentences, the next one with the one accent action."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QGridLayout, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from desktop import fonts
from desktop.document import Document
from desktop.first.progress import LISTS, TOPICS, Step, Topic, can_find, steps
from desktop.plan_files import samples
from desktop.theme import ACCENT, NOTES, SECOND
from desktop.widgets.flow import Flow
from desktop.widgets.inked import Inked, Look, button
from desktop.widgets.labels import PlainLabel, wrapped
from desktop.words import first as words
from desktop.words.numbers import Numbers

if TYPE_CHECKING:
    from desktop.find.greeting import Greeting
    from desktop.find.search import RouteSearch

_BESIDE_NUMBERS = 40


class FirstSteps(Inked):
    """Follows the document; a step is done as soon as the plan says enough about it.

    Once there is anything that routes can be found from, the cheapest stand below the last step, without being asked
    for.
    """

    # What the person wants to say now.
    wants = Signal(str)
    pastes = Signal(str)
    sample_wanted = Signal(Path)

    def __init__(self, document: Document, numbers: Numbers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document, self._numbers = document, numbers
        self._left_out: set[Topic] = set()
        self.sample_links: list[QPushButton] = []
        self.greeting: Greeting | None = None
        self.head = wrapped(words.HEAD, fonts.serif(fonts.ANSWER))
        self.lead = wrapped(words.LEAD, fonts.sans(fonts.LEAD), SECOND)
        self.rows = {topic: StepRow(number, topic) for number, topic in enumerate(TOPICS, 1)}
        self._column = column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(8)
        column.addWidget(self.head)
        column.addWidget(self.lead)
        column.addSpacing(8)
        for row in self.rows.values():
            column.addWidget(_hairline())
            column.addWidget(row)
            row.wants.connect(self.wants)
            row.pastes.connect(self.pastes)
            row.left_out.connect(self._leave_out)
        column.addWidget(_hairline())
        self._or_samples = self._samples()
        column.addWidget(self._or_samples)
        column.addStretch(1)
        document.plan_changed.connect(self._show)
        self.dress()
        self._show()

    def propose(self, search: RouteSearch) -> None:
        """Has routes found and shown as soon as there is anything to find them from."""
        if self.greeting is not None or not can_find(self._document.plan):
            return
        from desktop.find.greeting import Greeting

        self.greeting = greeting = Greeting(self._document, search, self._numbers)
        greeting.setContentsMargins(_BESIDE_NUMBERS, 0, 0, 4)
        greeting.all_asked.connect(self._find)
        self._column.insertWidget(self._column.indexOf(self.rows["routes"]) + 1, greeting)
        # The answer itself takes the place of the promise of one.
        for place, label in enumerate((greeting.head, greeting.state)):
            self._column.insertWidget(place, label)
        self.dress()
        self._show()

    def _find(self) -> None:
        self.wants.emit("find")

    def _samples(self) -> QWidget:
        box = QWidget(self)
        flow = Flow(box, gap=20, line_gap=4)
        flow.setContentsMargins(0, 16, 0, 0)
        flow.addWidget(PlainLabel(words.OR_SAMPLE, font=fonts.sans(fonts.FORM), ink=SECOND, parent=box))
        for title, path in samples():
            word = button(title.replace("&", "&&"), "link", box)
            word.setAccessibleName(title)
            word.setProperty("path", str(path))
            word.clicked.connect(self._open_sample)
            flow.addWidget(word)
            self.sample_links.append(word)
        return box

    def _open_sample(self) -> None:
        self.sample_wanted.emit(Path(str(self.sender().property("path"))))

    def _leave_out(self, topic: Topic) -> None:
        self._left_out ^= {topic}
        self._show()

    def _show(self) -> None:
        plan = self._document.plan
        greeting = self.greeting
        found = can_find(plan) and greeting is not None
        for step in steps(plan, self._left_out):
            story = words.FOUND if found and step.topic == "routes" else words.story(plan, step, self._numbers)
            self.rows[step.topic].show_step(step, story, found=found)
            if greeting is not None and step.topic == "routes":
                dress_as(greeting.add_all, "main" if step.state == "next" else "plain")
        for part in (self.head, self.lead, self._or_samples):
            part.setVisible(not found)
        if greeting is not None:
            for part in (greeting, greeting.head, greeting.state):
                part.setVisible(found)


class StepRow(QWidget):
    """One step: its number, what it is about or came to, and what to do."""

    wants = Signal(str)
    pastes = Signal(str)
    left_out = Signal(str)

    def __init__(self, number: int, topic: Topic, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._topic: Topic = topic
        self.number = PlainLabel(str(number), font=fonts.serif(fonts.SENTENCE), ink=SECOND)
        self.title = PlainLabel(words.TITLES[topic], font=fonts.sans(fonts.LEAD, bold=True))
        self.state = PlainLabel(font=fonts.sans(fonts.FORM, bold=True), ink=ACCENT)
        self.story = PlainLabel(font=fonts.sans(fonts.FORM), ink=SECOND)
        self.story.setWordWrap(True)
        self.leave_out = self._word(words.LEAVE_OUT.get(topic, ""), "link", self._leave_out)
        self.paste = self._word(words.PASTE, "link", self._paste)
        self.search = self._word(words.FIND, "link", self._find)
        self.act = self._word(words.ACTIONS[topic], "plain", self._act)
        self.paste.setVisible(topic in LISTS)
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 8, 0, 8)
        grid.setHorizontalSpacing(16)
        grid.setVerticalSpacing(2)
        grid.setColumnMinimumWidth(0, 24)
        grid.setColumnStretch(1, 1)
        top = Qt.AlignmentFlag.AlignTop
        grid.addWidget(self.number, 0, 0, 2, 1, top)
        heading = QHBoxLayout()
        heading.setSpacing(12)
        heading.addWidget(self.title)
        heading.addWidget(self.state)
        heading.addStretch(1)
        grid.addLayout(heading, 0, 1)
        grid.addWidget(self.story, 1, 1)
        actions = QHBoxLayout()
        actions.setSpacing(16)
        for word in (self.leave_out, self.paste, self.search, self.act):
            actions.addWidget(word)
        grid.addLayout(actions, 0, 2, 2, 1, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignRight)

    def show_step(self, step: Step, story: str, *, found: bool = False) -> None:
        """How far it has come; `found`: routes that were found stand below the last step."""
        self.state.setText(words.STATES[step.state])
        self.state.setForegroundRole(ACCENT if step.state in ("done", "next") else NOTES)
        self.story.setText(story)
        self.leave_out.setVisible(step.topic in LISTS and step.state in ("next", "later"))
        settled = step.state in ("done", "left out")
        # A list is pasted first of all, typing is for what stands in none; routes are found before any is drawn.
        first = {"sale": self.paste, "routes": self.search}.get(step.topic, self.act)
        for word in (self.paste, self.search, self.act):
            look: Look = "main" if word is first and step.state == "next" else "link" if settled else "plain"
            dress_as(word, look)
        # What was found can be taken right below, where the way to all of it is, too.
        self.search.setVisible(step.topic == "routes" and not found)
        self.act.setText(words.CHANGE if step.state == "done" else words.ACTIONS[step.topic])
        self.act.setAccessibleName(words.action_name(step.topic, self.act.text()))

    def _word(self, text: str, look: Look, act: object) -> QPushButton:
        made = button(text, look, self)
        made.setAccessibleName(words.action_name(self._topic, text))
        made.clicked.connect(act)
        return made

    def _act(self) -> None:
        self.wants.emit(self._topic)

    def _paste(self) -> None:
        self.pastes.emit(self._topic)

    def _find(self) -> None:
        self.wants.emit("find")

    def _leave_out(self) -> None:
        self.left_out.emit(self._topic)


def dress_as(word: QPushButton, look: Look) -> None:
    """Another look for a button that stands already."""
    if word.property("look") != look:
        word.setProperty("look", look)
        word.setFont(fonts.sans(fonts.FORM, bold=look != "plain"))
        word.style().unpolish(word)
        word.style().polish(word)
        # By itself it keeps its room where the font stays the same.
        word.updateGeometry()


def _hairline() -> QFrame:
    line = QFrame()
    line.setProperty("look", "hairline")
    line.setFixedHeight(1)
    return line
