"""One shape filled: its name, who is in it, what it needs beside the cheapest, and its seasons."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from core.plan.faults import Fault
from core.plan.limits import LONGEST_NAME
from core.routes.pairs import Shape
from desktop import fonts
from desktop.forms.fields import SentenceField
from desktop.new_route.lack import LackNote
from desktop.new_route.roles import RoleLine, Roles, lines
from desktop.new_route.trial import Draft, Trial
from desktop.panels.steps.strip import StepsStrip
from desktop.theme import ERROR, SECOND
from desktop.widgets.labels import PlainLabel
from desktop.widgets.runs_text import RunsText
from desktop.words import new_route as words
from desktop.words.numbers import Numbers
from desktop.words.runs import Run

_LONGEST_SHOWN = 520


class Filled(QWidget):
    """Follows the trial, in place."""

    # There are new fields, which have yet to take on the page's colours.
    made = Signal()

    def __init__(self, trial: Trial, numbers: Numbers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._trial, self._numbers = trial, numbers
        self._shape: Shape = "straight"
        self._names: dict[Shape, str] = {}
        self._word = PlainLabel(words.NAME, font=fonts.sans(fonts.FORM), ink=SECOND, parent=self)
        bold = fonts.serif(fonts.SENTENCE, bold=True)
        self.name = SentenceField(words.NAME_NAME, bold, self, most=_LONGEST_SHOWN)
        self.name.setMaxLength(LONGEST_NAME)
        self.lack = LackNote(trial.document, self)
        self.roles = Roles(numbers, self._connect, self)
        self.needs = RunsText(fonts.serif(fonts.ANSWER), fonts.serif(fonts.ANSWER, bold=True), self)
        self.beside = RunsText(fonts.sans(fonts.LEAD), fonts.sans(fonts.LEAD, bold=True), self)
        self.strip = StepsStrip(numbers, self)
        self.strip.setAccessibleName(words.DRAWN)
        self._refusal = PlainLabel(font=fonts.sans(fonts.HEAD), ink=ERROR, parent=self)
        self._lay_out()
        self.name.taken.connect(self._take_name)

    def show_shape(self, shape: Shape) -> None:
        """Shows one shape as it stands on trial."""
        self._shape = shape
        self._refusal.hide()
        plan, draft = self._trial.document.plan, self._trial.drafts.get(shape)
        failure = self._trial.failure or ("" if draft else words.FILLING)
        self.lack.show_lack(plan, draft.proposal if draft else None, failure)
        route = self._trial.route(shape)
        for widget in (self._word, self.name, self.roles, self.needs, self.beside, self.strip):
            widget.setVisible(route is not None)
        if draft is None or route is None:
            return
        self.name.hold(self.typed_name(draft))
        if self.roles.show_lines(plan, lines(draft, route)):
            self.made.emit()
        self._show_answer(shape, empty=words.empty_words(route))

    def typed_name(self, draft: Draft) -> str:
        """The name the route is to have."""
        return self._names.get(draft.proposal.shape) or words.route_name(self._trial.document.plan, draft.proposal)

    def refuse(self, message: str) -> None:
        """Says why the route cannot be added."""
        self._refusal.setText(words.not_so_many(message))
        self._refusal.show()

    def _show_answer(self, shape: Shape, empty: str) -> None:
        plan, verdict = self._trial.plan, self._trial.document.verdict
        drawn, best = (self._trial.finding(shape, as_drawn=as_drawn) for as_drawn in (True, False))
        if empty or drawn is None or best is None:
            self.needs.set_runs((Run(empty),))
            self.beside.set_runs(())
            self.strip.hide()
            return
        self.needs.set_runs(words.needs(plan, drawn, self._numbers))
        self.beside.set_runs((Run(words.beside(drawn, best, verdict, self._numbers)),))
        self.strip.show_route(plan, drawn)

    def _connect(self, line: RoleLine) -> None:
        line.counted.connect(self._count)
        line.bought_in.connect(self._buy_in)
        line.chosen.connect(self._choose)

    def _count(self, group: str, number: int) -> None:
        self._refuse_at(self._trial.count(self._shape, group, number))

    def _buy_in(self, season: int) -> None:
        self._refuse_at(self._trial.buy_in(self._shape, season))

    def _choose(self, role: str, key: str) -> None:
        self._trial.choose(self._shape, role, key)

    def _refuse_at(self, faults: tuple[Fault, ...]) -> None:
        line = self.sender()
        if faults and isinstance(line, RoleLine):
            line.refuse(words.not_so_many(faults[0].message))

    def _take_name(self, text: str) -> None:
        self._names[self._shape] = text.strip()
        draft = self._trial.drafts.get(self._shape)
        if draft is not None:
            self.name.hold(self.typed_name(draft))

    def _lay_out(self) -> None:
        named = QHBoxLayout()
        named.setSpacing(8)
        named.addWidget(self._word)
        named.addWidget(self.name)
        named.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(8)
        layout.addLayout(named)
        layout.addWidget(self.lack)
        layout.addWidget(self.roles)
        layout.addSpacing(8)
        layout.addWidget(self.needs)
        layout.addWidget(self.beside)
        layout.addSpacing(8)
        layout.addWidget(self.strip)
        layout.addWidget(self._refusal)
        self._refusal.hide()
