"""Why this chance: from each gene's cross to the hundred people who try it."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QSizePolicy, QVBoxLayout, QWidget

from core.explain.people import people_sentence, small_sentence
from core.explain.rungs import ceiling_sentence, gap_sentence, headline, method_sentence, order_sentence
from core.explain.why import Why
from core.plan.model import Plan
from desktop import fonts
from desktop.findings import Finding
from desktop.theme import NOTES
from desktop.why.columns import Columns
from desktop.why.headline import Headline
from desktop.why.ladder_rows import ladder_rows
from desktop.why.ladder_view import LadderView
from desktop.why.parts import Section
from desktop.why.people_view import PeopleView
from desktop.why.sections import next_number, sections
from desktop.widgets.inked import Inked, button
from desktop.widgets.labels import wrapped
from desktop.words import why as words
from desktop.words.goal import float_chance
from desktop.words.numbers import Numbers


class ChanceSheet(Inked):
    """Shows one route's explanation; `season_chosen` and `end_turned` ask for another."""

    season_chosen = Signal(int)
    end_turned = Signal()

    def __init__(self, numbers: Numbers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._numbers = numbers
        self.head = Headline(words.SEASON_NAME, named=False)
        self.lead = wrapped("", fonts.sans(fonts.LEAD))
        self.columns = Columns()
        self._steps: QWidget | None = None
        self._crowd: QWidget | None = None
        self._ladder_section = Section(1, words.LADDER)
        self.ladder = LadderView(numbers)
        self.order = wrapped("", fonts.sans(fonts.HEAD), NOTES)
        self.turn = button(words.FROM_OTHER_END, "link")
        for part in (self.ladder, self.order, self.turn):
            self._ladder_section.body.addWidget(part)
        self.columns.right.addWidget(self._ladder_section)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(24, 8, 24, 16)
        layout.setSpacing(12)
        for widget in (self.head, self.lead, self.columns):
            layout.addWidget(widget)
        layout.addStretch(1)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self.head.choice.activated.connect(self._choose)
        self.turn.clicked.connect(self.end_turned)
        self.dress()

    def show_why(self, plan: Plan, one: Finding, why: Why) -> None:
        """Another explanation in the same places."""
        ladder, season = why.ladder, why.season
        seasons = tuple(self._numbers.whole(each) for each in range(1, plan.goal.seasons + 1))
        self.head.choice.show_words(seasons, season - 1)
        self.head.say(*headline(ladder, season))
        self.lead.setText(gap_sentence(ladder, season, self._numbers))
        self._replace_steps(plan, one, why)
        self._ladder_section.set_number(next_number(why))
        rows = ladder_rows(plan, [ladder], season, self._numbers)
        self.ladder.show_rows(rows, 100 * float_chance(plan.goal.chance), (one.name,), ())
        told = (order_sentence(ladder), method_sentence(ladder, self._numbers, one.noise), ceiling_sentence(plan))
        self.order.setText(" ".join(sentence for sentence in told if sentence))
        self.turn.setText(words.FROM_THIS_END if ladder.from_end else words.FROM_OTHER_END)
        self._replace_crowd(why)
        self.set_outdated(False)

    def set_outdated(self, outdated: bool) -> None:
        """Whether a newer answer is on its way."""
        for widget in (self._steps, self._crowd, self.ladder):
            if widget is not None:
                widget.setEnabled(not outdated)

    def _replace_steps(self, plan: Plan, one: Finding, why: Why) -> None:
        holder = QWidget()
        column = QVBoxLayout(holder)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(24)
        for section in sections(plan, one.route, why, self._numbers):
            column.addWidget(section)
        _swap(self.columns.left, self._steps, holder)
        self._steps = holder

    def _replace_crowd(self, why: Why) -> None:
        section = Section(next_number(why) + 1, words.PEOPLE)
        section.say(people_sentence(why.people))
        section.body.addWidget(PeopleView(why.people))
        section.note(small_sentence(why.people))
        if why.people.missed:
            section.note(words.SHARED_OUT)
        _swap(self.columns.right, self._crowd, section)
        self._crowd = section

    def _choose(self, place: int) -> None:
        self.season_chosen.emit(place + 1)


def _swap(column: QVBoxLayout, old: QWidget | None, new: QWidget) -> None:
    """Puts a widget where another stood."""
    if old is None:
        column.addWidget(new)
        return
    column.replaceWidget(old, new)
    old.hide()
    old.deleteLater()
