"""What next: the ways on from today with one route, best first, and when to stop."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from core.plan.model import Plan, Route
from desktop import fonts
from desktop.panels.charts.size import text_scale
from desktop.season.asking import Onward
from desktop.theme import NOTES, SECOND, colours_of
from desktop.why.headline import Headline
from desktop.widgets.figure_table import FigureTable
from desktop.widgets.inked import Inked
from desktop.widgets.labels import PlainLabel, wrapped
from desktop.words import labels
from desktop.words import onward as words
from desktop.words import season as page_words
from desktop.words.numbers import Numbers, percent

# Figures stay near the words they belong to.
_WIDEST = 820


class OnwardSheet(Inked):
    """`route_chosen` carries the place of another route among those offered."""

    route_chosen = Signal(int)

    def __init__(self, numbers: Numbers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._numbers = numbers
        self.head = Headline(page_words.ROUTE_NAME)
        self.best = wrapped("", fonts.serif(fonts.SENTENCE))
        self.begun = wrapped("", fonts.sans(fonts.FORM), SECOND)
        self.ways = FigureTable(words.WAYS)
        self.ways.setMaximumWidth(round(_WIDEST * text_scale()))
        self.rules = wrapped("", fonts.sans(fonts.LEAD))
        self.spent = wrapped("", fonts.sans(fonts.FORM), SECOND)
        self.note = wrapped(words.RULE_NOTE, fonts.sans(fonts.HEAD), NOTES)
        self._heads = [
            PlainLabel(text, font=fonts.sans(fonts.HEADING, bold=True)) for text in (words.WAYS, words.RULES)
        ]
        layout = QVBoxLayout(self)
        layout.setContentsMargins(24, 0, 24, 0)
        layout.setSpacing(8)
        above = (self.head, self.best, self.begun, self._heads[0])
        for widget in (*above, self.ways, self._heads[1], self.rules, self.note):
            layout.addWidget(widget)
        layout.addSpacing(8)
        layout.addWidget(self.spent)
        layout.addStretch(1)
        self.head.choice.activated.connect(self.route_chosen)
        self.dress()

    def dress(self) -> None:
        """Puts the colours on the table too."""
        super().dress()
        self.ways.ink(colours_of(self.palette()))

    def offer(self, plan: Plan, routes: tuple[Route, ...], at: int) -> None:
        """The routes that can be gone on with."""
        self.head.say("", words.NEXT_HEAD, "")
        self.head.choice.show_words(tuple(route.called for route in routes), at)
        self.head.setVisible(bool(routes))
        self.spent.setText(labels.spent_apart(plan, self._numbers))
        self.spent.setVisible(bool(self.spent.text()))
        self.begun.setText(words.begun(plan))
        self.begun.setVisible(bool(routes) and bool(self.begun.text()))
        if not routes:
            self.wait(page_words.NO_ROUTES)

    def wait(self, text: str) -> None:
        """A sentence in place of the ways."""
        self.best.setText(text)
        for widget in (*self._heads, self.ways, self.rules, self.note):
            widget.hide()

    def show_onward(self, onward: Onward) -> None:
        """The ways, and the rules."""
        plan, numbers = onward.plan, self._numbers
        self.best.setText(words.best_way(plan, onward.ways, numbers))
        rows = [
            (
                words.way_words(plan, step),
                words.way_needs(step, numbers),
                str(step.to_goal.season) if step.to_goal else words.NO_SEASON,
                percent(step.chance, numbers),
            )
            for step in onward.ways
        ]
        self.ways.show_rows((words.WAY, words.NEEDS, words.BY_SEASON, words.chance_head(plan)), rows, strong=(0,))
        self.rules.setText(_rules(onward))
        for widget in (*self._heads, self.ways, self.rules):
            widget.show()
        self.note.setVisible(bool(onward.rules))


def _rules(onward: Onward) -> str:
    if onward.rules is None:
        return words.RULES_PLAYED
    return "\n".join(rule.sentence(onward.plan) for rule in onward.rules) or words.no_rules(onward.plan, onward.open)
