"""Undo and redo on Qt's undo stack: a step keeps what there was before it and what there is after it."""

from __future__ import annotations

import weakref

import msgspec
from PySide6.QtCore import QObject, QSignalBlocker, Signal
from PySide6.QtGui import QUndoCommand, QUndoStack
from shiboken6 import isValid

from core.plan.model import Plan

# Qt asks commands of one id in a row whether they can be one; which field they are about is compared after that.
_CAN_MERGE, _ALONE = 1, -1


class State(msgspec.Struct, frozen=True):
    """A plan, and the ids of the routes that are hidden: a file has no place for these, undo has."""

    plan: Plan
    hidden: frozenset[str] = frozenset()


class Mark(msgspec.Struct, frozen=True, eq=False):
    """A plan of the history, and how many steps had led to it."""

    plan: Plan
    steps: int


class History(QObject):
    """The steps of one document; `moved` tells that another state is the current one."""

    moved = Signal()
    changed = Signal()

    def __init__(self, plan: Plan, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._now = _Now(State(plan))
        self._saved: Plan | None = plan
        self._before = 0
        self._stack = QUndoStack(self)
        # Of a cycle, Python may take the steps down before the stack that owns them; so the stack goes empty.
        weakref.finalize(self, _empty, self._stack).atexit = False
        self._stack.indexChanged.connect(self._tell)
        self._stack.cleanChanged.connect(self.changed)

    @property
    def plan(self) -> Plan:
        """The plan that the steps done so far lead to."""
        return self._now.state.plan

    @property
    def hidden(self) -> frozenset[str]:
        """The routes that the steps done so far leave hidden."""
        return self._now.state.hidden

    def begin(self, plan: Plan, *, clean: bool = True, changes: int = 0) -> None:
        """Forgets all steps: another plan begins; one that is not clean has no saved state to go back to.

        `changes`: how many were made to it before that are not saved.
        """
        self._now.state = State(plan)
        self._saved = plan if clean else None
        self._before = changes
        self._stack.clear()
        if not clean:
            self._stack.resetClean()
        self.changed.emit()

    def __del__(self) -> None:
        # Collected together with the stack that owns them, the steps would go down twice: they go first.
        if isValid(self._stack):
            self._stack.blockSignals(True)
            self._stack.clear()

    def add(self, what: str, plan: Plan, merge: str | None) -> None:
        """One more step; steps that were taken back are gone, and those in a row with one `merge` key are one."""
        # What was hidden and is gone leaves no trace: a later route may take its id.
        hidden = self.hidden & {route.id for route in plan.routes}
        self._stack.push(_Step(what, self._now, State(plan, hidden), merge))

    def hide(self, what: str, hidden: frozenset[str]) -> None:
        """One more step after which other routes are hidden."""
        self._stack.push(_Step(what, self._now, State(self.plan, hidden), None))

    def undo(self) -> None:
        """Takes the last step back."""
        self._stack.undo()

    def redo(self) -> None:
        """Makes the step again that was taken back last."""
        self._stack.redo()

    @property
    def undo_what(self) -> str | None:
        """What undo would take back."""
        return self._stack.undoText() or None

    @property
    def redo_what(self) -> str | None:
        """What redo would make again."""
        return self._stack.redoText() or None

    @property
    def is_clean(self) -> bool:
        """Whether the plan is as it was saved or opened; hiding changes no file."""
        return self.plan is self._saved

    @property
    def changes(self) -> int:
        """How many steps lie between the plan and what was saved, as far as that can be known."""
        if self.is_clean:
            return 0
        saved = self._stack.cleanIndex()
        return abs(self._before + self._stack.index() if saved < 0 else self._stack.index() - saved)

    def mark(self) -> Mark:
        """Where the plan stands now, for `set_clean` after it was written."""
        return Mark(self.plan, self._stack.index())

    def set_clean(self, mark: Mark | None = None) -> None:
        """The plan as it stands was saved, or as it stood at a mark."""
        mark = mark or self.mark()
        self._saved = mark.plan
        if mark.plan is self.plan:
            self._before = 0
            self._stack.setClean()
        else:
            self._before = -mark.steps
            self._stack.resetClean()
        self.changed.emit()

    def _tell(self) -> None:
        self.moved.emit()
        self.changed.emit()


def _empty(stack: QUndoStack) -> None:
    if isValid(stack):
        with QSignalBlocker(stack):
            stack.clear()


class _Now:
    """The one thing that steps act on.

    Commands belong to Qt: with a way back from them to the document, a collected window took them down twice.
    """

    def __init__(self, state: State) -> None:
        self.state = state


class _Step(QUndoCommand):
    def __init__(self, what: str, now: _Now, after: State, merge: str | None) -> None:
        super().__init__(what)
        self._now, self._before, self._after, self._merge = now, now.state, after, merge

    def id(self) -> int:
        return _ALONE if self._merge is None else _CAN_MERGE

    def mergeWith(self, other: QUndoCommand) -> bool:
        if not isinstance(other, _Step) or other._merge != self._merge:
            return False
        self._after = other._after
        # What it says may be about the value.
        self.setText(other.text())
        # What was typed and typed back is no step at all.
        self.setObsolete(self._after == self._before)
        return True

    def undo(self) -> None:
        self._now.state = self._before

    def redo(self) -> None:
        self._now.state = self._after
