"""What candidates are compared by: which money reaches the goal by when, and which chance."""

from __future__ import annotations

import math
from dataclasses import dataclass

from core.plan.chances import chance
from core.plan.model import Plan
from core.routes.assemble import budget_curve, cheapest, unbeaten
from core.routes.evaluate import Engined
from core.routes.result import BudgetCurve, RouteResult


@dataclass(frozen=True, eq=False)
class Reached:
    """The least of all counts of a route.

    money, season: the least that reaches the goal's chance, and when that is reached with the count that needs it;
    infinite and 0 where no count gets there. by_season: the same money within each number of seasons. curve: the best
    chance with every sum in hand. chance: that of the goal by the horizon, as drawn.
    """

    money: float
    season: int
    by_season: tuple[float, ...]
    curve: BudgetCurve
    chance: float

    @property
    def rank(self) -> tuple[float, int, float]:
        """The least money first, of equals the sooner; of those out of reach the likeliest."""
        return self.money, self.season, -self.chance


def reached(plan: Plan, said: Engined) -> Reached:
    """Read off what the engines say, chances and money alone."""
    goal, seasons, scaled = chance(plan.goal.chance), plan.goal.seasons, said.scaled
    best, rivals = cheapest(scaled, goal, seasons), unbeaten(scaled)
    return Reached(
        money=math.inf if best is None else best.money(goal, seasons),
        season=0 if best is None else best.season(goal),
        by_season=tuple(min([one.money(goal, horizon) for one in rivals]) for horizon in range(1, seasons + 1)),
        curve=budget_curve(scaled),
        chance=float(said.answers[said.place].chance[-1]),
    )


def as_reported(result: RouteResult) -> Reached:
    """Read off a report."""
    best = result.to_goal
    return Reached(
        money=best.money if best else math.inf,
        season=best.season if best else 0,
        by_season=tuple(way.money if way else math.inf for way in result.to_goal_by_season),
        curve=result.budget_curve,
        chance=float(result.chance_by_season[-1]),
    )
