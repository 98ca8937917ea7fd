"""The page in the comparison's place: what each animal for sale is worth, and which assumptions matter most."""

from __future__ import annotations

from PySide6.QtCore import QTimer
from PySide6.QtGui import QHideEvent
from PySide6.QtWidgets import QWidget

from core.advice.matters import Matters
from core.plan.model import Route
from desktop import fonts
from desktop.document import Document
from desktop.errand import Errand
from desktop.panels.routes import edits
from desktop.sheets import SheetsHead, SheetsPage
from desktop.widgets.inked import button
from desktop.widgets.labels import wrapped
from desktop.widgets.text_tabs import TextTabs
from desktop.words import why as why_words
from desktop.words import worth as words
from desktop.words.numbers import Numbers
from desktop.words.route_actions import add_step
from desktop.worth.answers import Answers, Work
from desktop.worth.matters_sheet import MattersSheet
from desktop.worth.worth_sheet import WorthSheet

WORTH, MATTERS = 0, 1
# Who only looks in is spared a long search.
PATIENCE_MS = 800


class WorthPage(SheetsPage):
    """About the routes that are shown; works anything out only while it is open, and what is looked at first.

    Once all that is quick is known, better plans are searched for beside it, or every value of an assumption is tried.
    """

    def __init__(
        self, document: Document, numbers: Numbers, errand: Errand, answers: Answers, parent: QWidget | None = None
    ) -> None:
        self.worth, self.matters = WorthSheet(numbers), MattersSheet(numbers)
        super().__init__(_head(), (self.worth, self.matters), parent)
        # Nothing to press or type into before there is an answer: what is coming stands there instead.
        for sheet in (self.worth, self.matters):
            sheet.hide()
        self.waiting = wrapped("", fonts.serif(fonts.ANSWER))
        self.waiting.setContentsMargins(24, 8, 24, 0)
        self.lay_above(self.waiting)
        self._document, self._numbers, self._errand, self._answers = document, numbers, errand, answers
        self._asked: int | None = None
        self._deep = False
        self._route: str | None = None
        self._patience = QTimer(self, singleShot=True, interval=PATIENCE_MS)
        self._connect()
        answers.follow(document.plan, document.hidden)
        self._show_prices()
        self._show_matters()
        self._follow()

    @property
    def is_settled(self) -> bool:
        """Whether what is shown answers the plan as it is, and nothing is being worked out."""
        return self._asked is None and self.state.text() == self._nothing()

    def hideEvent(self, event: QHideEvent) -> None:  # noqa: D102
        super().hideEvent(event)
        self._errand.cancel()
        self._patience.stop()
        self._asked = None

    def _connect(self) -> None:
        self.tabs.currentChanged.connect(self._turn)
        self.matters.route_chosen.connect(self._choose)
        self.matters.range_set.connect(self._set_range)
        self.matters.usual_range_asked.connect(self._set_usual_range)
        self.worth.wanted.connect(self._add)
        self._patience.timeout.connect(self._go_deep)
        self._errand.progressed.connect(self._tell_progress)
        self._errand.finished.connect(self._take)
        self._errand.failed.connect(self._fail)
        for signal in (self._document.plan_changed, self._document.answers_changed):
            signal.connect(self._follow)

    # What is asked.

    def _follow(self) -> None:
        if self._answers.follow(self._document.plan, self._document.hidden):
            self._errand.cancel()
            self._asked = None
            self.worth.set_outdated(True)
            self.matters.set_outdated(True)
        self._ask()

    def _go_deep(self) -> None:
        self._ask(deep=True)

    def _ask(self, *, deep: bool = False) -> None:
        """What the part that is looked at still needs, where anything does."""
        self._ask_for(self.tabs.currentIndex(), deep=deep)
        self._tell_waiting()

    def _ask_for(self, part: int, *, deep: bool) -> None:
        if not self._document.complete:
            self.state.setText(words.WAITING)
            return
        if self._asked == part:
            return
        work_of = self._answers.matters_work if part == MATTERS else self._answers.price_work
        work = work_of(deep=deep)
        self.state.setText(self._nothing())
        if work is not None:
            self._deep = deep
            self._begin(part, work)
        elif not deep:
            self._patience.start()

    def _begin(self, part: int, work: Work) -> None:
        self._patience.stop()
        self._asked = part
        self._tell_progress(0.0)
        self._errand.start(work)

    def _tell_waiting(self) -> None:
        part = self.tabs.currentIndex()
        self.waiting.setText(words.COMING[part])
        bare = (self.worth, self.matters)[part].isHidden()
        self.waiting.setVisible(bare and (self._asked is not None or not self._document.complete))

    def _nothing(self) -> str:
        """What is said where there is nothing to show."""
        matters = self._answers.matters
        bare = matters is not None and not matters.usual.routes
        return words.NO_ROUTE if bare and self.tabs.currentIndex() == MATTERS else ""

    # What the person does.

    def _turn(self, tab: int) -> None:
        self._places.setCurrentIndex(tab)
        self._patience.stop()
        self._ask()

    def _choose(self, route: str) -> None:
        self._route = route
        self._show_matters()

    def _set_range(self, key: str, low: float, high: float) -> None:
        self._answers.own[key] = low, high
        self._look_again(key)

    def _set_usual_range(self, key: str) -> None:
        self._answers.own.pop(key, None)
        self._look_again(key)

    def _look_again(self, key: str) -> None:
        """One assumption over another range; all else stays."""
        work = self._answers.range_work(key)
        if work is not None:
            self.matters.set_outdated(True)
            self._deep = False
            self._begin(MATTERS, work)

    def _add(self, route: Route, name: str) -> None:
        if edits.has_room(self._document.plan):
            plan, _ = edits.added(self._document.plan, route, name)
            self._document.edit(plan, add_step(plan.routes[-1].name))

    # What comes back.

    def _tell_progress(self, share: float) -> None:
        deep = words.trying if self._asked == MATTERS else words.searching
        said = deep if self._deep else why_words.working
        self.state.setText(said(share, self._numbers))

    def _take(self, answer: object) -> None:
        self._asked = None
        self._answers.take(answer)
        if isinstance(answer, Matters):
            self._show_matters()
        else:
            self._show_prices()
        self._ask()

    def _show_prices(self) -> None:
        plan, worth = self._answers.plan, self._answers.worth
        if plan is not None and worth is not None:
            self.worth.show_answer(plan, worth)
            self.worth.show()

    def _show_matters(self) -> None:
        plan, matters = self._answers.plan, self._answers.matters
        if plan is None or matters is None:
            return
        routes = matters.usual.routes
        selected = self._document.selected
        wished = (self._route, selected.id if selected else None, matters.usual.cheapest, *routes)
        route = next((one for one in wished if one in routes), None)
        self.matters.setVisible(route is not None)
        if route is not None:
            self.matters.show_answer(plan, matters, route)

    def _fail(self, reason: str) -> None:
        self._asked = None
        self.state.setText(reason)
        self._tell_waiting()


def _head() -> SheetsHead:
    back = button(why_words.BACK, "link")
    back.setAccessibleName(why_words.BACK_NAME)
    tabs = TextTabs((words.WORTH, words.MATTERS))
    tabs.setAccessibleName(words.TABS_NAME)
    return SheetsHead(back, tabs)
