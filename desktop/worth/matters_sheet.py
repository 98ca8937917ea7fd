"""What matters most: a bar for every assumption, in order of effect, and where it changes the cheapest route."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from core.advice.matters import Effect, Figures, Matters, ranked
from core.advice.matters_ranges import Assumption, with_range
from core.advice.matters_words import flip_short, flip_words, route_name, standing_words
from core.plan.model import Plan
from desktop import fonts
from desktop.theme import NOTES, SECOND, colours_of
from desktop.why.headline import Headline
from desktop.widgets.inked import Inked
from desktop.widgets.labels import wrapped
from desktop.words import worth as words
from desktop.words.numbers import Numbers
from desktop.worth.drawing import Bar, End, bar_high, draw_bar, label_wide
from desktop.worth.look import Cell, Column, Row
from desktop.worth.range_line import RangeLine
from desktop.worth.table import SentenceTable

BARS = 1
COLUMNS = (
    Column(words.ASSUMPTION, 0.23),
    Column(words.bars_head(money=True), 0.45, draw_bar, bar_high),
    Column(words.CHANGES, 0.32),
)


class MattersSheet(Inked):
    """Shows the answer for one route; `route_chosen` carries the id of another one.

    `range_set` carries an assumption's key and a range for it, `usual_range_asked` the key alone.
    """

    route_chosen = Signal(str)
    range_set = Signal(str, float, float)
    usual_range_asked = Signal(str)

    def __init__(self, numbers: Numbers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._numbers = numbers
        self._shown: tuple[Plan, Matters, str] | None = None
        self._effects: tuple[Effect, ...] = ()
        self._routes: tuple[str, ...] = ()
        self.head = Headline(words.ROUTE_NAME)
        self.lead = wrapped("", fonts.sans(fonts.FORM), SECOND)
        self.table = SentenceTable(words.MATTERS_TABLE, COLUMNS)
        self.range = RangeLine(numbers)
        self.reason = wrapped("", fonts.sans(fonts.FORM))
        self.idle = wrapped("", fonts.sans(fonts.HEAD), NOTES)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(24, 8, 24, 8)
        layout.setSpacing(8)
        layout.addWidget(self.head)
        layout.addWidget(self.lead)
        layout.addSpacing(8)
        layout.addWidget(self.table, 1000)
        layout.addWidget(self.range)
        layout.addWidget(self.reason)
        layout.addWidget(self.idle)
        layout.addStretch(1)
        self.head.choice.activated.connect(self._choose)
        self.table.chosen.connect(self._explain)
        self.range.looked_at.connect(self._set_range)
        self.range.usual_asked.connect(self._ask_usual)
        self.dress()

    def dress(self) -> None:
        """Puts the colours on the table too."""
        super().dress()
        self.table.ink(colours_of(self.palette()))

    def show_answer(self, plan: Plan, matters: Matters, route: str) -> None:
        """Another answer, or another route of the same."""
        self._shown = plan, matters, route
        self._routes = tuple(matters.usual.routes)
        self._effects, idle = ranked(matters, route)
        figures = matters.usual.routes.get(route)
        money = figures is not None and figures.money is not None
        self.head.say(*words.most_of_all(matters, route), ".")
        names = tuple(route_name(plan, one) for one in self._routes)
        self.head.choice.show_words(names, self._routes.index(route))
        self.lead.setText(words.as_planned(plan, figures, self._numbers))
        self.table.say_head(BARS, words.bars_head(money=money))
        bars = self._bars(figures, route, money=money)
        self.table.show_rows([self._row(*pair) for pair in zip(self._effects, bars, strict=True)])
        self.table.setVisible(bool(self._effects))
        for part in (self.range, self.reason):
            part.setVisible(bool(self._effects))
        self.idle.setText(words.idle(idle))
        self.idle.setVisible(bool(idle))
        self.set_outdated(False)

    def set_outdated(self, outdated: bool) -> None:
        """Whether a newer answer is on its way."""
        self.table.set_outdated(outdated)
        for widget in (self.reason, self.lead):
            widget.setEnabled(not outdated)

    def _bars(self, figures: Figures | None, route: str, *, money: bool) -> list[Bar]:
        assert self._shown is not None
        plan, numbers = self._shown[0], self._numbers
        usual = _measure(figures, money=money) or 0.0
        ends = []
        for effect in self._effects:
            low, high = (
                End(
                    _measure(reply.routes.get(route), money=money),
                    words.end_lines(plan, effect, low=reply is effect.low, route=route, money=money, numbers=numbers),
                )
                for reply in (effect.low, effect.high)
            )
            ends.append((low, high))
        reached = [end.at for pair in ends for end in pair if end.at is not None]
        scale = min([usual, *reached]), max([usual, *reached])
        label = max((label_wide(end.lines) for pair in ends for end in pair), default=0.0)
        return [Bar(pair, usual, scale, label, more_is_worse=money) for pair in ends]

    def _row(self, effect: Effect, bar: Bar) -> Row:
        assert self._shown is not None
        plan, matters, route = self._shown
        usual = matters.usual.routes.get(route)
        count = usual.count if usual is not None else None
        flips = "\n".join(flip_short(plan, effect.assumption, flip, self._numbers) for flip in effect.flips)
        none = words.NEVER_CHANGES if effect.sure else words.NOT_AT_ENDS
        cells = (
            Cell(effect.assumption.name, bold=bool(effect.flips)),
            Cell(words.bar_spoken(plan, effect, route, count, self._numbers), drawn=bar),
            Cell(flips or none, ink="text" if flips else "notes"),
        )
        return Row(effect.assumption.key, cells)

    def _choose(self, place: int) -> None:
        self.route_chosen.emit(self._routes[place])

    def _explain(self, place: int) -> None:
        if self._shown is None:
            return
        plan, matters, route = self._shown
        effect = self._effects[place]
        self.range.show_range(plan, effect.assumption)
        said = (
            standing_words(effect.assumption),
            words.chance_moves(plan, matters, effect, route),
            " ".join(
                (
                    *(flip_words(plan, effect.assumption, flip, self._numbers) for flip in effect.flips),
                    words.still(plan, matters, effect, self._numbers),
                )
            ),
        )
        self.reason.setText("\n".join(one for one in said if one))

    def _current(self) -> Assumption | None:
        at = self.table.currentRow()
        return self._effects[at].assumption if 0 <= at < len(self._effects) else None

    def _set_range(self, low: float, high: float) -> None:
        current = self._current()
        if current is None or self._shown is None:
            return
        plan = self._shown[0]
        if with_range(plan, current, low, high) is None:
            self.range.refuse(words.no_range(plan, current, self._numbers))
        else:
            self.table.keep_row()
            self.range_set.emit(current.key, low, high)

    def _ask_usual(self) -> None:
        current = self._current()
        if current is not None:
            self.table.keep_row()
            self.usual_range_asked.emit(current.key)


def _measure(figures: Figures | None, *, money: bool) -> float | None:
    if figures is None:
        return None
    return figures.money if money else words.best_chance(figures)
