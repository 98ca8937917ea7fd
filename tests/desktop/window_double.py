"""Stands in for the evaluation: figures of the sample plan, rounded, from a long simulation of it."""

from __future__ import annotations

from collections.abc import Generator

import numpy as np

from core.plan.model import Plan, Route
from core.routes.result import PLAYS_A_RUN, BudgetCurve, MoneyCurve, RouteResult, ToGoal
from desktop.evaluation import Engine

# Per route: chance by season, expected total paid by season, money steps, egg chance per egg, eggs to the goal.
_FIGURES: dict[str, tuple[list[float], list[float], list[tuple[float, float]], float, int | None, float, float]] = {
    "double-hets": (
        [0.344, 0.555, 0.689, 0.777, 0.833, 0.869, 0.893],
        [970.7, 1120.1, 1219.7, 1287.9, 1335.9, 1370.6, 1397.2],
        [(919, 0.01), (968, 0.09), (997, 0.223), (1215, 0.446), (1500, 0.67), (1889, 0.803), (2573, 0.893)],
        0.0216, 79, 905, 35.7,
    ),
    "visual-sire": (
        [0.541, 0.767, 0.862, 0.903, 0.923, 0.932, 0.937],
        [1150.6, 1253.6, 1303.8, 1331.8, 1350.5, 1364.7, 1377.0],
        [(1095, 0.01), (1135, 0.097), (1162, 0.238), (1191, 0.468), (1413, 0.703), (1556, 0.803), (2676, 0.937)],
        0.0432, 39, 1085, 23.1,
    ),
    "finished-sire": (
        [0.676, 0.783, 0.804, 0.81, 0.811, 0.812, 0.812],
        [1350.6, 1422.1, 1468.8, 1510.4, 1550.7, 1590.8, 1630.7],
        [(1295, 0.01), (1327, 0.084), (1345, 0.205), (1372, 0.414), (1394, 0.61), (1566, 0.731), (2100, 0.803),
         (2683, 0.812)],
        0.115, 44, 1285, 26.6,
    ),
    "daughters-back": (
        [0.0, 0.0, 0.0, 0.351, 0.503, 0.579, 0.62],
        [690.7, 841.6, 992.4, 1267.5, 1422.0, 1526.5, 1607.1],
        [(962, 0.01), (1210, 0.062), (1392, 0.156), (1521, 0.311), (1785, 0.465), (2050, 0.558), (3039, 0.62)],
        0.016, None, 625, 49.5,
    ),
    "from-visuals": (
        [0.0, 0.0, 0.0, 0.287, 0.4445, 0.536, 0.592],
        [592.9, 714.2, 856.2, 1087.3, 1220.7, 1301.5, 1352.6],
        [(873, 0.01), (1259, 0.06), (1344, 0.148), (1443, 0.296), (1790, 0.444), (2123, 0.533), (2704, 0.592)],
        0.021, None, 560, 29.0,
    ),
    "breed-then-buy": (
        [0.1925, 0.34, 0.453, 1.0, 1.0, 1.0, 1.0],
        [653.0, 767.5, 860.4, 1751.5, 1751.5, 1751.5, 1751.5],
        [(630, 0.01), (667, 0.1), (808, 0.25), (2469, 0.453), (2564, 0.749), (2600, 0.9), (2683, 1.0)],
        0.0215, None, 620, 16.4,
    ),
    "outright": ([1.0] * 7, [1900.0] * 7, [(1900, 1.0)], 0.0, None, 1900, 0.0),
}  # fmt: skip
_SIMULATED = {"daughters-back", "from-visuals"}
RUNS = 20000


def engine() -> Engine:
    """The double behind the same question."""
    return route_steps


def route_steps(plan: Plan, route: Route) -> Generator[float, None, RouteResult]:
    """The whole route in one step."""
    yield 0.0
    return evaluate_route(plan, route)


def evaluate_route(plan: Plan, route: Route) -> RouteResult:
    """Figures by the route's id; a route of any other id gets those of the first."""
    figures = _FIGURES.get(route.id, _FIGURES["double-hets"])
    season_chance = np.array(figures[0])[: plan.goal.seasons]
    money, chance = (np.array(column, dtype=np.float64) for column in zip(*figures[2], strict=True))
    to_goal = _to_goal(route, season_chance, money, chance, figures[4])
    simulated = route.id in _SIMULATED
    return RouteResult(
        id=route.id,
        chance_by_season=season_chance,
        chance_by_eggs=_by_eggs(figures[3], float(season_chance[-1]), route),
        chance_by_money=MoneyCurve(money, chance),
        paid_by_season=np.array(figures[1]),
        up_front=figures[5],
        sales_by_season=np.zeros(len(figures[0])),
        young=figures[6] + 1,
        surplus=figures[6],
        peak_animals=3.0,
        peak_young=14.0,
        per_egg={},
        inbreeding={},
        budget_curve=BudgetCurve(money, chance, np.full(money.size, 2)),
        to_goal=to_goal,
        as_drawn=to_goal,
        to_goal_by_season=(to_goal,) * plan.goal.seasons,
        chance_at_budget=float(max((c for m, c in figures[2] if m <= (plan.goal.budget or 0)), default=0.0)),
        method="simulated" if simulated else "exact",
        runs=RUNS if simulated else None,
        seed=1 if simulated else None,
        chance_by_season_se=np.sqrt(season_chance * (1 - season_chance) / (RUNS * PLAYS_A_RUN)) if simulated else None,
    )


def _to_goal(
    route: Route, seasons: np.ndarray, money: np.ndarray, chance: np.ndarray, eggs: int | None
) -> ToGoal | None:
    if chance[-1] < 0.8 or seasons[-1] < 0.8:
        return None
    at = int(np.argmax(chance >= 0.8))
    season = int(np.argmax(seasons >= 0.8)) + 1
    return ToGoal(2 if route.groups else None, float(money[at]), season, eggs, float(chance[at]))


def _by_eggs(per_egg: float, most: float, route: Route) -> np.ndarray:
    if not per_egg:
        return np.zeros(1)
    late = 30.0 if route.id in _SIMULATED else 0.0
    eggs = np.maximum(np.arange(0, 260, dtype=np.float64) - late, 0)
    return most * (1 - (1 - per_egg / most) ** eggs)
