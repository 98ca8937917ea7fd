"""The question across the top, in form fields."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from core.plan.limits import MOST_WANT_ROWS
from desktop import fonts
from desktop.document import Document
from desktop.forms.fields import SentenceField
from desktop.forms.goal_fields import BUDGET, CHANGE, COUNT, OUTRIGHT, SEASONS, SEX, SURE, with_row
from desktop.forms.slots import ChoiceSlot, Slot, TextSlot
from desktop.forms.table import Field
from desktop.forms.taking import take
from desktop.panels.charts.goal_chance import GoalChance
from desktop.panels.wanted import WantedWord
from desktop.theme import ERROR, SECOND, colours_of
from desktop.widgets.flow import Flow
from desktop.widgets.inked import Inked, button
from desktop.widgets.labels import PlainLabel
from desktop.words import assumptions
from desktop.words import forms as form_words
from desktop.words import goal as words
from desktop.words.numbers import Numbers


class GoalLine(Inked):
    """The goal as a sentence: words quiet, what can be changed bold on a rule, a refusal in words below."""

    def __init__(self, document: Document, numbers: Numbers, chance: GoalChance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document, self._numbers, self._chance = document, numbers, chance
        self._slots: dict[str, TextSlot] = {}
        self.refusal = PlainLabel(font=fonts.sans(fonts.HEAD), ink=ERROR, parent=self)
        self.refusal.setWordWrap(True)
        self.refusal.hide()
        # Made in the order in which Tab goes from one to the next.
        self.rows = [_Row(self, document, numbers)]
        self.seasons_word, self.currency = self._word(), self._word()
        self._sentence = Flow()
        self._tail = self._make_tail()
        self.assumptions = button(assumptions.OPEN, "link", self)
        second = self._make_second_line()
        self.add_row = button(words.ADD_ROW, "link", self)
        self._lay_out(second)
        self._fit(len(document.plan.goal.want))
        self.add_row.clicked.connect(self._add_row)
        document.plan_changed.connect(self._show)
        chance.moved.connect(self._show_chance)
        self._show()

    @property
    def fields(self) -> dict[str, SentenceField]:
        """What is typed into, by the place it has in the plan."""
        counts = {row.count.field.at(place): row.count.edit for place, row in enumerate(self.rows)}
        return {**counts, **{place: slot.edit for place, slot in self._slots.items()}}

    def text(self) -> str:
        """The whole sentence, as it reads."""
        return words.as_text(self._document.plan, self._numbers)

    def dress(self) -> None:
        """Puts the colours on the words that open choices, too."""
        super().dress()
        for row in self.rows:
            row.look.ink(colours_of(self.palette()))

    def _word(self, text: str = "", size: int = fonts.SENTENCE) -> PlainLabel:
        font = fonts.serif(size) if size == fonts.SENTENCE else fonts.sans(size)
        return PlainLabel(text, font=font, ink=SECOND, parent=self)

    def _slot(self, field: Field, size: int = fonts.SENTENCE) -> QWidget:
        font = fonts.serif(size, bold=True) if size == fonts.SENTENCE else fonts.sans(size, bold=True)
        slot = TextSlot(field, self._numbers, self, font)
        self._slots[field.place] = slot
        self.hear(slot)
        slot.edit.taken_back.connect(self.refusal.hide)
        return slot.widget

    def hear(self, slot: Slot) -> None:
        """Takes what a field brings."""
        slot.taken.connect(self._taken)
        slot.unread.connect(self._unread)

    def _make_tail(self) -> list[QWidget]:
        return [
            self._slot(SURE), self._word(words.SURE_WITHIN), self._slot(SEASONS), self.seasons_word,
            self._word(words.FOR_AT_MOST), self._slot(BUDGET), self.currency,
        ]  # fmt: skip

    def _make_second_line(self) -> list[QWidget]:
        self.bought, self.same_currency = self._word(size=fonts.FORM), self._word(size=fonts.FORM)
        return [
            self.bought, self._slot(OUTRIGHT, fonts.FORM), self.same_currency,
            self._word(words.IN_SEASON_1, fonts.FORM), self._slot(CHANGE, fonts.FORM),
            self._word(words.LATER, fonts.FORM),
        ]  # fmt: skip

    def _lay_out(self, second: list[QWidget]) -> None:
        sentence, beside = QWidget(self), QHBoxLayout()
        sentence.setLayout(self._sentence)
        beside.setSpacing(24)
        beside.addWidget(sentence, 1)
        beside.addWidget(self.assumptions, 0, Qt.AlignmentFlag.AlignTop)
        price, below = QWidget(self), QHBoxLayout()
        flow = Flow(price)
        for part in second:
            flow.addWidget(part)
        below.setSpacing(24)
        below.addWidget(price, 1)
        below.addWidget(self.add_row, 0, Qt.AlignmentFlag.AlignTop)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(4)
        layout.addLayout(beside)
        layout.addLayout(below)
        layout.addWidget(self.refusal)

    def _show(self) -> None:
        plan = self._document.plan
        if len(self.rows) != len(plan.goal.want):
            self._fit(len(plan.goal.want))
        for place, row in enumerate(self.rows):
            row.show_row(place)
        for slot in self._slots.values():
            slot.show_value(plan, 0)
        self.seasons_word.setText(words.seasons_word(plan.goal.seasons))
        self.bought.setText(words.bought(plan))
        for label in (self.currency, self.same_currency):
            label.setText(plan.currency)
            # An empty word would leave its gap.
            label.setVisible(bool(plan.currency))
        self.add_row.setVisible(len(plan.goal.want) < MOST_WANT_ROWS)
        self.setAccessibleDescription(self.text())
        self.refusal.hide()
        self.dress()

    def _fit(self, wanted: int) -> None:
        """As many rows as the goal has; those there stay, so that the one in use keeps its focus."""
        while len(self.rows) < wanted:
            self.rows.append(_Row(self, self._document, self._numbers))
        for row in self.rows[wanted:]:
            row.drop()
        del self.rows[wanted:]
        self._sentence.clear()
        last = self.rows[-1]
        for part in (*(part for row in self.rows for part in row.parts(last=row is last)), *self._tail):
            self._sentence.addWidget(part)
            part.show()
        self._tab_in_order()

    def _tab_in_order(self) -> None:
        stops = [part for row in self.rows for part in (row.count.widget, row.sex.widget, row.look)]
        stops += [self._slots[field.place].widget for field in (SURE, SEASONS, BUDGET)]
        stops += [self.assumptions, self._slots[OUTRIGHT.place].widget, self._slots[CHANGE.place].widget, self.add_row]
        for one, following in pairwise(map(_stop, stops)):
            QWidget.setTabOrder(one, following)

    def _show_chance(self) -> None:
        """Follows the goal line while it is dragged."""
        self._slots[SURE.place].show_value(self._chance.plan(), 0)

    def _taken(self, value: Any) -> None:
        slot = self.sender()
        assert isinstance(slot, Slot)
        subject = next((place for place, row in enumerate(self.rows) if slot in (row.count, row.sex)), 0)
        refusal = take(self._document, self._numbers, slot.field, subject, value)
        if refusal:
            self._refuse(slot, refusal)
        else:
            # The plan may say the same as before in other digits.
            slot.show_value(self._document.plan, subject)
            self.refusal.hide()

    def _unread(self, sentence: str) -> None:
        slot = self.sender()
        assert isinstance(slot, Slot)
        self._refuse(slot, form_words.unread(slot.field.name, sentence))

    def _refuse(self, slot: Slot, sentence: str) -> None:
        slot.set_refused(True)
        self.refusal.setText(sentence)
        self.refusal.show()

    def _add_row(self) -> None:
        if not self._document.edit(with_row(self._document.plan), words.ADD_STEP):
            self.rows[-1].open_choices()


class _Row:
    """The widgets of one row wanted."""

    def __init__(self, line: GoalLine, document: Document, numbers: Numbers) -> None:
        bold = fonts.serif(fonts.SENTENCE, bold=True)
        self._document, self._numbers = document, numbers
        self._place = 0
        self.before = PlainLabel(font=fonts.serif(fonts.SENTENCE), ink=SECOND, parent=line)
        self.after = PlainLabel(",", font=fonts.serif(fonts.SENTENCE), ink=SECOND, parent=line)
        self.count = TextSlot(COUNT, numbers, line, bold)
        self.sex = ChoiceSlot(SEX, line, bold)
        self.look = WantedWord(bold, line)
        line.hear(self.count)
        line.hear(self.sex)
        self.count.edit.taken_back.connect(line.refusal.hide)
        self.look.clicked.connect(self.open_choices)

    def parts(self, *, last: bool) -> list[QWidget]:
        """What stands in the sentence."""
        self.after.setVisible(last)
        return [self.before, self.count.widget, self.sex.widget, self.look, *([self.after] if last else [])]

    def show_row(self, place: int) -> None:
        """Shows what the plan says."""
        plan = self._document.plan
        self._place = place
        self.before.setText(words.AND if place else words.I_WANT)
        self.count.show_value(plan, place)
        self.sex.show_value(plan, place)
        self.look.show_words(words.row_words(plan, plan.goal.want[place]))

    def open_choices(self) -> None:
        """Opens the forms to choose from."""
        # Loaded when first opened: the start does not wait for it.
        from desktop.panels.wanted_picker import WantedPicker

        WantedPicker(self._document, self._numbers, self._place, self.look).open_below(self.look)

    def drop(self) -> None:
        """Takes the widgets out of the line for good."""
        for part in (self.before, self.after, self.count.widget, self.sex.widget, self.look):
            part.hide()
            part.deleteLater()
        self.count.deleteLater()
        self.sex.deleteLater()


def _stop(part: QWidget) -> QWidget:
    """Where Tab stops in a part: what only holds a field is passed over."""
    if part.focusPolicy() & Qt.FocusPolicy.TabFocus:
        return part
    inside = (one for one in part.findChildren(QWidget) if one.focusPolicy() & Qt.FocusPolicy.TabFocus)
    return next(inside, part)
