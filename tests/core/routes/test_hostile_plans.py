"""Plans that are valid and mean harm: found by the fuzzer, once a matter of minutes and many GB."""

from __future__ import annotations

import tracemalloc
from itertools import islice

import msgspec
import pytest

from core.plan.model import Held, Plan, Route
from core.plan.read import load_plan
from core.routes.evaluate import evaluate_route, evaluate_steps
from core.routes.exact.limits import OutOfReach
from core.routes.exact.ordered import OrderedRoute
from core.routes.exact.reach import workshop
from core.routes.prepare import prepare
from desktop.plan_files import SAMPLE


def plan_of(seasons: int) -> Plan:
    plan = load_plan(SAMPLE)
    goal = msgspec.structs.replace(plan.goal, seasons=seasons)
    return msgspec.structs.replace(plan, goal=goal, simulation=msgspec.structs.replace(plan.simulation, runs=100))


def with_counts(plan: Plan, name: str, **counts: int) -> Route:
    route = next(one for one in plan.routes if one.id == name)
    groups = tuple(
        msgspec.structs.replace(one, count=counts.get("held" if isinstance(one, Held) else one.sex, one.count))
        for one in route.groups
    )
    return msgspec.structs.replace(route, groups=groups, scale=None)


@pytest.mark.parametrize(
    ("name", "counts"),
    [
        ("double-hets", {"male": 300, "female": 300}),
        ("from-visuals", {"held": 300}),
        ("daughters-back", {"female": 40, "held": 40}),
    ],
)
def test_what_is_too_much_for_an_exact_answer_is_played(name: str, counts: dict[str, int]) -> None:
    plan = plan_of(20)
    result = evaluate_route(plan, with_counts(plan, name, **counts))
    assert result.method == "simulated"
    assert 0 < result.chance_by_season[-1] <= 1


def test_many_young_for_rows_that_overlap_are_played() -> None:
    # Found by long use: such rows are followed egg by egg, which held the worker, and the closing window, for minutes.
    plan = plan_of(6)
    one = plan.goal.want[0]
    rows = [msgspec.structs.replace(one, sex=sex) for sex in ("male", "female", "female", "female")]
    many = msgspec.structs.replace(one, sex="any", count=40)
    plan = msgspec.structs.replace(plan, goal=msgspec.structs.replace(plan.goal, want=(*rows, many)))
    assert evaluate_route(plan, with_counts(plan, "double-hets")).method == "simulated"


def test_rows_that_overlap_are_not_followed_in_many_ways_for_minutes() -> None:
    """Few numbers at every egg, but a hundred thousand eggs over all that hidden founders may be."""
    plan = plan_of(30)
    rows = tuple(msgspec.structs.replace(plan.goal.want[0], sex=sex) for sex in ("male", "female", "any"))
    plan = msgspec.structs.replace(plan, goal=msgspec.structs.replace(plan.goal, want=rows))
    route = with_counts(plan, "double-hets", male=1, female=3)
    carries = {"amel": {"a/+": 0.5, "+/+": 0.5}, "lav": "l/+"}
    groups = tuple(msgspec.structs.replace(group, carries=carries) for group in route.groups)
    problem = prepare(plan, msgspec.structs.replace(route, groups=groups))
    with pytest.raises(OutOfReach, match="egg"):
        OrderedRoute(problem, workshop(problem))


@pytest.mark.parametrize(
    ("name", "counts"),
    [
        ("daughters-back", {"male": 8, "held": 3}),
        ("from-visuals", {"male": 8, "held": 8}),
        ("double-hets", {"male": 8, "female": 100}),
    ],
)
def test_what_is_large_goes_in_pieces_that_fit(name: str, counts: dict[str, int]) -> None:
    plan = plan_of(20)
    steps = evaluate_steps(plan, with_counts(plan, name, **counts))
    tracemalloc.start()
    try:
        for _ in islice(steps, 40):
            pass
        peak = tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()
        steps.close()
    assert peak < 400 * 2**20


def test_sons_and_daughters_where_nothing_hatches() -> None:
    """Found by the fuzzer: shares of young that there are none of."""
    plan = plan_of(20)
    species = msgspec.structs.replace(plan.species, hatches=0, reaches_breeding=0)
    route = with_counts(plan, "from-visuals", female=8, held=8)
    groups = tuple(msgspec.structs.replace(one, count=3) if one.id == "sons" else one for one in route.groups)
    plan = msgspec.structs.replace(plan, species=species)
    result = evaluate_route(plan, msgspec.structs.replace(route, groups=groups))
    assert not result.chance_by_season.any()
    assert result.young == 0
