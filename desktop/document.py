"""The plan in the window and its answers: the one thing all panels look at."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QObject, Signal

from core.plan.check import check_plan
from core.plan.faults import Fault
from core.plan.model import Plan
from desktop.evaluation import Finished, RouteAnswer, RouteFailure, Step, Underway
from desktop.findings import Finding, Verdict, findings, verdict
from desktop.history import History
from desktop.history import Step as Change


class Document(QObject):
    """Holds values and tells of changes; works nothing out by itself but the row figures."""

    plan_changed = Signal()
    # The plan was edited, undone or redone, so that its routes are to be worked out again.
    edited = Signal()
    answers_changed = Signal()
    selection_changed = Signal()

    def __init__(self, plan: Plan, path: Path | None = None, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._plan = plan
        self._path = path
        self._answers: dict[str, RouteAnswer | RouteFailure] = {}
        self._shares: dict[str, float] = {}
        self._complete = False
        self._selected: str | None = None
        self._chosen = False
        self.history = History(self)
        self._look()

    @property
    def plan(self) -> Plan:
        """The current plan."""
        return self._plan

    @property
    def path(self) -> Path | None:
        """The file it came from."""
        return self._path

    @property
    def found(self) -> tuple[Finding, ...]:
        """A finding per route, in the plan's order."""
        return self._found

    @property
    def verdict(self) -> Verdict:
        """The answer to the goal so far."""
        return self._verdict

    @property
    def complete(self) -> bool:
        """Whether every route has been worked out, or has failed."""
        return self._complete

    @property
    def selected(self) -> Finding | None:
        """The route whose steps are shown."""
        return next((one for one in self._found if one.id == self._selected), None)

    def replace(self, plan: Plan, path: Path | None) -> None:
        """Another plan; its answers are still to come."""
        self._plan, self._path = plan, path
        self._answers, self._shares, self._complete = {}, {}, False
        self._selected, self._chosen = None, False
        self.history.clear()
        self._look()
        self.plan_changed.emit()
        self.answers_changed.emit()

    def edit(self, plan: Plan, what: str, *, merge: str | None = None) -> tuple[Fault, ...]:
        """Makes `plan` the current one, as one step that can be undone; a faulty plan is refused with its faults.

        Steps in a row with the same `merge` key become one.
        """
        if plan == self._plan:
            return ()
        faults = check_plan(plan)
        if not faults:
            self.history.add(Change(what, self._plan, plan, merge))
            self._take_over(plan)
        return faults

    def undo(self) -> None:
        """Takes the last step back."""
        plan = self.history.undone()
        if plan is not None:
            self._take_over(plan)

    def redo(self) -> None:
        """Makes the step again that was taken back last."""
        plan = self.history.redone()
        if plan is not None:
            self._take_over(plan)

    def saved(self, path: Path) -> None:
        """The plan as it stands is in this file now."""
        self._path = path
        self.history.set_clean()
        self.plan_changed.emit()

    @property
    def has_unsaved_changes(self) -> bool:
        """Whether closing would lose something."""
        return not self.history.is_clean

    def _take_over(self, plan: Plan) -> None:
        before, self._plan = self._plan, plan
        self._shares, self._complete = {}, False
        if not _same_shape(before, plan):
            # Old answers stay in sight until the new ones come, unless they would not fit the page.
            self._answers = {}
        self._look()
        self.plan_changed.emit()
        self.answers_changed.emit()
        self.edited.emit()

    def take(self, steps: list[Step]) -> None:
        """Answers as they come in; the cheapest so far is selected unless the person chose another."""
        for step in steps:
            if isinstance(step, Finished):
                self._complete = True
            elif isinstance(step, Underway):
                self._shares[step.id] = step.share
            else:
                self._answers[step.id] = step
        self._look()
        self.answers_changed.emit()
        if not self._chosen:
            first = next(iter(self._found), None) if self._complete else None
            self._show(self._verdict.best or first)

    def select(self, finding: Finding) -> None:
        """The person chooses a route; from then on the selection stays with it."""
        if finding.id != self._selected:
            self._chosen = True
            self._show(finding)

    def _show(self, finding: Finding | None) -> None:
        name = finding.id if finding else None
        if name != self._selected:
            self._selected = name
            self.selection_changed.emit()

    def _look(self) -> None:
        self._found = findings(self._plan, self._answers, self._shares)
        self._verdict = verdict(self._found, complete=self._complete)


def _same_shape(before: Plan, after: Plan) -> bool:
    """Whether answers to one plan can be shown in the page of the other."""
    return before.goal.seasons == after.goal.seasons and before.routes == after.routes
