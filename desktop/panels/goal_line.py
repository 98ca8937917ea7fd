"""The question across the top, in form fields."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QSignalBlocker, Qt
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from core.plan.faults import Fault
from desktop import fonts
from desktop.document import Document
from desktop.forms.fields import SentenceChoice, SentenceField
from desktop.forms.goal_fields import BUDGET, COUNT, SEASONS, SURE, GoalField, edited, with_sex
from desktop.locale_reading import read_number
from desktop.panels.charts.goal_chance import GoalChance
from desktop.theme import ERROR, SECOND, colours_of
from desktop.widgets.flow import Flow
from desktop.widgets.labels import PlainLabel
from desktop.widgets.word import Word
from desktop.words import goal as words
from desktop.words.assumptions import OPEN
from desktop.words.numbers import Numbers

_SEXES = ("any", "female", "male")


class GoalLine(QWidget):
    """The goal as a sentence: words quiet, what can be changed bold on a rule, a refusal in words below."""

    def __init__(self, document: Document, numbers: Numbers, chance: GoalChance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document, self._numbers, self._chance = document, numbers, chance
        bold = fonts.serif(fonts.SENTENCE, bold=True)
        self.fields = {row.place: SentenceField(row.name, bold, self) for row in (COUNT, SURE, SEASONS, BUDGET)}
        self._rows = {row.place: row for row in (COUNT, SURE, SEASONS, BUDGET)}
        self.fields[BUDGET.place].setPlaceholderText(words.ANY_SUM)
        self.sex = SentenceChoice(words.SEX_NAME, bold, tuple(words.SEX_WORDS[sex] for sex in _SEXES), self)
        self.wanted = PlainLabel(font=bold, parent=self)
        self.seasons_word, self.currency = self._word(""), self._word("")
        self.refusal = PlainLabel(font=fonts.sans(fonts.HEAD), ink=ERROR, parent=self)
        self.refusal.hide()
        self.assumptions = Word(OPEN, self)
        self._lay_out()
        for place, field in self.fields.items():
            field.setProperty("place", place)
            field.taken.connect(self._taken)
        self.sex.activated.connect(self._choose_sex)
        document.plan_changed.connect(self._show)
        chance.moved.connect(self._show_chance)
        self._show()
        self._ink()

    def changeEvent(self, event: QEvent) -> None:  # noqa: D102
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self._ink()

    def _ink(self) -> None:
        colours = colours_of(self.palette())
        for field in self.fields.values():
            field.ink(colours)
        self.sex.ink(colours)

    def text(self) -> str:
        """The whole sentence, as it reads."""
        return words.as_text(self._document.plan, self._numbers)

    def _word(self, text: str) -> PlainLabel:
        return PlainLabel(text, font=fonts.serif(fonts.SENTENCE), ink=SECOND, parent=self)

    def _lay_out(self) -> None:
        sentence = QWidget(self)
        flow = Flow(sentence)
        for part in self._parts():
            flow.addWidget(part if isinstance(part, QWidget) else self._word(part))
        line = QHBoxLayout()
        line.setSpacing(24)
        line.addWidget(sentence, 1)
        line.addWidget(self.assumptions, 0, Qt.AlignmentFlag.AlignTop)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        layout.addLayout(line)
        layout.addWidget(self.refusal)

    def _parts(self) -> Sequence[QWidget | str]:
        count, sure, seasons, budget = (self.fields[row.place] for row in (COUNT, SURE, SEASONS, BUDGET))
        return (
            words.I_WANT, count, self.sex, self.wanted, sure, words.SURE_WITHIN, seasons, self.seasons_word,
            words.FOR_AT_MOST, budget, self.currency,
        )  # fmt: skip

    def _show(self) -> None:
        plan = self._document.plan
        for place, field in self.fields.items():
            field.hold(self._rows[place].show(plan, self._numbers))
        with QSignalBlocker(self.sex):
            self.sex.setCurrentIndex(_SEXES.index(plan.goal.want[0].sex))
        self.wanted.setText(f"{words.wanted_words(plan, self._numbers)},")
        self.seasons_word.setText(words.seasons_word(plan.goal.seasons))
        self.currency.setText(plan.currency)
        self.setAccessibleDescription(self.text())
        self.refusal.hide()

    def _show_chance(self) -> None:
        """Follows the goal line while it is dragged."""
        self.fields[SURE.place].hold(SURE.show(self._chance.plan(), self._numbers))

    def _taken(self, text: str) -> None:
        field = self.sender()
        assert isinstance(field, SentenceField)
        row = self._rows[str(field.property("place"))]
        empty = row.may_be_empty and not text.strip()
        value = None if empty else read_number(text, whole=row.whole)
        if value is None and not empty:
            self._refuse(field, words.not_a_number(text, whole=row.whole))
            return
        self._apply(field, row, value)

    def _apply(self, field: SentenceField, row: GoalField, value: float | None) -> None:
        faults = self._document.edit(edited(self._document.plan, row, value), row.step, merge=row.place)
        if faults:
            self._refuse(field, words.refused(row.name, faults[0].message))
        else:
            # The plan may say the same as before in other digits.
            field.hold(row.show(self._document.plan, self._numbers))
            self.refusal.hide()

    def _choose_sex(self, index: int) -> None:
        faults: tuple[Fault, ...] = self._document.edit(
            with_sex(self._document.plan, _SEXES[index]), words.SEX_STEP, merge="goal.want[0].sex"
        )
        if faults:
            self._show()
            self.refusal.setText(words.refused(words.SEX_NAME, faults[0].message))
            self.refusal.show()

    def _refuse(self, field: SentenceField, sentence: str) -> None:
        field.set_refused(True)
        self.refusal.setText(sentence)
        self.refusal.show()
