"""What was worked out a moment ago, told again at other prices: what hatches does not depend on what was paid."""

from __future__ import annotations

import copy
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial

import msgspec

from core.plan.model import Held, Plan, Route
from core.routes.answer import Answer, Expectations
from core.routes.calendar import fixed_costs
from core.routes.exact.eggs import Joined
from core.routes.exact.lattice import Lattice
from core.routes.exact.reach import ExactRoute
from core.routes.exact.solve import answer, expected_at
from core.routes.problem import Problem

# So many routes are remembered, and of each no more than so many numbers in one array.
_MOST_ROUTES, _MOST_NUMBERS = 12, 200_000

LatticeOf = Callable[[Sequence[ExactRoute]], Lattice]


@dataclass(frozen=True, eq=False)
class _Bred:
    """Routes worked out at every count, and the plan and route that they hold for at any price paid before an egg."""

    plan: Plan
    route: Route
    routes: Sequence[ExactRoute]
    lattice: Lattice
    probe: Joined


class Recent:
    """The last routes that were worked out; kept by whoever evaluates a plan again and again as it changes.

    Setup, prices of animals and of the finished one, names, and how sure one wants to be change nothing of what is
    bred: the same generating functions are read again at other sums.
    """

    def __init__(self) -> None:
        self._bred: dict[str, _Bred] = {}

    def told(self, problems: Sequence[Problem], lattice_of: LatticeOf) -> tuple[list[Answer], Expectations] | None:
        """The answers of a route that breeds as it did before; None where it does not, or needs another money grid."""
        one = problems[0]
        bred = self._bred.get(one.route.id)
        if bred is None or (bred.plan, bred.route) != _unpriced(one.plan, one.route):
            return None
        routes = [_repriced(route, problem) for route, problem in zip(bred.routes, problems, strict=True)]
        if lattice_of(routes) != bred.lattice:
            return None
        answers = [answer(route, bred.lattice, bred.probe) for route in routes]
        return answers, partial(expected_at, routes, bred.probe)

    def keep(self, routes: Sequence[ExactRoute], lattice: Lattice, probe: Joined) -> None:
        """Remembers a route at all its counts; the one that was looked at longest ago is forgotten for it."""
        one = routes[0].problem
        self._bred.pop(one.route.id, None)
        if probe.points * one.horizon * len(routes) <= _MOST_NUMBERS:
            self._bred[one.route.id] = _Bred(*_unpriced(one.plan, one.route), routes, lattice, probe)
        while len(self._bred) > _MOST_ROUTES:
            del self._bred[next(iter(self._bred))]


def _unpriced(plan: Plan, route: Route) -> tuple[Plan, Route]:
    """The plan and the route without all that changes nothing of what is bred."""
    goal = msgspec.structs.replace(plan.goal, chance=0, budget=None, housing=None, outright_price=None)
    costs = msgspec.structs.replace(plan.costs, setup=0)
    groups = tuple(
        group if isinstance(group, Held) else msgspec.structs.replace(group, price=0) for group in route.groups
    )
    return (
        msgspec.structs.replace(
            plan, title="", notes="", goal=goal, costs=costs, for_sale=(), routes=(), cautions_read=()
        ),
        msgspec.structs.replace(route, name="", setup=0, groups=groups),
    )


def _repriced(route: ExactRoute, problem: Problem) -> ExactRoute:
    """The route as it was worked out, with the prices of another problem that breeds alike."""
    other = copy.copy(route)
    other.problem, other.fixed = problem, fixed_costs(problem)
    return other
