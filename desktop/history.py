"""Undo and redo: a step keeps the plan before it and the plan after it.

Plain values on purpose: Qt's undo stack owns its commands in C++, and commands written in Python that refer back to
the document crashed now and then when a window was collected.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from PySide6.QtCore import QObject, Signal

from core.plan.model import Plan


@dataclass(frozen=True, eq=False)
class Step:
    """One change of the plan, named as the person would name it; steps in a row with one `merge` key are one."""

    what: str
    before: Plan
    after: Plan
    merge: str | None


class History(QObject):
    """The steps of one document, and how many of them are done."""

    changed = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.clear()

    def clear(self) -> None:
        """Forgets all steps: another plan begins."""
        self._steps: list[Step] = []
        self._done = 0
        self._clean: int | None = 0
        self.changed.emit()

    def add(self, step: Step) -> None:
        """One more step; steps that were taken back are gone."""
        if self._clean is not None and self._clean > self._done:
            self._clean = None
        del self._steps[self._done :]
        last = self._steps[-1] if self._steps else None
        if last and step.merge is not None and last.merge == step.merge and self._clean != self._done:
            self._steps[-1] = replace(last, after=step.after)
        else:
            self._steps.append(step)
        self._done = len(self._steps)
        self.changed.emit()

    def undone(self) -> Plan | None:
        """The plan before the last step, which counts as taken back now; None where there is none."""
        if self._done == 0:
            return None
        self._done -= 1
        self.changed.emit()
        return self._steps[self._done].before

    def redone(self) -> Plan | None:
        """The plan after the step that was taken back last; None where there is none."""
        if self._done == len(self._steps):
            return None
        self._done += 1
        self.changed.emit()
        return self._steps[self._done - 1].after

    @property
    def undo_what(self) -> str | None:
        """What undo would take back."""
        return self._steps[self._done - 1].what if self._done else None

    @property
    def redo_what(self) -> str | None:
        """What redo would make again."""
        return self._steps[self._done].what if self._done < len(self._steps) else None

    @property
    def is_clean(self) -> bool:
        """Whether the plan is as it was saved or opened."""
        return self._clean == self._done

    def set_clean(self) -> None:
        """The plan as it stands was saved."""
        self._clean = self._done
        self.changed.emit()
