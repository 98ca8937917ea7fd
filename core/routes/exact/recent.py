"""What was worked out a moment ago, told again at other prices: what hatches does not depend on what was paid."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from functools import partial

import msgspec

from core.genetics.compile import Genetics, compile_genetics
from core.plan.model import Held, Plan, Route
from core.routes.answer import Answer, Expectations
from core.routes.exact.eggs import Joined
from core.routes.exact.lattice import Lattice
from core.routes.exact.plain import Workshop
from core.routes.exact.reach import ExactRoute, paid_as
from core.routes.exact.solve import answer, beaten, expected_at
from core.routes.problem import Problem

# So many routes are remembered, and of each no more than so many numbers in one array.
_MOST_ROUTES, _MOST_NUMBERS = 12, 200_000
# Numbers kept for all of them, as far as they are counted: 250 MB.
_MOST_KEPT = 16_000_000
# After so many routes the genetics are compiled anew: what follows from them is kept with them, and grows.
_MOST_ASKED = 1_000

LatticeOf = Callable[[Sequence[ExactRoute]], Lattice]


@dataclass(frozen=True, eq=False)
class _Bred:
    """Routes worked out at every count, and the plan and route that they hold for at any price paid before an egg."""

    plan: Plan
    route: Route
    routes: Sequence[ExactRoute]
    lattice: Lattice
    probe: Joined

    def shops(self) -> Iterable[Workshop]:
        """Where what was worked out is kept: counts may share it."""
        return {id(route.shop): route.shop for route in self.routes}.values()


class Recent:
    """The last routes that were worked out; kept by whoever evaluates a plan again and again as it changes.

    Setup, prices of animals and of the finished one, names, and how sure one wants to be change nothing of what is
    bred: the same generating functions are read again at other sums.
    """

    def __init__(self) -> None:
        self._bred: dict[str, _Bred] = {}
        self._genetics: tuple[object, Genetics] | None = None
        self._asked = 0

    def genetics(self, plan: Plan) -> Genetics:
        """The genetics of a plan: those of one before with the same genes and goal, with all that follows from them."""
        told = plan.genes, plan.linkage, plan.species, plan.goal.want
        self._asked += 1
        if self._genetics is None or self._genetics[0] != told or self._asked > _MOST_ASKED:
            self._genetics = told, compile_genetics(plan.genes, plan.linkage, plan.species)
            self._asked = 0
        return self._genetics[1]

    def told(self, problems: Sequence[Problem], lattice_of: LatticeOf) -> tuple[list[Answer], Expectations] | None:
        """The answers of a route that breeds as it did before; None where it does not, or needs another money grid."""
        one = problems[0]
        if not self.knows(one.plan, one.route):
            return None
        bred = self._bred[one.route.id]
        routes = [paid_as(route, problem) for route, problem in zip(bred.routes, problems, strict=True)]
        if lattice_of(routes) != bred.lattice:
            return None
        answers = [
            answer(route, bred.lattice, bred.probe, beaten=worse)
            for route, worse in zip(routes, beaten(routes, bred.lattice), strict=True)
        ]
        return answers, partial(expected_at, routes, bred.probe)

    def keep(self, routes: Sequence[ExactRoute], lattice: Lattice, probe: Joined) -> None:
        """Remembers a route at all its counts; the one that was looked at longest ago is forgotten for it."""
        one = routes[0].problem
        self._forget(one.route.id)
        if self.has_room(routes, probe):
            self._bred[one.route.id] = _Bred(*unpriced(one.plan, one.route), routes, lattice, probe)
        while len(self._bred) > _MOST_ROUTES or self._kept() > _MOST_KEPT:
            self._forget(next(iter(self._bred)))

    def forget_gone(self, plan: Plan) -> None:
        """Forgets every route that a plan no longer has."""
        for gone in self._bred.keys() - {route.id for route in plan.routes}:
            self._forget(gone)

    def has_room(self, routes: Sequence[ExactRoute], probe: Joined) -> bool:
        """Whether a route at all its counts is small enough to be remembered."""
        return probe.points * routes[0].problem.horizon * len(routes) <= _MOST_NUMBERS

    def has(self, route: Route) -> bool:
        """Whether a route by this id is remembered."""
        return route.id in self._bred

    def knows(self, plan: Plan, route: Route) -> bool:
        """Whether a route breeds as it did when it was remembered; it is told then, but for another money grid."""
        bred = self._bred.get(route.id)
        return bred is not None and (bred.plan, bred.route) == unpriced(plan, route)

    def _kept(self) -> int:
        return sum(shop.room.kept for bred in self._bred.values() for shop in bred.shops())

    def _forget(self, route: str) -> None:
        bred = self._bred.pop(route, None)
        for shop in bred.shops() if bred else ():
            shop.forget()


def unpriced(plan: Plan, route: Route) -> tuple[Plan, Route]:
    """The plan and the route without all that changes nothing of what is bred, to be compared with another's."""
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
