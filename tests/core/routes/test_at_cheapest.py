"""What the cheapest count gives beside the counts as drawn is what a route drawn with it gives."""

from __future__ import annotations

from pathlib import Path

import msgspec
import numpy as np
import pytest

from core.plan.model import Plan, Route, Scale
from core.plan.read import load_plan
from core.plan.scale import scale_of
from core.routes.evaluate import evaluate_route
from core.routes.result import RouteResult

PLAN = load_plan(Path(__file__).parents[3] / "assets" / "samples" / "amel-lavender.plan.json")
FEW = msgspec.structs.replace(PLAN, simulation=msgspec.structs.replace(PLAN.simulation, runs=500))


def at_count(route: Route, count: int) -> Route:
    """The route drawn with this count, and no other tried."""
    scale = scale_of(route)
    assert scale is not None
    groups = tuple(msgspec.structs.replace(g, count=count) if g.id in scale.groups else g for g in route.groups)
    return msgspec.structs.replace(route, groups=groups, scale=Scale(groups=scale.groups, counts=(count,)))


@pytest.mark.parametrize("route", FEW.routes, ids=lambda route: route.id)
def test_the_cheapest_count_is_answered_as_if_it_were_drawn(route: Route) -> None:
    beside, alone = _both(FEW, route)
    if beside is None or alone is None:
        return
    assert beside.chance_by_season == pytest.approx(alone.chance_by_season, abs=1e-9)
    assert beside.paid_by_season == pytest.approx(alone.paid_by_season, rel=1e-9)
    assert (beside.up_front, beside.young, beside.surplus) == pytest.approx(
        (alone.up_front, alone.young, alone.surplus), rel=1e-9
    )
    assert beside.to_goal is not None
    assert alone.to_goal is not None
    assert (beside.to_goal.season, beside.to_goal.eggs) == (alone.to_goal.season, alone.to_goal.eggs)
    # One money lattice serves all counts: sums are told to its step, which the most animals make the coarsest.
    assert beside.to_goal.money == pytest.approx(alone.to_goal.money, rel=2e-3)
    assert np.all(np.diff(beside.budget_curve.chance) >= 0)


def test_some_route_of_the_sample_is_cheapest_at_another_count() -> None:
    assert any(_both(FEW, route)[0] is not None for route in FEW.routes)


def _both(plan: Plan, route: Route) -> tuple[RouteResult | None, RouteResult | None]:
    result = evaluate_route(plan, route)
    if result.at_cheapest is None:
        return None, None
    assert result.to_goal is not None
    assert result.to_goal.count is not None
    return result.at_cheapest, evaluate_route(plan, at_count(route, result.to_goal.count))
