"""The page for finding routes: what was found on the left, the trade of money on the right."""

from __future__ import annotations

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QHideEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from core.plan.alike import Tried
from core.plan.model import Plan
from core.search.found import Found, Point, Proposal
from desktop import fonts
from desktop.document import Document
from desktop.find.adding import add
from desktop.find.row import FoundRow
from desktop.find.search import RouteSearch
from desktop.find.trade import Mark, Trade, TradeChart, Turns
from desktop.panels.routes import edits
from desktop.theme import NOTES, SECOND
from desktop.views import View
from desktop.widgets.inked import Inked, button
from desktop.widgets.labels import PlainLabel, ShortLabel, wrapped
from desktop.widgets.scrolled import scrolled
from desktop.widgets.tab_order import TabOrder
from desktop.words import find as words
from desktop.words import goal as goal_words
from desktop.words import labels
from desktop.words.goal import float_chance
from desktop.words.numbers import Numbers, percent, sum_of_money

_CHARTS_WIDE = 400
# More of them at once would hold the window up.
_ROWS_A_TURN = 2


class FindPage(View):
    """Follows the search; nothing of the plan changes until a route is added, which is one step."""

    # "for sale" or "mine".
    paste_asked = Signal(str)

    def __init__(
        self, document: Document, search: RouteSearch, numbers: Numbers, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._document, self._search, self._numbers = document, search, numbers
        self._body = Inked(self)
        self.back = button(words.BACK, "link", self._body)
        self.goal = ShortLabel(font=fonts.sans(fonts.FORM), ink=SECOND)
        self.head = wrapped("", fonts.serif(fonts.ANSWER))
        self.progress = wrapped("", fonts.sans(fonts.FORM), SECOND)
        self.proven = wrapped("", fonts.sans(fonts.FORM), SECOND)
        self.stop = button(words.STOP, "plain", self._body)
        self.paste = button(words.PASTE, "main", self._body)
        self._scaled = wrapped(words.SCALED, fonts.sans(fonts.NOTE), NOTES)
        self.rows: list[FoundRow] = []
        self._more = QTimer(self, singleShot=True, interval=0)
        self._more.timeout.connect(self._show_more)
        self._list = QVBoxLayout()
        turns = Turns(search.give_way, self)
        self.seasons = TradeChart(words.SEASONS_HEAD, words.SEASONS_NAME, numbers, turns, rising=False)
        self.chances = TradeChart(words.CHANCE_HEAD, words.CHANCE_NAME, numbers, turns, rising=True)
        self._tab_order = TabOrder(self._body)
        self._lay_out()
        self.back.clicked.connect(self.done)
        self.stop.clicked.connect(self._turn)
        self.paste.clicked.connect(self._ask_for_list)
        for changed in (search.changed, document.plan_changed):
            changed.connect(self._show)
        search.watch(self)
        self._body.dress()
        self._show()

    def first_focus(self) -> QWidget:
        """Where looking can be stopped, and left."""
        return self.back

    @property
    def is_settled(self) -> bool:
        """Whether nothing more comes by itself."""
        drawn = self.seasons.is_current and self.chances.is_current and not self._more.isActive()
        return self._search.is_settled and drawn

    def hideEvent(self, event: QHideEvent) -> None:  # noqa: D102
        super().hideEvent(event)
        self._search.leave(self)

    def shown(self) -> tuple[Proposal, ...]:
        """The routes that are listed, in their order: the cheapest, then what the charts have besides."""
        found = self._search.found
        return (*found.proposals, *found.others) if found else ()

    def _ask_for_list(self) -> None:
        self.paste_asked.emit("for sale")

    def _turn(self) -> None:
        if self._search.stopped:
            self._search.go_on()
        else:
            self._search.stop()

    def _show(self) -> None:
        plan, found, numbers = self._document.plan, self._search.found, self._numbers
        self.goal.setText(goal_words.as_text(plan, numbers))
        self.head.setText(self._search.failure or words.headline(plan, found, numbers))
        self.progress.setText(words.progress(found, numbers, stopped=self._search.stopped))
        room = "" if edits.has_room(plan) else words.NO_ROOM
        self.proven.setText(" ".join(part for part in (words.proven(found, numbers), room) if part))
        self.proven.setVisible(bool(self.proven.text()))
        self.stop.setVisible(found is None or not found.ended)
        self.stop.setText(words.GO_ON if self._search.stopped else words.STOP)
        self.stop.setAccessibleName(self.stop.text())
        self.paste.setVisible(not plan.for_sale and not plan.my_animals)
        self._show_rows(plan)
        self._show_trade(plan, found)

    def _show_rows(self, plan: Plan) -> None:
        every, new = self.shown(), False
        for _ in range(min(_ROWS_A_TURN, len(every) - len(self.rows))):
            row = FoundRow(len(self.rows) + 1, self._numbers)
            row.added.connect(self._add)
            self._list.insertWidget(len(self.rows), row)
            self.rows.append(row)
            new = True
        if new:
            self._search.give_way()
        tried, room = Tried(plan.routes), edits.has_room(plan)
        for place, row in enumerate(self.rows):
            row.setVisible(place < len(every))
            if place < len(every):
                one = every[place]
                row.show_proposal(plan, one, taken=tried.covers(one.route), room=room)
        if new:
            self._body.dress()
            self._tab_order.follow_the_eye()
        if len(self.rows) < len(every):
            self._more.start()

    def _show_more(self) -> None:
        self._show_rows(self._document.plan)

    def _show_trade(self, plan: Plan, found: Found | None) -> None:
        points = found.frontier if found else ()
        place = {one.route.id: number for number, one in enumerate(self.shown(), 1)}
        goal, numbers = float_chance(plan.goal.chance), self._numbers
        by_season = tuple(one for one in points if one.chance == goal)
        # The points come the cheapest first: of those for the goal's own chance, the first is the one without haste.
        by_chance = tuple(one for one in points if one.chance != goal or one == by_season[0])

        def marked(one: Point, y: float) -> Mark:
            return Mark(one.money, y, f"{sum_of_money(one.money, numbers)}  №{place.get(one.route, 0)}")

        seasons = Trade(
            tuple(marked(one, one.season) for one in by_season), words.seasons_axis(plan, numbers),
            words.seasons_told(plan, by_season, numbers), tuple((s, str(s)) for s in {one.season for one in by_season}),
        )  # fmt: skip
        chances = Trade(
            tuple(marked(one, 100 * one.chance) for one in by_chance), words.chance_axis(plan),
            words.chances_told(by_chance, numbers),
            tuple((100 * one.chance, percent(one.chance, numbers)) for one in by_chance),
        )  # fmt: skip
        self._scaled.setVisible(bool(points))
        self.seasons.show_trade(seasons)
        self.chances.show_trade(chances)

    def _add(self, place: int) -> None:
        every = self.shown()
        if place >= len(every) or not edits.has_room(self._document.plan):
            return
        faults = add(self._document, [every[place].route])
        if faults:
            self.proven.setText(words.refused(faults[0].message))
            self.proven.show()

    def _lay_out(self) -> None:
        top = QHBoxLayout()
        top.setSpacing(24)
        top.addWidget(self.back)
        top.addWidget(PlainLabel(words.TITLE, font=fonts.serif(fonts.SENTENCE, bold=True)))
        top.addWidget(self.goal, 1)
        state = QHBoxLayout()
        state.setSpacing(16)
        said = QVBoxLayout()
        said.setSpacing(2)
        said.addWidget(self.progress)
        said.addWidget(self.proven)
        state.addLayout(said, 1)
        state.addWidget(self.paste, 0, Qt.AlignmentFlag.AlignTop)
        state.addWidget(self.stop, 0, Qt.AlignmentFlag.AlignTop)
        columns = QHBoxLayout()
        columns.setSpacing(32)
        columns.addWidget(scrolled(self._left()), 3)
        # With large text both charts need more height than a small screen has.
        charts = scrolled(self._right())
        charts.setMinimumWidth(_CHARTS_WIDE)
        columns.addWidget(charts, 2)
        inside = QVBoxLayout(self._body)
        inside.setContentsMargins(24, 8, 24, 8)
        inside.setSpacing(8)
        inside.addLayout(top)
        inside.addWidget(self.head)
        inside.addLayout(state)
        inside.addLayout(columns, 1)
        inside.addWidget(PlainLabel(labels.ODDS, font=fonts.sans(fonts.NOTE), ink=NOTES))
        outside = QVBoxLayout(self)
        outside.setContentsMargins(0, 0, 0, 0)
        outside.addWidget(self._body)
        self._tab_order.follow_the_eye()

    def _left(self) -> QWidget:
        part = QWidget()
        part.setAccessibleName(words.LIST_NAME)
        self._list.setContentsMargins(0, 0, 8, 0)
        self._list.setSpacing(0)
        self._list.addStretch(1)
        part.setLayout(self._list)
        return part

    def _right(self) -> QWidget:
        part = QWidget()
        layout = QVBoxLayout(part)
        layout.setContentsMargins(0, 8, 0, 0)
        layout.setSpacing(16)
        layout.addWidget(self.seasons, 1)
        layout.addWidget(self.chances, 1)
        layout.addWidget(self._scaled)
        layout.addStretch(0)
        return part
