"""This season, in the comparison's place: my animals, what hatched, what next, carry on from here."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtGui import QHideEvent
from PySide6.QtWidgets import QWidget

from core.plan.model import Plan, Route
from desktop.document import Document
from desktop.errand import Errand
from desktop.evaluator import Evaluator
from desktop.season import asking
from desktop.season.animals import AnimalsSheet
from desktop.season.carrying_on import CarryOnSheet
from desktop.season.hatched import HatchedSheet
from desktop.season.head import NothingYet, SeasonHead
from desktop.season.onward import OnwardSheet
from desktop.sheets import SheetsPage
from desktop.words import carry_on as carry_words
from desktop.words import season as words
from desktop.words.births import births
from desktop.words.numbers import Numbers

MY_ANIMALS, HATCHED, NEXT, CARRY_ON, _EMPTY = range(5)


class SeasonPage(SheetsPage):
    """Follows the document; works anything out only while it is open.

    `edit_asked`: my animals are to be changed. `carried`: the plan begins anew today, in a sentence.
    """

    edit_asked = Signal()
    carried = Signal(str)

    def __init__(
        self, document: Document, numbers: Numbers, evaluator: Evaluator, parent: QWidget | None = None
    ) -> None:
        self._births = said = births(document.plan)
        self.head = SeasonHead(said)
        self.animals, self.hatched = AnimalsSheet(numbers, said), HatchedSheet(numbers, said)
        self.onward, self.carry = OnwardSheet(numbers), CarryOnSheet(numbers)
        self.empty = NothingYet()
        super().__init__(self.head, (self.animals, self.hatched, self.onward, self.carry, self.empty), parent)
        self._document, self._numbers = document, numbers
        self._shown: Plan | None = None
        self._asked: tuple[object, ...] = ()
        self._route: str | None = None
        self._standing, self._looking, self._saying, self._telling = (
            Errand(evaluator, self, quick=True) for _ in range(4)
        )
        self._comparing, self._going = Errand(evaluator, self), Errand(evaluator, self)
        self._connect()
        self._follow()

    @property
    def is_settled(self) -> bool:
        """Whether nothing that was asked is still being worked out."""
        return not self.hatched.form.is_counting and not any(errand.is_busy for errand in self._errands())

    def _errands(self) -> tuple[Errand, ...]:
        return (self._standing, self._looking, self._saying, self._telling, self._comparing, self._going)

    def hideEvent(self, event: QHideEvent) -> None:  # noqa: D102
        super().hideEvent(event)
        for errand in self._errands():
            errand.cancel()

    # What the plan says.

    def _follow(self) -> None:
        plan = self._document.plan
        if plan is not self._shown:
            self._shown = plan
            self._standing.start(partial(asking.standing, plan))
            self.hatched.show_plan(plan)
        self._show_place()
        self._go_on()

    def _show_place(self) -> None:
        plan, tab = self._document.plan, self.tabs.currentIndex()
        sexes = {one.sex for one in plan.my_animals}
        lacking = words.NO_ANIMALS if not sexes else self._births.no_pair if tab == HATCHED and len(sexes) < 2 else ""
        if tab == CARRY_ON:
            lacking = ""
        self.empty.say(lacking)
        self._places.setCurrentIndex(_EMPTY if lacking else tab)

    def _take_standing(self, standing: asking.Standing) -> None:
        self.state.setText("")
        if standing.trouble is None:
            self.animals.show_standing(standing)
        self.head.say(standing.trouble)

    def _ask_tellings(self, sire: str, dam: str) -> None:
        self._telling.start(partial(asking.tellings, self._document.plan, sire, dam))

    # The clutch in the form.

    def _ask_looks(self, sire: str, dam: str) -> None:
        self._looking.start(partial(asking.young_of, self._before(), sire, dam))

    def _ask_what_it_says(self) -> None:
        record = self.hatched.form.record()
        if record is None:
            self._saying.cancel()
            self.hatched.show_nothing()
            return
        before = self._before()
        self._saying.start(partial(asking.told, before, asking.with_record(before, record)))

    def _before(self) -> Plan:
        """The plan without the clutch that is being changed."""
        plan, number = self._document.plan, self.hatched.form.number
        return plan if number is None else asking.without_record(plan, number)

    def _take_told(self, told: asking.Told) -> None:
        self.hatched.show_told(self._document.plan, told)
        self.hatched.form.enter.setEnabled(told.trouble is None and self.hatched.form.record() is not None)

    def _enter(self) -> None:
        form, plan = self.hatched.form, self._document.plan
        record = form.record()
        if record is None:
            return
        changed = asking.with_record(plan, record, form.number)
        step = self._births.added if form.number is None else self._births.changed
        # The form is empty before the plan changes: what follows looks at both.
        number = form.number
        faults = self._document.edit(changed, step)
        if faults:
            self.hatched.refuse(changed, faults[0])
            return
        form.start_over()
        # On what was entered: the next button at hand would start over.
        self.hatched.records.setFocus()
        if number is None:
            self.hatched.records.setCurrentRow(self.hatched.records.count() - 1)

    def _change_record(self, number: int) -> None:
        records = self._document.plan.clutch_records
        if 0 <= number < len(records):
            self.hatched.form.take_up(number, records[number])

    def _remove_record(self, number: int) -> None:
        plan = self._document.plan
        if 0 <= number < len(plan.clutch_records):
            self.hatched.form.start_over()
            self._document.edit(asking.without_record(plan, number), self._births.removed)

    # The difference it made, and the ways on.

    def _go_on(self) -> None:
        """Has worked out what the sheet in sight needs, unless that was asked already."""
        document, tab = self._document, self.tabs.currentIndex()
        routes = tuple(route for route in document.plan.routes if route.groups)
        at = next((i for i, route in enumerate(routes) if route.id == self._chosen_route()), 0)
        if tab == HATCHED:
            self._compare(self.hatched.records.currentRow())
        elif tab == NEXT:
            self.onward.offer(document.plan, _with_mine(routes), self._place_in(_with_mine(routes)))
            self._ask_onward(_with_mine(routes))
        elif tab == CARRY_ON:
            found = next((one for one in document.found if routes and one.id == routes[at].id), None)
            self.carry.show_route(document.plan, routes, at, found)

    def _chosen_route(self) -> str | None:
        selected = self._document.selected
        return self._route or (selected.id if selected else None)

    def _place_in(self, routes: tuple[Route, ...]) -> int:
        chosen = self._chosen_route()
        return next((i for i, route in enumerate(routes) if route.id == chosen), 0)

    def _compare(self, number: int) -> None:
        document = self._document
        if self.tabs.currentIndex() != HATCHED or not 0 <= number < len(document.plan.clutch_records):
            return
        if not document.complete:
            self.hatched.difference.say(words.WORKING)
            return
        asked = ("difference", document.plan, number)
        if asked != self._asked:
            self._asked = asked
            self.hatched.difference.say(words.WORKING)
            self._comparing.start(partial(asking.difference, document.plan, number, document.found))

    def _take_difference(self, made: asking.Difference) -> None:
        self.state.setText("")
        if made.plan is self._document.plan:
            self.hatched.difference.show_difference(made, self._document.found, self._document.verdict)

    def _ask_onward(self, routes: tuple[Route, ...]) -> None:
        if not routes:
            return
        route = routes[self._place_in(routes)]
        asked = ("onward", self._document.plan, route.id)
        if asked != self._asked:
            self._asked = asked
            self.onward.wait(words.WORKING)
            self._going.start(partial(asking.onward, self._document.plan, route))

    def _take_onward(self, onward: asking.Onward) -> None:
        self.state.setText("")
        self.onward.show_onward(onward)

    def _choose_of_mine(self, place: int) -> None:
        self._route = _with_mine(tuple(route for route in self._document.plan.routes if route.groups))[place].id
        self._go_on()

    def _choose_route(self, place: int) -> None:
        self._route = tuple(route for route in self._document.plan.routes if route.groups)[place].id
        self._go_on()

    def _carry_on(self, plan: Plan) -> None:
        # As it was told beforehand: the sheet follows the plan.
        told = carry_words.carried_on(
            self.carry.head.choice.currentText(), self.carry.tells.text(), plan, self._numbers
        )
        faults = self._document.edit(plan, carry_words.STEP_CARRIED)
        if faults:
            self.carry.refuse(faults[0])
        else:
            self.show_tab(MY_ANIMALS)
            self.carried.emit(told)

    def _turn(self) -> None:
        self._asked = ()
        self._show_place()
        self._go_on()

    def _tell_progress(self, share: float) -> None:
        self.state.setText(words.working(share, self._numbers))

    def _fail(self, reason: str) -> None:
        self.state.setText(reason)
        self.onward.wait(reason)
        self.hatched.difference.say(reason)

    def _connect(self) -> None:
        self.tabs.currentChanged.connect(self._turn)
        self.animals.asked.connect(self._ask_tellings)
        for asked in (self.animals.edit_asked, self.empty.add.clicked):
            asked.connect(self.edit_asked)
        form = self.hatched.form
        form.pair_chosen.connect(self._ask_looks)
        form.changed.connect(self._ask_what_it_says)
        form.entered.connect(self._enter)
        self.hatched.record_chosen.connect(self._compare)
        self.hatched.change_asked.connect(self._change_record)
        self.hatched.remove_asked.connect(self._remove_record)
        self.onward.route_chosen.connect(self._choose_of_mine)
        self.carry.route_chosen.connect(self._choose_route)
        self.carry.agreed.connect(self._carry_on)
        self._standing.finished.connect(self._take_standing)
        self._looking.finished.connect(form.show_looks)
        self._saying.finished.connect(self._take_told)
        self._telling.finished.connect(self.animals.show_tellings)
        self._comparing.finished.connect(self._take_difference)
        self._going.finished.connect(self._take_onward)
        for errand in (self._comparing, self._going):
            errand.progressed.connect(self._tell_progress)
            errand.failed.connect(self._fail)
        for changed in (self._document.plan_changed, self._document.answers_changed):
            changed.connect(self._follow)


def _with_mine(routes: tuple[Route, ...]) -> tuple[Route, ...]:
    return tuple(route for route in routes if asking.uses_mine(route))
