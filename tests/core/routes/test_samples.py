"""Every sample plan tells a story: several named routes to an invented goal, some of which get there."""

from __future__ import annotations

from pathlib import Path

import msgspec
import pytest

from core.plan.model import Bought
from core.plan.read import load_plan
from core.routes.evaluate import evaluate, evaluate_route

SAMPLES = sorted((Path(__file__).parents[3] / "assets" / "samples").glob("*.plan.json"))


def test_there_is_a_choice_of_samples_and_the_first_stays_first() -> None:
    assert len(SAMPLES) >= 7
    assert SAMPLES[0].name == "amel-lavender.plan.json"
    assert len({load_plan(path).title for path in SAMPLES}) == len(SAMPLES)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.name.split(".")[0])
def test_sample(path: Path) -> None:
    plan = load_plan(path)
    assert "invented" in plan.notes
    assert 3 <= len(plan.routes) <= 7
    assert all(0 < len(route.name) <= 28 for route in plan.routes)
    comparison = evaluate(plan)
    reached = [route.to_goal is not None for route in comparison.routes]
    assert any(reached)
    assert not all(reached)
    assert comparison.cheapest != "outright"


def test_what_cannot_be_is_told_as_nothing_and_what_must_be_as_certain() -> None:
    plan = load_plan(SAMPLES[0])
    looks = ({"lav": "lavender"}, {"amel": "amel"})
    want = tuple(msgspec.structs.replace(plan.goal.want[0], forms=forms) for forms in looks)
    plan = msgspec.structs.replace(plan, goal=msgspec.structs.replace(plan.goal, want=want))
    route = next(one for one in plan.routes if one.id == "breed-then-buy")
    amel = [msgspec.structs.replace(g, carries={"amel": "a/a"}) if isinstance(g, Bought) else g for g in route.groups]
    result = evaluate_route(plan, msgspec.structs.replace(route, groups=tuple(amel)))
    assert result.chance_by_season.tolist() == [0.0] * 3 + [1.0] * 4
