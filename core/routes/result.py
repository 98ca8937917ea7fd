"""Answers as frozen values: what an evaluation reports, per route and for the comparison."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Counts = NDArray[np.int64]
# A run of the plan's `simulation` is this many plays of the route, so that 20,000 runs tell 80 % to 0.15 points.
PLAYS_A_RUN = 4


@dataclass(frozen=True, eq=False)
class MoneyCurve:
    """A step curve: `chance[i]` of the goal with no more than `money[i]` paid; money ascends (plan currency)."""

    money: Floats
    chance: Floats


@dataclass(frozen=True, eq=False)
class BudgetCurve:
    """The best chance with at most `money[i]` in hand, and the `count` of `scale` that gives it."""

    money: Floats
    chance: Floats
    count: Counts


@dataclass(frozen=True)
class ToGoal:
    """One plan that reaches the goal's chance: its count, the least money in hand, and the first season and eggs.

    `count` is None for a route with nothing to scale; `eggs` is None where only buying outright gets there.
    """

    count: int | None
    money: float
    season: int
    eggs: int | None
    chance: float


@dataclass(frozen=True, eq=False)
class RouteResult:
    """What one route gives, as drawn, and over all counts of its `scale`.

    Curves by season have one entry a season of the goal's horizon; `chance_by_eggs` starts at 0 eggs. `at_cheapest` is
    what the count of `to_goal` gives by itself, or where no count reaches the goal the one that comes closest, unless
    that is the one drawn.
    """

    id: str
    chance_by_season: Floats
    chance_by_eggs: Floats
    chance_by_money: MoneyCurve
    paid_by_season: Floats
    up_front: float
    sales_by_season: Floats
    young: float
    surplus: float
    peak_animals: float
    peak_young: float
    per_egg: dict[str, float | None]
    inbreeding: dict[str, float | None]
    budget_curve: BudgetCurve
    to_goal: ToGoal | None
    as_drawn: ToGoal | None
    to_goal_by_season: tuple[ToGoal | None, ...]
    chance_at_budget: float | None
    method: Literal["exact", "simulated"] = "exact"
    runs: int | None = None
    seed: int | None = None
    chance_by_season_se: Floats | None = None
    at_cheapest: RouteResult | None = None

    def noise(self, chance: Floats | float) -> Floats | None:
        """Two standard errors of chances in this answer, of the same shape; None where it is exact."""
        return None if self.runs is None else two_errors(chance, self.runs)


def two_errors(chance: Floats | float, runs: int) -> Floats:
    """Two standard errors of chances that are told by so many runs."""
    chance = np.asarray(chance, dtype=np.float64)
    errors: Floats = 2 * np.sqrt(np.clip(chance * (1 - chance), 0.0, None) / (runs * PLAYS_A_RUN))
    return errors


@dataclass(frozen=True)
class Comparison:
    """Every route's result, in the plan's order, and the id of the cheapest that reaches the goal."""

    routes: tuple[RouteResult, ...]
    cheapest: str | None = field(default=None)
