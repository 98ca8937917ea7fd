"""What is known of a plan's prices and assumptions, kept from one opening of the page to the next; no Qt."""

from __future__ import annotations

from collections.abc import Callable, Generator
from functools import partial
from typing import Any, Literal

import msgspec
from msgspec.structs import replace

from core.advice.matters import Matters
from core.advice.matters_work import again_steps, assumptions, matters_steps, sure_steps
from core.advice.worth import WorthPaying, worth_steps
from core.advice.worth_search import searched_worth_steps
from core.plan.model import Plan

Work = Callable[[], Generator[float, None, Any]]
# What prices were compared with: the listed routes, which takes no time; pairs of what there is too; what is searched.
Depth = Literal[0, 1, 2, 3]
LISTED, PAIRED, SEARCHED = 1, 2, 3


class Answers(msgspec.Struct, eq=False):
    """About the routes of a plan that are shown; `own`: ranges of the person's own."""

    plan: Plan | None = None
    worth: WorthPaying | None = None
    depth: int = 0
    matters: Matters | None = None
    own: dict[str, tuple[float, float]] = msgspec.field(default_factory=dict)
    _about: tuple[Plan, frozenset[str]] | None = None

    def follow(self, plan: Plan, hidden: frozenset[str]) -> bool:
        """Turns to a plan; whether it is another one than before, of which nothing is known."""
        if self._about is not None and self._about[0] is plan and self._about[1] == hidden:
            return False
        self._about = plan, hidden
        self.plan = replace(plan, routes=tuple(route for route in plan.routes if route.id not in hidden))
        self.worth, self.depth, self.matters = None, 0, None
        return True

    def price_work(self, *, deep: bool) -> Work | None:
        """What prices still need; `deep`: also what takes long."""
        if self.plan is None:
            return None
        if self.depth < LISTED:
            return partial(worth_steps, self.plan, most_more=0)
        if self.depth < PAIRED:
            return partial(worth_steps, self.plan)
        return partial(searched_worth_steps, self.plan) if deep and self.depth < SEARCHED else None

    def matters_work(self, *, deep: bool) -> Work | None:
        """What the assumptions still need; `deep`: also what takes long."""
        if self.plan is None:
            return None
        if self.matters is None:
            return partial(matters_steps, self.plan, dict(self.own))
        return partial(sure_steps, self.plan, self.matters) if deep and not self.matters.sure else None

    def range_work(self, key: str) -> Work | None:
        """One assumption over its range as it is now."""
        if self.plan is None or self.matters is None:
            return None
        found = next((one for one in assumptions(self.plan, self.own) if one.key == key), None)
        return None if found is None else partial(again_steps, self.plan, self.matters, found)

    def take(self, answer: object) -> None:
        """What one of these works came to."""
        if isinstance(answer, WorthPaying):
            self.worth, self.depth = answer, self.depth + 1
        elif isinstance(answer, Matters):
            self.matters = answer
