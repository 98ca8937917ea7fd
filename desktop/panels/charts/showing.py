"""What a chart is asked to show, and which routes it draws; no Qt."""

from __future__ import annotations

import math

import msgspec

from core.plan.model import Plan
from desktop.findings import Finding
from desktop.panels.charts.series import Emphasis
from desktop.words.numbers import Numbers

# As many as there are marks; more lines than this are a thicket.
MOST_DRAWN = 8


class Showing(msgspec.Struct, frozen=True, eq=False):
    """Findings of the shown routes at the goal's `chance`, with the ids of the cheapest, selected and outdated.

    `span`: the x range to keep to, while what is shown is only a look ahead.
    """

    plan: Plan
    found: tuple[Finding, ...]
    chance: float
    numbers: Numbers
    winner: str | None = None
    selected: str | None = None
    stale: frozenset[str] = msgspec.field(default_factory=frozenset)
    span: tuple[float, float] | None = None

    def emphasis(self, one: Finding) -> Emphasis:
        """How strongly a route is drawn."""
        if one.id == self.winner:
            return "cheapest"
        return "selected" if one.id == self.selected else "other"

    def drawn(self) -> tuple[Finding, ...]:
        """At most eight routes, the best first to get a place, and the selected one; in the plan's order."""
        shown = self._answered()
        best = sorted(shown, key=_rank)[:MOST_DRAWN]
        kept = {one.id for one in best} | {self.selected}
        return tuple(one for one in shown if one.id in kept)

    def left_out(self) -> tuple[Finding, ...]:
        """The routes there was no place for."""
        drawn = {one.id for one in self.drawn()}
        return tuple(one for one in self._answered() if one.id not in drawn)

    def _answered(self) -> list[Finding]:
        return [one for one in self.found if one.result is not None]


def _rank(one: Finding) -> tuple[float, float, int]:
    return (one.to_goal.money if one.to_goal else math.inf, -one.chance, one.place)
