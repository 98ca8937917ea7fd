"""Candidates worked out: exactly where that is in reach, else played, coarsely first."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Generator
from dataclasses import dataclass, replace
from functools import cached_property
from typing import NamedTuple

import msgspec
import numpy as np

from core.genetics.compile import compile_genetics
from core.plan.chances import chance
from core.plan.model import Group, Held, Owned, Plan, Route
from core.plan.scale import scale_of
from core.routes.assemble import SAME
from core.routes.evaluate import engine_steps, evaluate_steps, reported
from core.routes.exact.limits import OutOfReach
from core.routes.exact.reach import exact_route, workshop
from core.routes.exact.solve import chances
from core.routes.prepare import prepare
from core.routes.result import BudgetCurve, RouteResult
from core.search.candidate import Candidate
from core.search.found import Way
from core.search.reached import Reached, reached

# Runs of a first play of routes that have no exact answer, and how many standard errors its noise is taken for.
COARSE_RUNS, NOISE = 400, 4.0
# A look at chances alone takes about a part in so many of one at money.
_ONE_IN = 3


@dataclass(frozen=True, eq=False)
class Worked:
    """A candidate worked out at all its counts; `result`: none yet where nobody asked for more than to compare it."""

    candidate: Candidate
    route: Route
    reached: Reached
    result: RouteResult | None = None

    @property
    def money(self) -> float:
        """The least money that reaches the goal's chance; infinite where no count does."""
        return self.reached.money

    @property
    def rank(self) -> tuple[float, int, float]:
        """The least money first, of equals the sooner; of those out of reach the likeliest."""
        return self.reached.rank

    @cached_property
    def drawn(self) -> tuple[Route, RouteResult]:
        """The route drawn with the count that needs least, and its result, which there must be."""
        assert self.result is not None
        best, result = self.result.to_goal, self.result
        if best is None or best.count is None or self.route.scale is None or result.at_cheapest is None:
            return self.route, result
        groups = tuple(_counted(one, self.route.scale.groups, best.count) for one in self.route.groups)
        at_best = replace(
            result.at_cheapest,
            budget_curve=result.budget_curve,
            to_goal=result.to_goal,
            to_goal_by_season=result.to_goal_by_season,
            chance_at_budget=result.chance_at_budget,
        )
        return msgspec.structs.replace(self.route, groups=groups), at_best


def _counted(group: Group, scaled: tuple[str, ...], number: int) -> Group:
    if group.id not in scaled or (isinstance(group, Owned) and group.animals):
        return group
    return msgspec.structs.replace(group, count=number)


def coarse(plan: Plan) -> Plan:
    """The plan with as few runs as a first look takes; what is exact is not changed by them."""
    runs = min(COARSE_RUNS, plan.simulation.runs)
    return msgspec.structs.replace(plan, simulation=msgspec.structs.replace(plan.simulation, runs=runs))


class Looked(NamedTuple):
    """What a first look at a route gives.

    least: what it needs at least, where it has to be played in full to tell; infinite where no count reaches the goal's
    chance. reached: elsewhere, what it needs; result: and all else, where that was told along with it.
    """

    least: float
    reached: Reached | None = None
    result: RouteResult | None = None


class Working:
    """Works out routes of one plan."""

    def __init__(self, plan: Plan) -> None:
        self._plan = msgspec.structs.replace(plan, routes=())
        self._coarse = coarse(self._plan)
        self._genetics = compile_genetics(plan.genes, plan.linkage, plan.species)
        # Of how many routes of each way chances alone were asked for, and how many of them that left out.
        self._asked, self._left_out = Counter[Way](), Counter[Way]()

    def first(self, route: Route, way: Way) -> Generator[float, None, Looked]:
        """A first look at a route: what holds young back is worked out no further than it takes to compare it.

        At least: where the coarse play, the noise counted in its favour, reaches the goal's chance.
        """
        holds = any(isinstance(one, Held) for one in route.groups)
        if holds and self.in_vain(route, way):
            return Looked(math.inf)
        said = yield from engine_steps(self._coarse, route, self._genetics, bare=holds)
        own = reached(self._coarse, said)
        if said.played is not None:
            return Looked(self._at_least(own.curve))
        if holds:
            return Looked(own.money, own if math.isfinite(own.money) else None)
        return Looked(own.money, own, reported(self._coarse, route, said))

    def in_vain(self, route: Route, way: Way) -> bool:
        """Whether chances alone, which are quicker than money, say that no count of a route reaches the goal's.

        They are asked for only while they leave out one in three of that way.
        """
        if self._asked[way] >= _ONE_IN * (1 + self._left_out[way]):
            return False
        left_out = not self._reaches(route)
        self._asked[way] += 1
        self._left_out[way] += left_out
        return left_out

    def _reaches(self, route: Route) -> bool:
        problem = prepare(self._plan, route, self._genetics, crowded=True)
        scale = scale_of(route)
        every = [problem.with_counts(scale.groups, one) for one in scale.counts] if scale else [problem]
        try:
            shop, asked = workshop(problem), chance(self._plan.goal.chance) - SAME
            return any(chances(exact_route(one, shop))[-1] >= asked for one in reversed(every))
        except OutOfReach:
            return True

    def fully(self, route: Route) -> Generator[float, None, RouteResult]:
        """All that there is to tell of a route; where it is played, with all the runs the plan asks for."""
        return (yield from evaluate_steps(self._plan, route, self._genetics))

    def _at_least(self, curve: BudgetCurve) -> float:
        se = 0.5 / math.sqrt(self._coarse.simulation.runs)
        asked = chance(self._plan.goal.chance) - NOISE * se
        place = int(np.searchsorted(curve.chance, asked))
        return float(curve.money[place]) if place < len(curve.chance) else math.inf
