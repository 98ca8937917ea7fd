"""From the textbook's chance to the route's, one truth switched on after the other.

Every rung ends where the model itself stands with one more truth switched on, so the rungs add up exactly to the
difference between the textbook's chance and the route's. How much each of them costs depends on the order, which is
therefore part of the answer: as stated, or from the other end.
"""

from __future__ import annotations

from collections.abc import Collection, Generator
from dataclasses import dataclass

import numpy as np

from core.explain.truths import TRUTHS, Truth, applying, cases_with_truths, with_truths
from core.plan.model import Plan, Route
from core.progress import part_of
from core.routes.exact.holding import HoldingRoute
from core.routes.exact.limits import OutOfReach
from core.routes.exact.reach import exact_route, workshop
from core.routes.exact.solve import chances as exact_chances
from core.routes.problem import Problem
from core.routes.result import Floats, RouteResult

# A chance that simulation cannot tell from none.
_HARDLY = 1e-6


def told_percent(chance: float) -> float:
    """A chance in percent as ladders tell it."""
    return round(100 * float(chance), 1)


@dataclass(frozen=True, eq=False)
class Rung:
    """One truth switched on: the chance by season without it and with it; `applies`: whether it can matter at all."""

    truth: Truth
    before: Floats
    after: Floats
    applies: bool

    def points(self, season: int) -> float:
        """What it adds to the chance by the end of a season, in percentage points; mostly it takes away."""
        return 100 * float(self.after[season - 1] - self.before[season - 1])

    def told_points(self, season: int) -> float:
        """The same between the chances as they are told, so that figures with one decimal add up, too."""
        return told_percent(self.after[season - 1]) - told_percent(self.before[season - 1])


@dataclass(frozen=True, eq=False)
class Ladder:
    """All rungs in order, from the textbook's chances to the route's; `runs`: of a rung that had to be simulated."""

    rungs: tuple[Rung, ...]
    from_end: bool
    runs: int | None

    @property
    def textbook(self) -> Floats:
        """The chance by season when everything is averaged per egg and nothing goes wrong."""
        return self.rungs[0].before

    @property
    def real(self) -> Floats:
        """The route's own chance by season."""
        return self.rungs[-1].after

    def told(self, season: int) -> float:
        """The route's own chance by a season, for prose: what came out in every run, or in none, is not certain."""
        real, textbook = float(self.real[season - 1]), float(self.textbook[season - 1])
        if self.runs is None or textbook == 0:
            return real
        return min(max(real, _HARDLY), max(textbook, 1 - _HARDLY))

    def rung(self, truth: Truth) -> Rung:
        """The rung at which a truth is switched on."""
        return next(rung for rung in self.rungs if rung.truth == truth)


Known = dict[frozenset[Truth], tuple[Floats, int | None]]


def ladder_steps(
    plan: Plan, route: Route, result: RouteResult, *, from_end: bool = False, known: Known | None = None
) -> Generator[float, None, Ladder]:
    """The ladder of a route at its counts as drawn; yields the share of the work done.

    result: the route's own answer, where the ladder ends.
    known: chances by truths that were worked out for the same plan and route before; new ones are added.
    Raises what `prepare` raises.
    """
    order = TRUTHS[::-1] if from_end else TRUTHS
    matter = applying(plan, route)
    found: Known = {} if known is None else known
    found[matter] = result.chance_by_season, result.runs
    sets = [frozenset(order[:step]) & matter for step in range(len(order) + 1)]
    for step, truths in enumerate(sets):
        if truths not in found:
            found[truths] = yield from part_of(truth_steps(plan, route, truths), step, len(sets))
    rungs = [
        Rung(truth, found[sets[step]][0], found[sets[step + 1]][0], truth in matter) for step, truth in enumerate(order)
    ]
    runs = [found[truths][1] for truths in sets]
    return Ladder(tuple(rungs), from_end, max((some for some in runs if some), default=None))


def truth_steps(
    plan: Plan, route: Route, truths: Collection[Truth]
) -> Generator[float, None, tuple[Floats, int | None]]:
    """Chance by season of a route with only these truths, over all cases of what its parents truly are.

    Where a case had to be simulated, young held back are taken as independent, to be done in time.
    """
    cases = cases_with_truths(plan, route, truths)
    total: Floats = np.zeros(plan.goal.seasons)
    for step, (weight, problem) in enumerate(cases):
        chances, runs = yield from part_of(chance_steps(problem), step, len(cases))
        if runs is not None:
            return (chances, runs) if len(cases) == 1 else (yield from chance_steps(with_truths(plan, route, truths)))
        total = total + weight * chances
    return total, None


def chance_steps(problem: Problem) -> Generator[float, None, tuple[Floats, int | None]]:
    """Chance by season of a route made ready, and its runs where it had to be simulated; yields the share done."""
    yield 0.0
    try:
        route = exact_route(problem, workshop(problem))
        if isinstance(route, HoldingRoute):
            route.check()
        return exact_chances(route), None
    except OutOfReach:
        # Most routes never need it, and it takes a while to import.
        from core.routes.simulated import simulated_counts

        answers, _ = yield from simulated_counts([problem], 0)
        return answers[0].chance, problem.plan.simulation.runs
