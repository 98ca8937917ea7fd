"""Routes on trial: every shape filled and worked out beside the plan, without a change to it."""

from __future__ import annotations

import logging
from collections.abc import Mapping, Sequence
from threading import Event

import msgspec
from msgspec.structs import replace
from PySide6.QtCore import QObject, Signal, Slot

from core.plan.check import check_plan
from core.plan.faults import Fault
from core.plan.model import Group, Owned, Plan, Route
from core.routes.pairs import Shape
from core.routes.shapes import SHAPES, Proposal, Shapes
from core.text import tr
from desktop.document import Document
from desktop.evaluation import Finished, Step, Underway, batches
from desktop.evaluator import Evaluator
from desktop.findings import Finding, findings
from desktop.findings import as_drawn as drawn_counts
from desktop.replies import Replies

_BROKEN = tr("No route can be filled from these lists: something unexpected happened while they were read.")
_log = logging.getLogger(__name__)


class Draft(msgspec.Struct, frozen=True):
    """One shape: what is proposed, who was chosen for a role, and how many were typed for a group."""

    proposal: Proposal
    picks: Mapping[str, str] = msgspec.field(default_factory=dict)
    counts: Mapping[str, int] = msgspec.field(default_factory=dict)
    season: int | None = None

    @property
    def route(self) -> Route | None:
        """The proposed route with what was typed; None where something is lacking."""
        route = self.proposal.route
        if route is None:
            return None
        groups = tuple(self._counted(group) for group in route.groups)
        season = route.buy_outright if self.season is None else self.season
        return msgspec.structs.replace(route, groups=groups, buy_outright=season)

    def _counted(self, group: Group) -> Group:
        count = self.counts.get(group.id)
        if count is None or (isinstance(group, Owned) and group.animals is not None):
            return group
        return msgspec.structs.replace(group, count=count)


class Trial(QObject):
    """Works on the evaluator's thread; belongs to the window, so that it outlives its work."""

    changed = Signal()
    _proposed = Signal(int, object)
    _failed = Signal(int, str)
    _answered = Signal(int, list)

    def __init__(self, document: Document, evaluator: Evaluator, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.document = document
        self._evaluator = evaluator
        self.drafts: dict[Shape, Draft] = {}
        self.failure = ""
        self._round = self._run = 0
        self._cancel = Event()
        self._begun = document.plan
        self._plan = msgspec.structs.replace(document.plan, routes=())
        self._replies = Replies(self._plan)
        self._found: tuple[Finding, ...] = ()
        self._lists = _Lists(document.plan)
        self._proposed.connect(self._take_proposals)
        self._failed.connect(self._take_failure)
        self._answered.connect(self._take_answers)
        document.plan_changed.connect(self._begin_anew)

    @property
    def plan(self) -> Plan:
        """The plan with the routes on trial as its routes."""
        return self._plan

    @property
    def is_settled(self) -> bool:
        """Whether nothing is to be waited for."""
        return bool(self.failure) or (bool(self.drafts) and self._replies.complete)

    def begin(self) -> None:
        """Fills every shape from the plan as it stands."""
        self._round += 1
        self._begun = self.document.plan
        self.drafts, self.failure = {}, ""
        self._lists = _Lists(self.document.plan)
        self._give_up()
        self._plan = msgspec.structs.replace(self.document.plan, routes=())
        self._replies, self._found = Replies(self._plan), ()
        self._propose([(shape, {}) for shape in SHAPES])

    def end(self) -> None:
        """Nobody looks any more."""
        self._round += 1
        self._give_up()
        self.drafts = {}

    def choose(self, shape: Shape, role: str, key: str) -> None:
        """Another animal in a role; the others are chosen to suit it."""
        draft = self.drafts.get(shape)
        if draft is None:
            # The plan has just changed, and the shapes are being filled anew.
            return
        picks = {**draft.picks, role: key}
        self.drafts[shape] = replace(draft, picks=picks)
        self._propose([(shape, picks)])

    def count(self, shape: Shape, group: str, number: int) -> tuple[Fault, ...]:
        """Another number of animals in a group; a number that cannot be is refused."""
        draft = self.drafts.get(shape)
        return self._try(shape, replace(draft, counts={**draft.counts, group: number})) if draft else ()

    def buy_in(self, shape: Shape, season: int) -> tuple[Fault, ...]:
        """Another season in which the finished animal is bought."""
        draft = self.drafts.get(shape)
        return self._try(shape, replace(draft, season=season)) if draft else ()

    def finding(self, shape: Shape, *, as_drawn: bool) -> Finding | None:
        """The figures of a shape with the counts that need least, or with those that were typed where any were."""
        found = next((one for one in self._found if one.id == _id_of(shape)), None)
        typed = shape in self.drafts and self.drafts[shape].counts
        return drawn_counts(self.plan, found) if found is not None and as_drawn and typed else found

    def route(self, shape: Shape) -> Route | None:
        """The route to add: with the counts that need least, as far as they are known, until others are typed."""
        draft, found = self.drafts.get(shape), self.finding(shape, as_drawn=True)
        if draft is None or draft.route is None or found is None or found.result is None or draft.counts:
            return draft.route if draft else None
        return msgspec.structs.replace(draft.route, groups=found.route.groups)

    def _try(self, shape: Shape, draft: Draft) -> tuple[Fault, ...]:
        before = self.drafts[shape]
        self.drafts[shape] = draft
        faults = self._draw()
        if faults:
            self.drafts[shape] = before
        return faults

    def _draw(self) -> tuple[Fault, ...]:
        routes = tuple(
            msgspec.structs.replace(draft.route, id=_id_of(shape))
            for shape, draft in self.drafts.items()
            if draft.route is not None and draft.proposal.shape != "empty"
        )
        plan = msgspec.structs.replace(self._plan, routes=routes)
        faults = check_plan(plan)
        if not faults:
            self._plan = plan
            if self._replies.ask(plan):
                self._work_out()
            self._show()
        return faults

    def _show(self) -> None:
        replies = self._replies
        self._found = findings(self._plan, replies.answers, replies.shares, replies.stale)
        self.changed.emit()

    def _begin_anew(self) -> None:
        if self.drafts and self.document.plan is not self._begun:
            self.begin()

    def _propose(self, wanted: Sequence[tuple[Shape, Mapping[str, str]]]) -> None:
        lists, here = self._lists, self._round
        tell, fail = self._proposed.emit, self._failed.emit

        def work() -> None:
            try:
                found = [lists.shapes().propose(shape, picks) for shape, picks in wanted]
            except Exception as error:  # noqa: BLE001 - the person gets a sentence, never a traceback
                _log.debug("no shape could be filled", exc_info=error)
                fail(here, str(error) if isinstance(error, ValueError) and str(error) else _BROKEN)
            else:
                tell(here, found)

        self._evaluator.queue(work)

    @Slot(int, object)
    def _take_proposals(self, here: int, found: list[Proposal]) -> None:
        if here != self._round:
            return
        for proposal in found:
            draft = self.drafts.get(proposal.shape, Draft(proposal))
            self.drafts[proposal.shape] = replace(draft, proposal=proposal)
        self._draw()

    @Slot(int, str)
    def _take_failure(self, here: int, sentence: str) -> None:
        if here == self._round:
            self.failure = sentence
            self.changed.emit()

    def _work_out(self) -> None:
        self._give_up()
        if not self._replies.pending:
            return
        self._cancel = cancel = Event()
        run, tell, stopping = self._run, self._answered.emit, self._evaluator.is_stopping
        plan, engine, only = self._plan, self._evaluator.engine, self._replies.pending

        def work() -> None:
            for batch in batches(plan, engine, only):
                if cancel.is_set() or stopping():
                    return
                if batch:
                    tell(run, batch)

        self._evaluator.queue(work)

    def _give_up(self) -> None:
        self._run += 1
        self._cancel.set()

    @Slot(int, list)
    def _take_answers(self, run: int, steps: list[Step]) -> None:
        if run == self._run:
            for step in steps:
                self._take(step)
            self._show()

    def _take(self, step: Step) -> None:
        if isinstance(step, Underway):
            self._replies.underway(step)
        elif isinstance(step, Finished):
            self._replies.finish()
        else:
            self._replies.take(step)


class _Lists:
    """The shapes of a plan, made when first asked for, on the worker's thread."""

    def __init__(self, plan: Plan) -> None:
        self._plan = plan
        self._shapes: Shapes | None = None

    def shapes(self) -> Shapes:
        if self._shapes is None:
            self._shapes = Shapes(self._plan)
        return self._shapes


def _id_of(shape: Shape) -> str:
    return shape.replace(" ", "-")
