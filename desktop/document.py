"""The plan in the window and its answers: the one thing all panels look at."""

from __future__ import annotations

from collections.abc import Collection
from itertools import count
from pathlib import Path

from msgspec.structs import replace
from PySide6.QtCore import QObject, QTimer, Signal

from core.plan.check import check_plan
from core.plan.faults import Fault
from core.plan.model import Plan
from desktop.evaluation import Finished, Step, Underway
from desktop.findings import Finding, Purchases, Verdict, as_drawn, findings, verdict
from desktop.history import History, Mark
from desktop.replies import Replies

# New answers that come sooner than this would only make the window flicker.
PATIENCE_MS = 150


class Document(QObject):
    """Holds values and tells of changes; works nothing out by itself but the row figures."""

    plan_changed = Signal()
    # The plan was edited, undone or redone.
    edited = Signal()
    # Some routes are to be worked out that nobody is working on (`pending`), or none is any more.
    asked = Signal()
    answers_changed = Signal()
    selection_changed = Signal()

    def __init__(self, plan: Plan, path: Path | None = None, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._plan = plan
        self._path = path
        self._replies = Replies(plan)
        self._selected: str | None = None
        self._chosen = False
        self._as_drawn = False
        self._marks: dict[str, int] = {}
        self._purchases = Purchases()
        self.history = History(plan, self)
        self.history.moved.connect(self._follow)
        self._patience = QTimer(self, singleShot=True, interval=PATIENCE_MS)
        self._patience.timeout.connect(self._show_answers)
        self._look()

    @property
    def plan(self) -> Plan:
        """The current plan."""
        return self._plan

    @property
    def path(self) -> Path | None:
        """The file it came from, and is saved to."""
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
    def shown(self) -> tuple[Finding, ...]:
        """The findings of the routes that are not hidden, at the counts that are looked at."""
        return self._shown

    @property
    def hidden(self) -> frozenset[str]:
        """The routes that are hidden, by id."""
        return self.history.hidden

    @property
    def as_drawn(self) -> bool:
        """Whether the counts as drawn are looked at, instead of those that reach the goal for least."""
        return self._as_drawn

    @property
    def complete(self) -> bool:
        """Whether every route has been worked out or has failed, or the person stopped it."""
        return self._replies.complete

    @property
    def pending(self) -> frozenset[str]:
        """The routes that are to be worked out, by id."""
        return self._replies.pending

    @property
    def stopped(self) -> bool:
        """Whether the person stopped the working out before every route was done."""
        return self._replies.stopped

    @property
    def selected(self) -> Finding | None:
        """The route whose steps are shown."""
        return next((one for one in self._shown if one.id == self._selected), None)

    @property
    def has_unsaved_changes(self) -> bool:
        """Whether closing would lose something."""
        return not self.history.is_clean

    def replace(self, plan: Plan, path: Path | None, *, saved: bool = True, changes: int = 0) -> None:
        """Another plan; its answers are still to come. `saved`: whether it is what stands in the file.

        `changes`: how many it had before, where it is not.
        """
        self._plan, self._path = plan, path
        self._replies = Replies(plan)
        self._selected, self._chosen = None, False
        self._marks = {}
        self._purchases = Purchases()
        self.history.begin(plan, clean=saved, changes=changes)
        self._look()
        self.plan_changed.emit()
        self.answers_changed.emit()
        # A list that lost rows may have moved on to another by itself: nobody has chosen yet.
        self._selected, self._chosen = None, False
        self.selection_changed.emit()
        self.asked.emit()

    def edit(self, plan: Plan, what: str, *, merge: str | None = None) -> tuple[Fault, ...]:
        """Makes `plan` the current one, as one step that can be undone; a faulty plan is refused with its faults.

        Steps in a row with the same `merge` key become one.
        """
        if plan == self._plan:
            return ()
        faults = check_plan(plan)
        if not faults:
            self.history.add(what, plan, merge)
        return faults

    def hide(self, routes: Collection[str], what: str) -> None:
        """Has just these routes hidden, by id, as one step that can be undone."""
        if frozenset(routes) != self.hidden:
            self.history.hide(what, frozenset(routes))

    def look_at(self, *, as_drawn: bool) -> None:
        """Turns to the counts as drawn, or to those that reach the goal for least; no step."""
        if as_drawn != self._as_drawn:
            self._as_drawn = as_drawn
            self._look()
            self.answers_changed.emit()

    def undo(self) -> None:
        """Takes the last step back."""
        self.history.undo()

    def redo(self) -> None:
        """Makes the step again that was taken back last."""
        self.history.redo()

    def saved(self, path: Path, mark: Mark | None = None) -> None:
        """The plan as it stands, or as it stood at a mark, is in this file now."""
        self._path = path
        self.history.set_clean(mark)
        self.plan_changed.emit()

    def detach(self) -> None:
        """The plan stands in no file of its own any more."""
        self._path = None
        self.plan_changed.emit()

    def take(self, steps: list[Step]) -> None:
        """Answers as they come in; the cheapest so far is selected unless the person chose another.

        Those to a change that was made a moment ago are shown together, once all are there or the moment is over.
        """
        for step in steps:
            if isinstance(step, Underway):
                self._replies.underway(step)
            elif isinstance(step, Finished):
                self._replies.finish()
            else:
                self._replies.take(step)
        if self.complete:
            self._patience.stop()
        if not self.patient:
            self._show_answers()

    def cancel(self) -> None:
        """Stops the working out; what is known stays, and the rest says that it was stopped."""
        if self.pending:
            self._replies.stop()
            self.asked.emit()
            self._show_answers()

    def resume(self) -> None:
        """Has the stopped routes worked out after all."""
        if self.stopped:
            self._replies.go_on()
            self.asked.emit()
            self._show_answers()

    def select(self, finding: Finding) -> None:
        """The person chooses a route; from then on the selection stays with it."""
        if finding.id != self._selected:
            self._chosen = True
            self._show(finding)

    def keep_selection(self) -> None:
        """The person works on the selected route: from now on the selection stays with it."""
        self._chosen = self._selected is not None

    @property
    def patient(self) -> bool:
        """Whether the last change is so recent that outdated answers need not be told apart yet."""
        return self._patience.isActive()

    def _follow(self) -> None:
        if self.history.plan is self._plan:
            # Only what is hidden can have changed.
            self._show_answers()
            return
        self._plan = self.history.plan
        self._patience.start()
        routes = {one.id for one in self._found}
        news = self._replies.ask(self._plan)
        self._look()
        self.plan_changed.emit()
        self.edited.emit()
        # Of the routes that stand there, new answers are about to come, and the old ones have been told.
        if not news or routes != {one.id for one in self._found}:
            self._tell_answers()
        if news:
            self.asked.emit()

    def _show_answers(self) -> None:
        self._look()
        self._tell_answers()

    def _tell_answers(self) -> None:
        self.answers_changed.emit()
        if not self._chosen or self.selected is None:
            first = next(iter(self._shown), None) if self.complete else None
            self._show(self._verdict.best or first)

    def _show(self, finding: Finding | None) -> None:
        name = finding.id if finding else None
        if name != self._selected:
            self._selected = name
            self.selection_changed.emit()

    def _look(self) -> None:
        replies = self._replies
        self._mark()
        self._found = findings(
            self._plan,
            replies.answers,
            replies.shares,
            replies.stale,
            stopped=replies.stopped,
            marks=self._marks,
            purchases=self._purchases,
        )
        # Right after a change the answer that stands there stays: the new one is about to come.
        judged = tuple(replace(one, stale=False) for one in self._found) if self.patient else self._found
        self._verdict = verdict(judged, complete=self.complete, stopped=self.stopped, hidden=self.hidden)
        shown = (one for one in self._found if one.id not in self.hidden)
        self._shown = tuple(as_drawn(self._plan, one) if self._as_drawn else one for one in shown)

    def _mark(self) -> None:
        """A route keeps its mark as long as it is there, and gets it back on undo where it is still free."""
        routes = [route.id for route in self._plan.routes]
        taken: set[int] = set()
        for id_ in sorted(routes, key=lambda one: one not in self._marks):
            if self._marks.get(id_) in taken or id_ not in self._marks:
                self._marks[id_] = next(number for number in count() if number not in taken)
            taken.add(self._marks[id_])
