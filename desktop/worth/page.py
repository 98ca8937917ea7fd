"""The page in the comparison's place: what each animal for sale is worth, and which assumptions matter most."""

from __future__ import annotations

from collections.abc import Generator
from functools import partial
from typing import Any

from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtGui import QFontMetricsF, QHideEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QScrollArea, QSizePolicy, QStackedWidget, QVBoxLayout, QWidget

from core.advice.matters import Matters
from core.advice.matters_work import again_steps, assumptions, matters_steps
from core.advice.worth import WorthPaying, worth_steps
from core.plan.model import Plan, Route
from desktop import fonts
from desktop.document import Document
from desktop.errand import Errand
from desktop.panels.routes import edits
from desktop.theme import NOTES, SECOND
from desktop.views import View
from desktop.widgets.inked import Inked, button
from desktop.widgets.labels import PlainLabel
from desktop.widgets.text_tabs import TextTabs
from desktop.words import labels
from desktop.words import why as why_words
from desktop.words import worth as words
from desktop.words.numbers import Numbers
from desktop.words.route_actions import add_step
from desktop.worth.matters_sheet import MattersSheet
from desktop.worth.worth_sheet import WorthSheet

WORTH, MATTERS = 0, 1


class WorthPage(View):
    """About the routes that are shown; works anything out only while it is open, and what is looked at first."""

    def __init__(self, document: Document, numbers: Numbers, errand: Errand, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document, self._numbers, self._errand = document, numbers, errand
        # The plan and its hidden routes; and the plan without those.
        self._about: tuple[Plan, frozenset[str]] | None = None
        self._plan: Plan | None = None
        self._asked: int | None = None
        # The answers to `_plan`: all prices are known once `_every` was compared, not the listed routes alone.
        self._worth: WorthPaying | None = None
        self._every = False
        self._matters: Matters | None = None
        self._route: str | None = None
        # Ranges of the person's own, as long as the page is open.
        self._own: dict[str, tuple[float, float]] = {}
        self.head = _Head()
        self.tabs = self.head.tabs
        self.state = PlainLabel(font=fonts.sans(fonts.FORM), ink=SECOND)
        self.worth, self.matters = WorthSheet(numbers), MattersSheet(numbers)
        self._places = QStackedWidget()
        for sheet in (self.worth, self.matters):
            sheet.hide()
            self._places.addWidget(_scrolled(sheet))
        self._lay_out()
        self.head.back.clicked.connect(self.done)
        self.tabs.currentChanged.connect(self._turn)
        self.matters.route_chosen.connect(self._choose)
        self.matters.range_set.connect(self._set_range)
        self.matters.usual_range_asked.connect(self._set_usual_range)
        self.worth.wanted.connect(self._add)
        errand.progressed.connect(self._tell_progress)
        errand.finished.connect(self._take)
        errand.failed.connect(self._fail)
        for signal in (document.plan_changed, document.answers_changed):
            signal.connect(self._follow)
        self._follow()

    def first_focus(self) -> QWidget:  # noqa: D102
        return self.tabs

    def show_tab(self, tab: int) -> None:
        """Turns to one of the two parts."""
        self.tabs.setCurrentIndex(tab)

    @property
    def is_settled(self) -> bool:
        """Whether what is shown answers the plan as it is."""
        return self._asked is None and self.state.text() == self._nothing()

    def hideEvent(self, event: QHideEvent) -> None:  # noqa: D102
        super().hideEvent(event)
        self._errand.cancel()
        self._asked = None

    def _lay_out(self) -> None:
        foot = PlainLabel(labels.ODDS, font=fonts.sans(fonts.NOTE), ink=NOTES)
        row = QHBoxLayout()
        row.setContentsMargins(24, 0, 24, 0)
        row.addWidget(foot)
        row.addStretch(1)
        row.addWidget(self.state)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 8, 0, 6)
        layout.setSpacing(8)
        layout.addWidget(self.head)
        layout.addWidget(self._places, 1)
        layout.addLayout(row)

    # What is asked.

    def _follow(self) -> None:
        about = self._document.plan, self._document.hidden
        if self._about is None or about[0] is not self._about[0] or about[1] != self._about[1]:
            self._about = about
            routes = tuple(route for route in about[0].routes if route.id not in about[1])
            self._plan, self._worth, self._every, self._matters = replace(about[0], routes=routes), None, False, None
            self._errand.cancel()
            self._asked = None
            self.worth.set_outdated(True)
            self.matters.set_outdated(True)
        self._ask()

    def _ask(self) -> None:
        """What the part that is looked at still needs, where anything does."""
        if not self._document.complete:
            self.state.setText(words.WAITING)
            return
        if self._plan is None or self._asked == self.tabs.currentIndex():
            return
        work = self._work(self._plan)
        self._asked = None if work is None else self.tabs.currentIndex()
        self.state.setText(self._nothing())
        if work is not None:
            self._tell_progress(0.0)
            self._errand.start(work)

    def _nothing(self) -> str:
        """What is said where there is nothing to show."""
        bare = self._matters is not None and not self._matters.usual.routes
        return words.NO_ROUTE if bare and self.tabs.currentIndex() == MATTERS else ""

    def _work(self, plan: Plan) -> partial[Generator[float, None, Any]] | None:
        if self.tabs.currentIndex() == MATTERS:
            return partial(matters_steps, plan, dict(self._own)) if self._matters is None else None
        if self._worth is None:
            # The listed routes alone are compared in no time, and mostly tell as much.
            return partial(worth_steps, plan, most_more=0)
        return None if self._every else partial(worth_steps, plan)

    # What the person does.

    def _turn(self, tab: int) -> None:
        self._places.setCurrentIndex(tab)
        self._ask()

    def _choose(self, route: str) -> None:
        self._route = route
        self._show_matters()

    def _set_range(self, key: str, low: float, high: float) -> None:
        self._own[key] = low, high
        self._look_again(key)

    def _set_usual_range(self, key: str) -> None:
        self._own.pop(key, None)
        self._look_again(key)

    def _look_again(self, key: str) -> None:
        """One assumption over another range; all else stays."""
        if self._plan is None or self._matters is None:
            return
        found = next((one for one in assumptions(self._plan, self._own) if one.key == key), None)
        if found is not None:
            self._asked = MATTERS
            self.matters.set_outdated(True)
            self._tell_progress(0.0)
            self._errand.start(partial(again_steps, self._plan, self._matters, found))

    def _add(self, route: Route, name: str) -> None:
        if edits.has_room(self._document.plan):
            plan, _ = edits.added(self._document.plan, route, name)
            self._document.edit(plan, add_step(plan.routes[-1].name))

    # What comes back.

    def _tell_progress(self, share: float) -> None:
        self.state.setText(why_words.working(share, self._numbers))

    def _take(self, answer: object) -> None:
        self._asked = None
        if self._plan is None:
            return
        if isinstance(answer, WorthPaying):
            self._every, self._worth = self._worth is not None, answer
            self.worth.show_answer(self._plan, answer)
            self.worth.show()
        elif isinstance(answer, Matters):
            self._matters = answer
            self._show_matters()
        self._ask()

    def _show_matters(self) -> None:
        if self._plan is None or self._matters is None:
            return
        routes = self._matters.usual.routes
        selected = self._document.selected
        wished = (self._route, selected.id if selected else None, self._matters.usual.cheapest, *routes)
        route = next((one for one in wished if one in routes), None)
        self.matters.setVisible(route is not None)
        if route is not None:
            self.matters.show_answer(self._plan, self._matters, route)

    def _fail(self, reason: str) -> None:
        self._asked = None
        self.state.setText(reason)


def _scrolled(sheet: QWidget) -> QScrollArea:
    area = QScrollArea()
    area.setFrameShape(QFrame.Shape.NoFrame)
    area.setWidgetResizable(True)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    area.setWidget(sheet)
    return area


class _Head(Inked):
    """The way back, and the two parts."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.back = button(why_words.BACK, "link")
        self.back.setAccessibleName(why_words.BACK_NAME)
        self.tabs = TextTabs((words.WORTH, words.MATTERS))
        self.tabs.setAccessibleName(words.TABS_NAME)
        row = QHBoxLayout(self)
        row.setContentsMargins(24, 0, 24, 0)
        row.setSpacing(16)
        row.addWidget(self.back)
        row.addWidget(self.tabs)
        row.addStretch(1)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        # By itself a tab bar takes the height it happens to have.
        self.tabs.setFixedHeight(int(QFontMetricsF(fonts.sans(fonts.HEADING, bold=True)).height()) + 10)
        self.dress()
