"""Why this beats that: two routes on the same ladder, their money by kind and by season."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from core.explain.beats import Contender, decisive_sentence, money_lines, season_lines
from core.explain.rungs import order_sentence
from core.plan.model import Plan
from desktop import fonts
from desktop.findings import Finding
from desktop.panels.steps.panel import MarkSign
from desktop.theme import NOTES, colours_of
from desktop.why.columns import Columns
from desktop.why.figures import Figures
from desktop.why.headline import Headline
from desktop.why.ladder_rows import ladder_rows
from desktop.why.ladder_view import LadderView
from desktop.why.parts import Section
from desktop.widgets.inked import Inked
from desktop.widgets.labels import wrapped
from desktop.words import why as words
from desktop.words.goal import float_chance
from desktop.words.numbers import Numbers, sum_of_money


class BeatsSheet(Inked):
    """Shows two routes; `other_chosen` carries the place of another one among those offered."""

    other_chosen = Signal(int)

    def __init__(self, numbers: Numbers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._numbers = numbers
        self.head = Headline(words.OTHER_NAME)
        self.lead = wrapped("", fonts.serif(fonts.SENTENCE))
        self.first, self.second = _Named(), _Named()
        self.columns = Columns()
        self.ladder = LadderView(numbers)
        self.order = wrapped("", fonts.sans(fonts.HEAD), NOTES)
        self.kinds, self.seasons = Figures(words.BY_KIND), Figures(words.BY_SEASON)
        self._lay_out()
        self.head.choice.activated.connect(self.other_chosen)
        self.dress()

    def dress(self) -> None:
        """Puts the colours on the tables too."""
        super().dress()
        for table in self.findChildren(Figures):
            table.ink(colours_of(self.palette()))

    def offer(self, one: str, others: Sequence[str], at: int) -> None:
        """The route that is explained, and those it can be compared with."""
        self.head.say(f"{one},", words.AGAINST, "")
        self.head.choice.show_words(tuple(others), at)
        self.head.setVisible(bool(others))

    def show_both(self, plan: Plan, routes: tuple[Finding, Finding], both: tuple[Contender, Contender]) -> None:
        """Two other routes in the same places."""
        season, goal = plan.goal.seasons, float_chance(plan.goal.chance)
        self.lead.setText(decisive_sentence(*both, goal, season, self._numbers))
        for named, one in zip((self.first, self.second), routes, strict=True):
            money = sum_of_money(one.to_goal.money, self._numbers) if one.to_goal else None
            named.show_route(one.mark, words.set_aside(one.name, money, season))
        rows = ladder_rows(plan, [one.ladder for one in both], season, self._numbers)
        names = (routes[0].name, routes[1].name)
        self.ladder.show_rows(rows, 100 * goal, names, (routes[0].mark, routes[1].mark))
        self.order.setText(order_sentence(both[0].ladder))
        self.kinds.show_lines(names, money_lines(*both, season), self._numbers)
        self.seasons.show_lines(names, season_lines(*both), self._numbers)
        self.set_outdated(False)

    def set_outdated(self, outdated: bool) -> None:
        """Whether a newer answer is on its way."""
        for widget in (self.ladder, self.kinds, self.seasons, self.lead):
            widget.setEnabled(not outdated)

    def set_comparing(self, comparing: bool) -> None:
        """Whether there is anything to compare."""
        for widget in (self.lead, self.first, self.second, self.columns):
            widget.setVisible(comparing)

    def _lay_out(self) -> None:
        chances = Section(1, words.BOTH_LADDERS)
        chances.body.addWidget(self.ladder)
        chances.body.addWidget(self.order)
        self.columns.left.addWidget(chances)
        for number, (title, table) in enumerate(
            ((words.BY_KIND, self.kinds), (words.BY_SEASON, self.seasons)), start=2
        ):
            section = Section(number, title)
            section.body.addWidget(table)
            self.columns.right.addWidget(section)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(24, 8, 24, 16)
        layout.setSpacing(12)
        for widget in (self.head, self.lead, self.first, self.second, self.columns):
            layout.addWidget(widget)
        layout.addStretch(1)


class _Named(QWidget):
    """A route's mark with a few words."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._mark = MarkSign()
        self._words = wrapped("", fonts.sans(fonts.FORM, bold=True))
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(12)
        row.addWidget(self._mark)
        row.addWidget(self._words, 1)

    def show_route(self, mark: int, text: str) -> None:
        """Another route."""
        self._mark.show_mark(mark)
        self._words.setText(text)
