"""Routes with more named animals than can be listed with all that they may carry together: played, not refused."""

from __future__ import annotations

import json
from typing import Any

import pytest
from test_simulate import DOUBLE_HET, LOSSES, VISUAL, bought, pairing, plan_of

from core.advice.cautions import route_cautions
from core.plan.read import read_plan
from core.routes import prepare as preparing
from core.routes.evaluate import evaluate_route
from core.routes.result import RouteResult

MAYBE = {"amel": {"a/+": "2/3", "+/+": "1/3"}}
MAYBE_LAV = {"l/+": 0.5, "+/+": 0.5}
FAR = 4.5


def evaluated(plan: dict[str, Any]) -> RouteResult:
    read = read_plan(json.dumps(plan | {"simulation": {"runs": 10_000, "seed": 3}}).encode())
    return evaluate_route(read, read.routes[0])


def of_my_own(animals: list[dict[str, Any]], females: list[str]) -> dict[str, Any]:
    group = {"id": "f", "sex": "female", "origin": "own", "animals": females, "kept_anyway": False, "price": 20}
    return plan_of(
        [bought("m", "male", DOUBLE_HET), group],
        [pairing("one", ["m"], ["f"])],
        [{"forms": VISUAL, "sex": "female", "count": 3}],
        3,
        species=LOSSES | {"clutch": {"fixed": 2}},
        my_animals=animals,
    )


def with_sisters(count: int) -> dict[str, Any]:
    parents = [{"id": "S", "sex": "male", "carries": MAYBE}, {"id": "D", "sex": "female", "carries": MAYBE}]
    sisters = [{"id": f"F{i}", "sex": "female", "sire": "S", "dam": "D"} for i in range(count)]
    return of_my_own([*parents, *sisters], [sister["id"] for sister in sisters])


def agree(played: RouteResult, exact: RouteResult) -> None:
    assert (played.method, exact.method) == ("simulated", "exact")
    errors = played.chance_by_season_se
    assert errors is not None
    for one, other, error in zip(played.chance_by_season, exact.chance_by_season, errors, strict=True):
        assert abs(one - other) <= FAR * error
    assert played.paid_by_season == pytest.approx(exact.paid_by_season, rel=0.01)
    assert played.per_egg == pytest.approx(exact.per_egg, abs=1e-12)
    assert played.up_front == pytest.approx(exact.up_front)


def test_sixteen_unrelated_animals_are_like_sixteen_bought_ones() -> None:
    animals = [{"id": f"F{i}", "sex": "female", "carries": MAYBE | {"lav": MAYBE_LAV}} for i in range(16)]
    own = of_my_own(animals, [animal["id"] for animal in animals])
    like = json.loads(json.dumps(own))
    like["routes"][0]["groups"][1] = bought("f", "female", MAYBE | {"lav": MAYBE_LAV}, count=16)
    agree(evaluated(own), evaluated(like))


def test_sisters_are_drawn_together(monkeypatch: pytest.MonkeyPatch) -> None:
    """Few enough to be listed: drawn instead of listed they give the same."""
    plan = with_sisters(4)
    listed = evaluated(plan)
    monkeypatch.setattr(preparing, "MOST_GENOTYPES", 3)
    agree(evaluated(plan), listed)


def test_many_sisters_are_not_refused() -> None:
    """A male takes four females, so that all but the first four sisters of twenty change nothing but the costs."""
    many, four = evaluated(with_sisters(20)), evaluated(with_sisters(4))
    assert (many.method, four.method) == ("simulated", "exact")
    errors = many.chance_by_season_se
    assert errors is not None
    for one, other, error in zip(many.chance_by_season, four.chance_by_season, errors, strict=True):
        assert abs(one - other) <= FAR * error


def test_cautions_are_told_of_them_too() -> None:
    plan = read_plan(json.dumps(with_sisters(20) | {"simulation": {"runs": 100, "seed": 3}}).encode())
    found = route_cautions(plan, plan.routes[0], evaluate_route(plan, plan.routes[0]))
    assert all(caution.route == "r" for caution in found)
    assert found
