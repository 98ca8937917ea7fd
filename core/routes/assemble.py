"""From answers at every count to what an evaluation reports: budget curve, plans that reach the goal, the cheapest."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

import numpy as np

from core.plan.chances import chance
from core.plan.model import Plan
from core.routes.answer import Answer, Expected, money_grid
from core.routes.result import BudgetCurve, Comparison, Floats, MoneyCurve, RouteResult, ToGoal

# Chances this close are equal: both engines' sums carry rounding of this order.
SAME = 1e-12
# Out of the goal's reach, less than this, and than so much of a small chance, is not worth another animal.
_ABOUT, _ABOUT_SHARE = 0.005, 0.1


class Counted:
    """One count's answer with its running sums, and its plans to the goal."""

    def __init__(self, count: int | None, answer: Answer) -> None:
        self.count, self.answer = count, answer
        self._needed: dict[float, list[tuple[float, int]]] = {}

    @cached_property
    def _by_eggs(self) -> Floats:
        sums = self.answer.eggs().cumsum(axis=1)
        for earlier, season in pairwise(sums):
            season += earlier
        return sums

    @property
    def by_eggs(self) -> Floats:
        """Chance that the goal-meeting egg is among the first e: [most eggs + 1]."""
        curve: Floats = self._by_eggs[-1]
        return curve

    @cached_property
    def curve(self) -> MoneyCurve:
        """The step curve of the chance by money, only the points where it steps."""
        money, chances, _ = _kept(self.answer.grid.points(), self.answer.by_money[-1])
        return MoneyCurve(money, chances)

    def needed(self, goal: float) -> list[tuple[float, int]]:
        """Per horizon in seasons from 1: the least money with which the goal's chance is reached, and its grid point.

        Infinite where it is not reached.
        """
        if goal not in self._needed:
            self._needed[goal] = self._first_points(goal - SAME)
        return self._needed[goal]

    def _first_points(self, chance: float) -> list[tuple[float, int]]:
        grid, curves = self.answer.grid, self.answer.by_money
        found = []
        for curve, most in zip(curves, curves[:, -1].tolist(), strict=True):
            point = int(curve.searchsorted(chance)) if most >= chance else -1
            found.append((grid.money(point) if point >= 0 else math.inf, point))
        return found

    def money(self, goal: float, horizon: int) -> float:
        """The least money with which the goal's chance is reached within `horizon` seasons; infinite where not."""
        return self.needed(goal)[horizon - 1][0]

    def season(self, goal: float) -> int:
        """The first season by whose end the goal's chance is reached, where it is."""
        return int(np.argmax(self.answer.chance >= goal - SAME)) + 1

    def to_goal(self, goal: float, horizon: int) -> ToGoal | None:
        """This count's plan to the goal within `horizon` seasons; None where it does not get there."""
        money, where = self.needed(goal)[horizon - 1]
        if where < 0:
            return None
        eggs = self._by_eggs[horizon - 1]
        return ToGoal(
            count=self.count,
            money=money,
            season=self.season(goal),
            eggs=int(eggs.searchsorted(goal - SAME)) if eggs[-1] >= goal - SAME else None,
            chance=min(1.0, float(self.answer.by_money[horizon - 1, where])),
        )

    def with_at_most(self, money: Floats) -> Floats:
        """The chance with each of these sums in hand, in ascending order."""
        grid = self.answer.grid
        where = (money - grid.least) / grid.step + 1e-6
        chances: Floats = self.answer.by_money[-1].take(where.astype(np.int64), mode="clip")
        # Sums ascend: those before the grid's first are at the front.
        chances[: where.searchsorted(0.0)] = 0.0
        return chances

    def with_budget(self, money: float) -> float:
        """The same for one sum."""
        grid = self.answer.grid
        where = (money - grid.least) / grid.step + 1e-6
        return float(self.answer.by_money[-1, min(int(where), grid.size - 1)]) if where >= 0 else 0.0


def cheapest(counted: Sequence[Counted], goal: float, horizon: int) -> Counted | None:
    """The count that reaches the goal with the least money in hand; of equals the smallest."""
    rivals = unbeaten(counted)
    return _cheapest(rivals, [one.needed(goal)[horizon - 1] for one in rivals])


def closest(counted: Sequence[Counted], drawn: Counted) -> Counted:
    """Where no count reaches the goal: the smallest that comes about as close as any; as drawn where none can."""
    best = max(float(one.answer.chance[-1]) for one in (*counted, drawn))
    near = best - min(_ABOUT, _ABOUT_SHARE * best)
    return next((one for one in counted if best > SAME and one.answer.chance[-1] >= near), drawn)


def unbeaten(counted: Sequence[Counted]) -> Sequence[Counted]:
    """The counts of which any may be the best for some money; see `Answer`."""
    return [one for one in counted if not one.answer.beaten]


def _cheapest(counted: Sequence[Counted], needed: Sequence[tuple[float, int]]) -> Counted | None:
    least = min([money for money, _ in needed])
    return None if math.isinf(least) else counted[[money for money, _ in needed].index(least)]


def _to_goal_by_season(counted: Sequence[Counted], goal: float) -> tuple[ToGoal | None, ...]:
    """Per horizon, the plan that reaches the goal with the least money in hand."""
    found, rivals = [], unbeaten(counted)
    for horizon, needed in enumerate(zip(*[one.needed(goal) for one in rivals], strict=True), start=1):
        best = _cheapest(rivals, needed)
        found.append(None if best is None else best.to_goal(goal, horizon))
    return tuple(found)


def budget_curve(counted: Sequence[Counted]) -> BudgetCurve:
    """The best chance with at most each sum in hand over all counts, and the smallest count that gives it."""
    if len(counted) == 1:
        curve = counted[0].curve
        return BudgetCurve(curve.money, curve.chance, np.full(len(curve.money), counted[0].count or 0))
    grids = [c.answer.grid for c in counted]
    least = min(grid.least for grid in grids)
    most = max(grid.money(grid.size - 1) for grid in grids)
    money = money_grid(least, most, min(grid.step for grid in grids)).points()
    chances, counts = counted[0].with_at_most(money), np.full(len(money), counted[0].count or 0)
    for one in unbeaten(counted[1:]):
        own = one.with_at_most(money)
        # Chances as good as equal stay those of the smaller count.
        better = own > chances + SAME
        np.copyto(chances, own, where=better)
        counts[better] = one.count or 0
    money, steps, kept = _kept(money, chances)
    return BudgetCurve(money, steps, counts[kept])


def _kept(money: Floats, curve: Floats) -> tuple[Floats, Floats, np.typing.NDArray[np.int64]]:
    rises = np.empty(len(curve), dtype=bool)
    rises[0] = curve[0] > SAME
    np.greater(curve[1:] - curve[:-1], SAME, out=rises[1:])
    kept = np.flatnonzero(rises)
    if not len(kept):
        kept = np.array([0])
    return money[kept], np.minimum(curve[kept], 1.0), kept


def settled(chances: Floats) -> Floats:
    """Without the last digits that rounding leaves of what is impossible or certain."""
    told = np.clip(chances, 0.0, 1.0)
    told[told < SAME] = 0.0
    told[told > 1 - SAME] = 1.0
    return told


@dataclass(frozen=True)
class Fixed:
    """What of a route's result does not come from an engine."""

    id: str
    per_egg: Mapping[str, float | None]
    inbreeding: Mapping[str, float | None]


def route_result(
    plan: Plan, fixed: Fixed, scaled: Sequence[Counted], drawn: Counted, expected: Expected, *, played: int | None
) -> RouteResult:
    """Everything an evaluation reports of one route.

    scaled: an entry a count, in ascending order; drawn: the counts as drawn (may be one of them).
    played: runs, where simulated.
    """
    goal = chance(plan.goal.chance)
    by_season = _to_goal_by_season(scaled, goal)
    often = expected.reached >= 0.05
    budget = plan.goal.budget
    in_reach = np.maximum(expected.reached, 1e-300)
    return RouteResult(
        id=fixed.id,
        chance_by_season=settled(drawn.answer.chance),
        chance_by_eggs=settled(drawn.by_eggs),
        chance_by_money=drawn.curve,
        paid_by_season=expected.paid,
        up_front=expected.up_front,
        sales_by_season=expected.sales,
        young=float(expected.young.sum()),
        surplus=expected.surplus,
        peak_animals=float(np.max(expected.present, where=often, initial=0.0)),
        peak_young=float(np.max(expected.young / in_reach, where=often, initial=0.0)),
        per_egg=dict(fixed.per_egg),
        inbreeding=dict(fixed.inbreeding),
        budget_curve=budget_curve(scaled),
        to_goal=by_season[-1],
        as_drawn=drawn.to_goal(goal, plan.goal.seasons),
        to_goal_by_season=by_season,
        chance_at_budget=None if budget is None else max([one.with_budget(float(budget)) for one in unbeaten(scaled)]),
        method="exact" if played is None else "simulated",
        runs=played,
        seed=None if played is None else plan.simulation.seed,
        chance_by_season_se=drawn.answer.se,
    )


def compare(results: Sequence[RouteResult]) -> Comparison:
    """The comparison: all results, and the route with the least money to the goal; of equals the sooner, the first."""
    able = [(r.to_goal.money, r.to_goal.season, i) for i, r in enumerate(results) if r.to_goal is not None]
    return Comparison(tuple(results), results[min(able)[2]].id if able else None)
