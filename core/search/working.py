"""Candidates worked out: exactly where that is in reach, else played, coarsely first."""

from __future__ import annotations

import math
from collections.abc import Generator
from dataclasses import dataclass, replace
from functools import cached_property

import msgspec
import numpy as np

from core.genetics.compile import compile_genetics
from core.plan.chances import chance
from core.plan.model import Group, Held, Owned, Plan, Route
from core.plan.scale import scale_of
from core.routes.assemble import SAME
from core.routes.evaluate import Engined, engine_steps, evaluate_steps, reported
from core.routes.exact.holding import HoldingRoute
from core.routes.exact.limits import OutOfReach
from core.routes.exact.reach import exact_route, workshop
from core.routes.exact.solve import chances
from core.routes.prepare import prepare
from core.routes.result import RouteResult
from core.search.candidate import Candidate

# Runs of a first play of routes that have no exact answer, and how many standard errors its noise is taken for.
COARSE_RUNS, NOISE = 400, 4.0


@dataclass(frozen=True, eq=False)
class Worked:
    """A candidate worked out at all its counts."""

    candidate: Candidate
    route: Route
    result: RouteResult

    @property
    def money(self) -> float:
        """The least money that reaches the goal's chance; infinite where no count does."""
        return self.result.to_goal.money if self.result.to_goal else math.inf

    @property
    def rank(self) -> tuple[float, int, float]:
        """The least money first, of equals the sooner; of those out of reach the likeliest."""
        best = self.result.to_goal
        return self.money, best.season if best else 0, -float(self.result.chance_by_season[-1])

    @cached_property
    def drawn(self) -> tuple[Route, RouteResult]:
        """The route drawn with the count that needs least, and its result."""
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


class Working:
    """Works out routes of one plan."""

    def __init__(self, plan: Plan) -> None:
        self._plan = msgspec.structs.replace(plan, routes=())
        self._coarse = coarse(self._plan)
        self._genetics = compile_genetics(plan.genes, plan.linkage, plan.species)

    def first(self, route: Route, limit: float) -> Generator[float, None, tuple[float, RouteResult | None]]:
        """What a route needs at least, and its result; none yet where it has to be played in full.

        At least: where the coarse play, the noise counted in its favour, reaches the goal's chance; infinite where an
        exact answer says that no count does. Where young held back take more than `limit` no result is made yet.
        """
        holds = any(isinstance(one, Held) for one in route.groups)
        if holds and not self.reaches(route):
            return math.inf, None
        said = yield from engine_steps(self._coarse, route, self._genetics)
        if holds and said.played is None and (least := self._least(said)) > limit:
            return least, None
        result = reported(self._coarse, route, said)
        if result.method == "exact":
            return 0.0, result
        return self._at_least(result), None

    def _least(self, said: Engined) -> float:
        """The least money that reaches the goal's chance at any count."""
        goal, last = chance(self._plan.goal.chance), self._plan.goal.seasons
        places = ((one, one.money_needed(goal, last)) for one in said.scaled)
        return min((one.answer.grid.money(place) for one, place in places if place is not None), default=math.inf)

    def reaches(self, route: Route) -> bool:
        """Whether some count may reach the goal's chance: chances alone are quicker than a whole answer."""
        problem = prepare(self._plan, route, self._genetics, crowded=True)
        scale = scale_of(route)
        every = [problem.with_counts(scale.groups, one) for one in scale.counts] if scale else [problem]
        try:
            shop = workshop(problem)
            ways = [exact_route(one, shop) for one in every]
            for way in ways:
                if isinstance(way, HoldingRoute):
                    way.check()
            return any(chances(way)[-1] >= chance(self._plan.goal.chance) - SAME for way in reversed(ways))
        except OutOfReach:
            return True

    def fully(self, route: Route) -> Generator[float, None, tuple[float, RouteResult | None]]:
        """A route that is played, with all the runs the plan asks for."""
        return 0.0, (yield from evaluate_steps(self._plan, route, self._genetics))

    def _at_least(self, result: RouteResult) -> float:
        se = 0.5 / math.sqrt(self._coarse.simulation.runs)
        asked = chance(self._plan.goal.chance) - NOISE * se
        curve = result.budget_curve
        place = int(np.searchsorted(curve.chance, asked))
        return float(curve.money[place]) if place < len(curve.chance) else math.inf
