"""The page in the comparison's place: why this chance, and why this beats that."""

from __future__ import annotations

from PySide6.QtGui import QHideEvent
from PySide6.QtWidgets import QWidget

from core.explain.why import Why, season_to_explain
from desktop import fonts
from desktop.document import Document
from desktop.errand import Errand
from desktop.findings import Finding
from desktop.panels.charts.size import text_scale
from desktop.panels.steps.panel import MarkSign
from desktop.sheets import SheetsHead, SheetsPage
from desktop.theme import SECOND
from desktop.why.asking import Asker, Question
from desktop.why.beats_sheet import BeatsSheet
from desktop.why.chance_sheet import ChanceSheet
from desktop.why.parts import GivesWay
from desktop.widgets.inked import button
from desktop.widgets.labels import PlainLabel
from desktop.widgets.text_tabs import TextTabs
from desktop.words import labels
from desktop.words import why as words
from desktop.words.numbers import Numbers

THIS_CHANCE, THIS_BEATS_THAT = 0, 1
# At the usual text size.
_WIDEST_NAME = 360


class WhyPage(SheetsPage):
    """Explains the document's selected route; works anything out only while it is open."""

    def __init__(self, document: Document, numbers: Numbers, errand: Errand, parent: QWidget | None = None) -> None:
        self.head = _Head()
        self.chance, self.beats = ChanceSheet(numbers), BeatsSheet(numbers)
        super().__init__(self.head, (self.chance, self.beats), parent)
        self._document, self._numbers, self._errand = document, numbers, errand
        self._asker = Asker(numbers)
        self._asked: Question | None = None
        self._season: int | None = None
        self._route: str | None = None
        self._other: str | None = None
        self._from_end = False
        self._connect()
        self._follow()

    @property
    def is_settled(self) -> bool:
        """Whether what is shown answers what was asked last."""
        return self._asked is not None and not self.state.text()

    def hideEvent(self, event: QHideEvent) -> None:  # noqa: D102
        super().hideEvent(event)
        self._errand.cancel()
        self._asked = None

    def _connect(self) -> None:
        self.tabs.currentChanged.connect(self._turn)
        self.chance.season_chosen.connect(self._choose_season)
        self.chance.end_turned.connect(self._turn_end)
        self.beats.other_chosen.connect(self._choose_other)
        self._errand.progressed.connect(self._tell_progress)
        self._errand.finished.connect(self._take)
        self._errand.failed.connect(self._fail)
        document = self._document
        for signal in (document.selection_changed, document.answers_changed, document.edited):
            signal.connect(self._follow)

    # What is asked.

    def _follow(self) -> None:
        one = self._document.selected
        if one is None or one.id != self._route:
            self._route, self._season, self._other = one.id if one else None, None, None
        self.head.show_route(one)
        self._offer(one)
        question = self._question(one)
        if question is None:
            self._wait(one)
        elif not question.is_like(self._asked):
            self._asked = question
            self._outdate()
            self._tell_progress(0.0)
            asker, beats = self._asker, question.other is not None
            self._errand.start(lambda: asker.beats(question) if beats else asker.why(question))

    def _question(self, one: Finding | None) -> Question | None:
        if one is None or one.result is None or one.stale:
            return None
        plan = self._document.plan
        if self.tabs.currentIndex() == THIS_CHANCE:
            season = min(self._season or season_to_explain(plan, one.route), plan.goal.seasons)
            return Question(plan, one, season, self._from_end)
        other = self._compared()
        return Question(plan, one, plan.goal.seasons, False, other) if other is not None else None

    def _others(self) -> list[Finding]:
        answered = [one for one in self._document.shown if one.result is not None and not one.stale]
        return [one for one in answered if one.id != self._route]

    def _compared(self) -> Finding | None:
        """The other route: the one chosen, else the cheapest, else the first."""
        others = self._others()
        chosen = next((one for one in others if one.id == self._other), None)
        reaching = [one for one in others if one.to_goal is not None]
        cheapest = min(reaching, key=_money, default=None)
        return chosen or cheapest or next(iter(others), None)

    def _offer(self, one: Finding | None) -> None:
        others, compared = self._others(), self._compared()
        place = next((i for i, other in enumerate(others) if compared and other.id == compared.id), 0)
        self.beats.offer(one.name if one else "", [other.name for other in others], place)

    def _wait(self, one: Finding | None) -> None:
        self._errand.cancel()
        self._asked = None
        self._outdate()
        if one is None:
            self.state.setText(words.NO_ROUTE)
        elif one.state == "failed":
            self.state.setText(words.wont_explain(one.reason))
        elif one.result is not None and not one.stale:
            self.state.setText(words.ONLY_ROUTE)
            self.beats.set_comparing(False)
        else:
            self.state.setText(words.WAITING)

    def _outdate(self) -> None:
        self.chance.set_outdated(True)
        self.beats.set_outdated(True)

    # What the person does.

    def _turn(self, tab: int) -> None:
        self._places.setCurrentIndex(tab)
        self._follow()

    def _choose_season(self, season: int) -> None:
        self._season = season
        self._follow()

    def _turn_end(self) -> None:
        self._from_end = not self._from_end
        self._follow()

    def _choose_other(self, place: int) -> None:
        self._other = self._others()[place].id
        self._follow()

    # What comes back.

    def _tell_progress(self, share: float) -> None:
        self.state.setText(words.working(share, self._numbers))

    def _take(self, answer: object) -> None:
        asked = self._asked
        if asked is None:
            return
        if isinstance(answer, Why):
            self.chance.show_why(asked.plan, asked.one, answer)
        elif isinstance(answer, tuple) and asked.other is not None:
            self.beats.set_comparing(True)
            self.beats.show_both(asked.plan, (asked.one, asked.other), answer)
        self.state.setText("")

    def _fail(self, reason: str) -> None:
        self.state.setText(words.wont_explain(reason))


class _Head(SheetsHead):
    """The way back, the route, and the two views."""

    def __init__(self) -> None:
        self._mark = MarkSign()
        self.name = GivesWay(fonts.sans(fonts.HEADING, bold=True), int(_WIDEST_NAME * text_scale()))
        self._counts = PlainLabel(font=fonts.sans(fonts.HEADING), ink=SECOND)
        back = button(words.BACK, "link")
        back.setAccessibleName(words.BACK_NAME)
        tabs = TextTabs((labels.WHY_THIS_CHANCE, labels.WHY_THIS_BEATS_THAT))
        tabs.setAccessibleName(words.TABS_NAME)
        super().__init__(back, tabs, (self._mark, self.name, self._counts))

    def show_route(self, one: Finding | None) -> None:
        """Another route, or none."""
        self._mark.show_mark(one.mark if one else None)
        self.name.show_text(one.name if one else labels.NO_ROUTE)
        self._counts.setText(words.with_animals(one.males, one.females) if one else "")
        self._counts.setVisible(bool(self._counts.text()))


def _money(one: Finding) -> float:
    return one.to_goal.money if one.to_goal else 0.0
