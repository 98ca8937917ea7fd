"""The goal's chance while it is being moved: a look ahead in every chart, one step in the history at the end."""

from __future__ import annotations

import msgspec
from PySide6.QtCore import QObject, Signal

from core.plan.model import Plan
from desktop.at_chance import at_chance
from desktop.document import Document
from desktop.findings import Finding, Verdict, verdict
from desktop.words import charts as words
from desktop.words.goal import float_chance

_BY_KEYS = "goal.chance by keys"


class GoalChance(QObject):
    """Holds the looked-ahead chance; `moved` tells that what is shown is at another chance now."""

    moved = Signal()

    def __init__(self, document: Document, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._ahead: float | None = None

    @property
    def value(self) -> float:
        """The chance to show: the looked-ahead one, else the plan's."""
        return float_chance(self._document.plan.goal.chance) if self._ahead is None else self._ahead

    @property
    def is_ahead(self) -> bool:
        """Whether the shown chance is not the plan's yet."""
        return self._ahead is not None

    def plan(self) -> Plan:
        """The plan with the shown chance as its goal's."""
        plan = self._document.plan
        return plan if self._ahead is None else _with_chance(plan, self._ahead)

    def found(self) -> tuple[Finding, ...]:
        """The findings at the shown chance, of hidden routes too."""
        return self._at(self._document.found)

    def shown(self) -> tuple[Finding, ...]:
        """The findings at the shown chance and the counts that are looked at, without the hidden routes."""
        return self._at(self._document.shown)

    def verdict(self) -> Verdict:
        """The answer at the shown chance."""
        document = self._document
        if not self.is_ahead:
            return document.verdict
        return verdict(self.found(), complete=True, stopped=document.stopped, hidden=document.hidden)

    def _at(self, found: tuple[Finding, ...]) -> tuple[Finding, ...]:
        return at_chance(found, self.value, None if self.is_ahead else self._outdated())

    def outdated(self) -> frozenset[str]:
        """The routes whose new answer is still to come, once that has lasted so long that it has to be shown."""
        return frozenset() if self._document.patient else self._outdated()

    def _outdated(self) -> frozenset[str]:
        return frozenset(one.id for one in self._document.found if one.result and one.stale)

    def look_ahead(self, percent: int) -> None:
        """Shows another chance without a change to the plan: the curves stay, only where they reach it moves."""
        if percent / 100 != self._ahead:
            self._ahead = percent / 100
            self.moved.emit()

    def settle(self) -> None:
        """Makes the looked-ahead chance the plan's, as one step."""
        chance, self._ahead = self._ahead, None
        if chance is not None:
            self._edit(chance, None)

    def give_up(self) -> None:
        """Shows the plan's own chance again."""
        if self._ahead is not None:
            self._ahead = None
            self.moved.emit()

    def step(self, percent: int) -> None:
        """Makes another chance the plan's at once; keys pressed in a row become one step."""
        self._ahead = None
        self._edit(percent / 100, _BY_KEYS)

    def _edit(self, chance: float, merge: str | None) -> None:
        plan = self._document.plan
        if chance != float_chance(plan.goal.chance):
            self._document.edit(_with_chance(plan, chance), words.CHANGE_CHANCE, merge=merge)
        self.moved.emit()


def _with_chance(plan: Plan, chance: float) -> Plan:
    return msgspec.structs.replace(plan, goal=msgspec.structs.replace(plan.goal, chance=chance))
