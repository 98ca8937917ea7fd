"""The plan in the window and its answers: the one thing all panels look at."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QObject, Signal

from core.plan.model import Plan
from desktop.evaluation import Finished, RouteAnswer, RouteFailure, Step, Underway
from desktop.findings import Finding, Verdict, findings, verdict


class Document(QObject):
    """Holds values and tells of changes; works nothing out by itself but the row figures."""

    plan_changed = Signal()
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
        self._look()
        self.plan_changed.emit()
        self.answers_changed.emit()

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
