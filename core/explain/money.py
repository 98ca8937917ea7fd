"""What a route costs on average, by kind and by season."""

from __future__ import annotations

from collections.abc import Generator
from dataclasses import dataclass
from typing import Literal

import msgspec
import numpy as np

from core.plan.model import Group, Held, Plan, Route
from core.progress import part_of
from core.routes.evaluate import exact_steps
from core.routes.prepare import prepare
from core.routes.problem import Problem
from core.routes.result import Floats, RouteResult

Kind = Literal["buying", "keeping", "young"]
KINDS: tuple[Kind, ...] = ("buying", "keeping", "young")


@dataclass(frozen=True, eq=False)
class Spending:
    """Expected sums through each season, [seasons], by kind; they add up to what the route reports as paid.

    buying: setting up, animals and the finished animals; keeping: of adults and young; young: eggs and young.
    """

    kinds: dict[Kind, Floats]

    @property
    def total(self) -> Floats:
        """All kinds together."""
        total: Floats = np.sum([*self.kinds.values()], axis=0)
        return total

    def in_season(self, season: int) -> float:
        """What is spent in one season by itself."""
        return float(np.diff(self.total, prepend=0.0)[season - 1])


def spending_steps(plan: Plan, route: Route, result: RouteResult) -> Generator[float, None, Spending]:
    """What a route at its counts as drawn costs by kind: an evaluation each, with only these prices; yields progress.

    result: its answer at these counts only. Prices change neither chances nor the run of things, so the kinds add up
    to what it reports as paid. Raises what `prepare` raises.
    """
    found: dict[Kind, Floats] = {}
    for step, kind in enumerate(KINDS):
        yield step / len(KINDS)
        problem = prepare(*priced(plan, route, kind), crowded=True)
        paid = _paid(problem, exact=result.method == "exact")
        found[kind] = yield from part_of(paid, step, len(KINDS))
    return Spending(found)


def priced(plan: Plan, route: Route, kind: Kind) -> tuple[Plan, Route]:
    """The plan and route with only the prices of one kind."""
    goal, costs = plan.goal, plan.costs
    if kind != "buying":
        costs = msgspec.structs.replace(costs, setup=0)
        free = None if goal.outright_price is None else 0
        goal = msgspec.structs.replace(goal, outright_price=free)
        route = msgspec.structs.replace(route, setup=0, groups=tuple(_free(group) for group in route.groups))
    if kind != "keeping":
        costs = msgspec.structs.replace(costs, keep_adult=0, keep_young=0)
    if kind != "young":
        costs = msgspec.structs.replace(costs, per_egg=0, per_young=0)
    return msgspec.structs.replace(plan, goal=goal, costs=costs), route


def _free(group: Group) -> Group:
    return group if isinstance(group, Held) else msgspec.structs.replace(group, price=0)


def _paid(problem: Problem, *, exact: bool) -> Generator[float, None, Floats]:
    if exact:
        return (yield from exact_steps([problem], 0))[1](0).paid
    # Most routes never need it, and it takes a while to import.
    from core.routes.simulated import simulated_counts

    return (yield from simulated_counts([problem], 0))[1](0).paid
