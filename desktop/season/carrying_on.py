"""Carry on from here: what was bought and held becomes mine, and the plan begins anew today."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from core.plan.faults import Fault
from core.plan.model import Owned, Plan, Route
from core.season.carry_on import carry_on
from desktop import fonts
from desktop.findings import Finding
from desktop.forms.fields import SentenceChoice, SentenceField
from desktop.locale_reading import read_number
from desktop.season.kept_rows import KeptRows
from desktop.theme import ERROR, SECOND
from desktop.why.headline import Headline
from desktop.widgets.flow import Flow
from desktop.widgets.inked import Inked, button
from desktop.widgets.labels import PlainLabel, wrapped
from desktop.widgets.tab_order import TabOrder
from desktop.words import carry_on as words
from desktop.words import my_animals as animal_words
from desktop.words import season as page_words
from desktop.words.numbers import Numbers, price


class CarryOnSheet(Inked):
    """`agreed` carries the plan as it stands today."""

    agreed = Signal(object)
    route_chosen = Signal(int)

    def __init__(self, numbers: Numbers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._numbers = numbers
        self._plan: Plan | None = None
        self._order = TabOrder(self)
        self._route: Route | None = None
        self._spent: float | None = None
        self._expected: Finding | None = None
        self.head = Headline(page_words.ROUTE_NAME)
        bold = fonts.serif(fonts.SENTENCE, bold=True)
        self.passed = SentenceChoice(words.PASSED_NAME, bold, ("1",), self)
        self.spent = SentenceField(words.SPENT_NAME, bold, self)
        self.unit = PlainLabel(font=fonts.serif(fonts.SENTENCE), ink=SECOND, parent=self)
        self.guess = wrapped("", fonts.sans(fonts.HEAD), SECOND)
        self.kept = KeptRows(self)
        self.tells = wrapped("", fonts.sans(fonts.LEAD))
        self.goes = wrapped(words.GOES, fonts.sans(fonts.FORM), SECOND)
        self.refused = wrapped("", fonts.sans(fonts.FORM), ERROR)
        self.go = button(words.GO, "main", self)
        self._lay_out()
        self.head.choice.activated.connect(self.route_chosen)
        self.passed.activated.connect(self._follow)
        self.spent.taken.connect(self._take_spent)
        self.kept.changed.connect(self._follow)
        self.kept.made.connect(self._take_in)
        self.go.clicked.connect(self._go)
        self.dress()
        self._order.follow_the_eye()

    def _take_in(self) -> None:
        """New fields take on the colours, and Tab goes by them where they stand."""
        self.dress()
        self._order.follow_the_eye()

    def show_route(self, plan: Plan, routes: tuple[Route, ...], at: int, found: Finding | None) -> None:
        """The routes to choose from, and the chosen one; what was said stays while it is the same route."""
        route = routes[at] if routes else None
        self.head.say("", words.CARRY_HEAD, "")
        self.head.choice.show_words(tuple(one.name for one in routes), at if routes else -1)
        self.head.setVisible(bool(routes))
        if self._route is None or route is None or route != self._route:
            self.kept.show_route(route)
        self._plan, self._route, self._expected = plan, route, found
        seasons = plan.goal.seasons - 1
        self.passed.show_words(
            tuple(map(str, range(1, seasons + 1))), min(max(self.passed.currentIndex(), 0), seasons - 1)
        )
        self.unit.setText(words.spent_unit(plan))
        self._follow()

    @property
    def seasons(self) -> int:
        """How many have gone by."""
        return self.passed.currentIndex() + 1

    def refuse(self, fault: Fault | str) -> None:
        """Why it cannot be."""
        self.refused.setText(fault if isinstance(fault, str) else fault.message)
        self.refused.show()

    def today(self) -> Plan | None:
        """The plan as it stands today; None, with the reason told, where it cannot be."""
        if self._plan is None or self._route is None or self._plan.goal.seasons < 2:
            self.refuse(words.NO_SEASONS_LEFT if self._route is not None else page_words.NO_ROUTES)
            return None
        try:
            return carry_on(self._plan, self._route.id, self.seasons, self._money(), self.kept.kept())
        except ValueError as error:
            self.refuse(words.cannot(str(error)))
            return None

    def _follow(self) -> None:
        self.refused.hide()
        plan, route = self._plan, self._route
        can = plan is not None and route is not None and plan.goal.seasons >= 2
        for widget in (self._sentence, self.guess, self._held_head, self.kept, self.tells, self.goes, self.go):
            widget.setVisible(can)
        if not can or plan is None or route is None:
            self.today()
            return
        self.kept.show_parents(plan, route, self.seasons)
        self._gone_by.setText(words.gone_by(self.seasons))
        self.spent.hold(price(self._money(), self._numbers))
        self.guess.setText(words.spent_guess(self._guess(), self.seasons, plan, self._numbers))
        self.guess.setVisible(bool(self.guess.text()))
        self.goes.setText(words.goes(plan, kept=bool(self.kept.kept())))
        after = self.today()
        if after is not None:
            new = [one for one in after.my_animals[len(plan.my_animals) :] if one.id in _still_here(after)]
            self.tells.setText(words.carried([animal_words.name_of(one) for one in new], after.goal.seasons))
        self.go.setEnabled(after is not None)

    def _guess(self) -> float | None:
        result = self._expected.drawn if self._expected else None
        return float(result.paid_by_season[self.seasons - 1]) if result is not None else None

    def _money(self) -> float:
        return self._spent if self._spent is not None else float(round(self._guess() or 0.0))

    def _take_spent(self, text: str) -> None:
        value = read_number(text, whole=False)
        if value is None or value < 0:
            self.spent.set_refused(True)
            self.refuse(words.NO_SUM)
            return
        self._spent = value
        self._follow()

    def _go(self) -> None:
        after = self.today()
        if after is not None:
            self._spent = None
            self.agreed.emit(after)

    def _lay_out(self) -> None:
        self._sentence = QWidget(self)
        flow = Flow(self._sentence, gap=8)
        self._gone_by = _word("", self)
        flow.addWidget(self.passed)
        flow.addWidget(self._gone_by)
        flow.addWidget(self.spent)
        flow.addWidget(self.unit)
        self._held_head = PlainLabel(words.HELD_HEAD, font=fonts.sans(fonts.HEADING, bold=True), parent=self)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(24, 0, 24, 0)
        layout.setSpacing(8)
        for widget in (self.head, self._sentence, self.guess):
            layout.addWidget(widget)
        layout.addSpacing(8)
        for widget in (self._held_head, self.kept):
            layout.addWidget(widget)
        layout.addSpacing(8)
        for widget in (self.tells, self.goes, self.refused, self.go):
            layout.addWidget(widget)
        layout.addStretch(1)


def _still_here(plan: Plan) -> set[str]:
    """Animals of mine in a route; parents that have left are in none."""
    groups = (group for route in plan.routes for group in route.groups if isinstance(group, Owned))
    return {name for group in groups for name in group.animals or ()}


def _word(text: str, parent: QWidget) -> PlainLabel:
    return PlainLabel(text, font=fonts.serif(fonts.SENTENCE), ink=SECOND, parent=parent)
