"""The trade of money against seasons and chance, over all routes that were worked out."""

from __future__ import annotations

import numpy as np

from core.plan.chances import chance
from core.plan.model import Plan
from core.routes.answer import MONEY_STEP
from core.search.found import Point
from core.search.reached import Reached

# Chances that are looked at beside the goal's own.
CHANCES = (0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 0.99)
_SAME = 1e-12


class Frontier:
    """Takes in one result after the other, and keeps the least money for every season and for every chance."""

    def __init__(self, plan: Plan) -> None:
        self._seasons, self._goal = plan.goal.seasons, chance(plan.goal.chance)
        self._budget = np.inf if plan.goal.budget is None else float(plan.goal.budget)
        # By season and chance: the least money, and whose it is.
        self._least: dict[tuple[int, float], tuple[float, str]] = {}

    def add(self, route: str, one: Reached) -> None:
        """One more route at all its counts."""
        for season, money in enumerate(one.by_season, 1):
            self._take(season, self._goal, money, route)
        for asked in CHANCES:
            place = int(np.searchsorted(one.curve.chance, asked - _SAME))
            if place < len(one.curve.chance):
                self._take(self._seasons, asked, float(one.curve.money[place]), route)

    def asked(self) -> tuple[tuple[int, float], ...]:
        """What a least money is asked for: season and chance, the goal's own at its horizon left out."""
        sooner = ((season, self._goal) for season in range(self._seasons - 1, 0, -1))
        surer = ((self._seasons, one) for one in CHANCES if one != self._goal)
        return (*sooner, *surer)

    def least(self, season: int, asked: float) -> float:
        """The least money so far that nothing better in season and chance takes less than; at most the budget."""
        known = (money for (its, chance_), (money, _) in self._least.items() if its <= season and chance_ >= asked)
        return min(known, default=self._budget)

    def points(self) -> tuple[Point, ...]:
        """Those that nothing beats in money, season and chance at once, the cheapest first."""
        every = [Point(money, season, asked, route) for (season, asked), (money, route) in self._least.items()]
        kept = [one for one in every if not any(_beats(other, one) for other in every)]
        return tuple(sorted(kept, key=_order))

    def _take(self, season: int, asked: float, money: float, route: str) -> None:
        # Sums within a step of the money are the same: the route that was there first, which is a plainer one, stays.
        known = self._least.get((season, asked), (np.inf,))[0]
        if money <= self._budget and money < known * (1 - MONEY_STEP):
            self._least[season, asked] = money, route


def _beats(one: Point, other: Point) -> bool:
    as_good = one.money <= other.money and one.season <= other.season and one.chance >= other.chance
    return as_good and one != other


def _order(one: Point) -> tuple[float, int, float]:
    return one.money, one.season, -one.chance
