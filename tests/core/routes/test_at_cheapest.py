"""What the cheapest count, or the closest, gives beside the counts as drawn is what a route drawn with it gives."""

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
    assert (beside.to_goal is None) == (alone.to_goal is None)
    if beside.to_goal is None or alone.to_goal is None:
        return
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
    count = result.to_goal.count if result.to_goal else int(result.at_cheapest.budget_curve.count[-1])
    assert count is not None
    return result.at_cheapest, evaluate_route(plan, at_count(route, count))


def test_out_of_reach_the_count_that_comes_closest_is_answered() -> None:
    plan, route = _kept_busy()
    result = evaluate_route(plan, route)
    assert result.to_goal is None
    assert result.chance_by_season[-1] == 0
    assert result.at_cheapest is not None
    assert result.at_cheapest.chance_by_season[-1] == pytest.approx(result.budget_curve.chance[-1])
    assert result.at_cheapest.budget_curve.count.tolist() == [1] * len(result.at_cheapest.budget_curve.count)


def test_out_of_reach_no_more_animals_than_help_are_told() -> None:
    plan, route = _kept_busy()
    (pairing, *_) = route.pairings
    alone = msgspec.structs.replace(route, groups=route.groups[:2], pairings=(pairing,))
    sole = msgspec.structs.replace(plan, species=msgspec.structs.replace(plan.species, females_per_male=1))
    visual = msgspec.structs.replace(sole.goal.want[0], forms={"amel": "amel"}, count=40)
    far = msgspec.structs.replace(sole, goal=msgspec.structs.replace(sole.goal, want=(visual,)))
    fewer = evaluate_route(far, alone).at_cheapest
    assert fewer is not None
    assert set(fewer.budget_curve.count.tolist()) == {1}
    never = msgspec.structs.replace(plan, goal=msgspec.structs.replace(plan.goal, seasons=1))
    assert evaluate_route(never, route).at_cheapest is None


def _kept_busy() -> tuple[Plan, Route]:
    """One male serves as many females as he can, so that four dams leave him none of their daughters."""
    plan = msgspec.structs.replace(PLAN, goal=msgspec.structs.replace(PLAN.goal, chance=0.999))
    route = next(one for one in plan.routes if one.id == "daughters-back")
    groups = tuple(msgspec.structs.replace(g, count=4, until=None) if g.id == "dams" else g for g in route.groups)
    pairings = tuple(msgspec.structs.replace(pairing, seasons=(None, None)) for pairing in route.pairings)
    return plan, msgspec.structs.replace(route, groups=groups, pairings=pairings)
