"""What was worked out a moment ago and is told again at other prices is what a new evaluation says."""

from __future__ import annotations

import json
import os
from collections.abc import Callable
from dataclasses import fields

import msgspec
import numpy as np
import pytest
from hypothesis import given, settings

from core.plan.model import Bought, Owned, Plan
from core.plan.read import read_plan
from core.progress import finished
from core.routes import evaluate
from core.routes.evaluate import evaluate_steps
from core.routes.exact.recent import Recent
from core.routes.result import BudgetCurve, MoneyCurve, RouteResult, ToGoal
from tests.bench.plans import eight_routes
from tests.reference.plans import plans

EXAMPLES = int(os.environ.get("PAIRWRIGHT_EXAMPLES", "5"))
replace = msgspec.structs.replace


def dearer(plan: Plan) -> Plan:
    """Every price that is paid whatever hatches, changed."""

    def group(one: object) -> object:
        return replace(one, price=one.price * 2 + 5) if isinstance(one, Bought | Owned) else one

    routes = tuple(replace(one, setup=one.setup + 7, groups=tuple(map(group, one.groups))) for one in plan.routes)
    return replace(plan, costs=replace(plan.costs, setup=plan.costs.setup + 30), routes=routes)


def another_goal(plan: Plan) -> Plan:
    """Another chance, budget and price of the finished animal; other names."""
    goal = replace(plan.goal, chance=0.35, budget=900, outright_price=777)
    return replace(plan, title="Other", goal=goal, routes=tuple(replace(one, name="Other") for one in plan.routes))


def laying_less(plan: Plan) -> Plan:
    """Something that changes what is bred."""
    return replace(plan, species=replace(plan.species, lays=0.5))


def keep_dearer(plan: Plan) -> Plan:
    """Keep, which held animals cost for as long as they are there."""
    costs = replace(plan.costs, keep_adult=plan.costs.keep_adult + 11, keep_young=plan.costs.keep_young + 3)
    return replace(plan, costs=costs)


CHANGES = (dearer, another_goal, laying_less, keep_dearer)


def same(one: object, other: object) -> bool:
    """Whether two answers are the same to rounding, curves included."""
    if isinstance(one, RouteResult | MoneyCurve | BudgetCurve | ToGoal):
        return all(same(getattr(one, field.name), getattr(other, field.name)) for field in fields(one))
    if isinstance(one, np.ndarray):
        return (
            isinstance(other, np.ndarray) and one.shape == other.shape and bool(np.allclose(one, other, 1e-12, 1e-12))
        )
    if isinstance(one, tuple):
        return isinstance(other, tuple) and all(map(same, one, other))
    return one == (pytest.approx(other, rel=1e-12) if isinstance(one, float) else other)


def told(plan: Plan, recent: Recent | None) -> list[RouteResult]:
    return [finished(evaluate_steps(plan, route, recent=recent)) for route in plan.routes]


@pytest.mark.parametrize("change", CHANGES)
def test_routes_of_every_kind(change: Callable[[Plan], Plan]) -> None:
    plan, recent = eight_routes()[0][0], Recent()
    told(plan, recent)
    assert all(map(same, told(change(plan), recent), told(change(plan), None)))


@settings(max_examples=EXAMPLES, deadline=None)
@given(plans().map(lambda plan: read_plan(json.dumps(plan).encode())))
def test_any_plan(plan: Plan) -> None:
    recent = Recent()
    quick = replace(plan, simulation=replace(plan.simulation, runs=20))
    for one in (quick, *(change(quick) for change in CHANGES)):
        assert all(map(same, told(one, recent), told(one, None)))


def test_other_prices_take_no_new_work(monkeypatch: pytest.MonkeyPatch) -> None:
    plan, recent = eight_routes()[0][0], Recent()
    told(plan, recent)
    monkeypatch.setattr(evaluate, "exact_routes", None)
    told(dearer(plan), recent)
    told(another_goal(plan), recent)
    with pytest.raises(TypeError):
        told(laying_less(plan), recent)


def test_it_forgets_what_was_long_ago(monkeypatch: pytest.MonkeyPatch) -> None:
    plan, recent = eight_routes()[0][0], Recent()
    route = plan.routes[0]
    for number in range(13):
        told(replace(plan, routes=(replace(route, id=f"r{number}"),)), recent)
    monkeypatch.setattr(evaluate, "exact_routes", None)
    told(replace(plan, routes=(replace(route, id="r1"),)), recent)
    with pytest.raises(TypeError):
        told(replace(plan, routes=(replace(route, id="r0"),)), recent)


def test_it_forgets_what_a_plan_no_longer_has() -> None:
    plan, recent = eight_routes()[0][0], Recent()
    told(plan, recent)
    first, *rest = (route for route in plan.routes if recent.has(route))
    recent.forget_gone(replace(plan, routes=tuple(rest)))
    assert not recent.has(first)
    assert all(map(recent.has, rest))
