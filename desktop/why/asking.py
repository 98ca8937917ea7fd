"""What the page asks to have worked out; no Qt."""

from __future__ import annotations

from collections.abc import Generator

import msgspec

from core.explain.beats import Contender
from core.explain.ladder import Known, ladder_steps
from core.explain.money import spending_steps
from core.explain.numbers import Numbers
from core.explain.why import Why, why_steps
from core.plan.model import Plan
from core.progress import part_of
from desktop.findings import Finding

# Two routes, each with its ladder and its money.
_PARTS = 4


class Question(msgspec.Struct, frozen=True, eq=False):
    """One route's chance by a season, or that route beside another."""

    plan: Plan
    one: Finding
    season: int
    from_end: bool
    other: Finding | None = None

    def is_like(self, last: Question | None) -> bool:
        """Whether it asks the same as another."""
        return (
            last is not None
            and self.plan is last.plan
            and (self.season, self.from_end) == (last.season, last.from_end)
            and _same(self.one, last.one)
            and _same(self.other, last.other)
        )


class Asker(msgspec.Struct):
    """Answers questions and keeps what earlier ones found out about the same routes."""

    numbers: Numbers
    _known: dict[str, tuple[Plan, Finding, Known]] = msgspec.field(default_factory=dict)

    def why(self, asked: Question) -> Generator[float, None, Why]:
        """One route explained."""
        one = asked.one
        if one.result is None:
            raise ValueError("the route has no answer yet")
        known = self._known_of(asked.plan, one)
        return why_steps(
            asked.plan,
            one.route,
            one.result,
            asked.season,
            from_end=asked.from_end,
            known=known,
            numbers=self.numbers,
        )

    def beats(self, asked: Question) -> Generator[float, None, tuple[Contender, Contender]]:
        """Both routes on the same ladder, and what they spend."""
        if asked.other is None:
            raise ValueError("there is no other route")
        first = yield from self._contender(asked, asked.one, 0)
        second = yield from self._contender(asked, asked.other, 2)
        return first, second

    def _contender(self, asked: Question, one: Finding, done: int) -> Generator[float, None, Contender]:
        if one.result is None:
            raise ValueError("the route has no answer yet")
        known = self._known_of(asked.plan, one)
        ladder = yield from part_of(
            ladder_steps(asked.plan, one.route, one.result, from_end=asked.from_end, known=known), done, _PARTS
        )
        spending = yield from part_of(spending_steps(asked.plan, one.route, one.result), done + 1, _PARTS)
        return Contender(one.name, ladder, spending, one.to_goal, one.money_range, one.noise or 0.0)

    def _known_of(self, plan: Plan, one: Finding) -> Known:
        kept = self._known.get(one.id)
        if kept is None or kept[0] is not plan or not _same(kept[1], one):
            kept = self._known[one.id] = plan, one, {}
        return kept[2]


def _same(one: Finding | None, other: Finding | None) -> bool:
    if one is None or other is None:
        return one is other
    return one.result is other.result and one.route == other.route
