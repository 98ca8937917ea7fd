"""What a simulated answer may say: what came out in every play is not certain for that."""

from __future__ import annotations

from dataclasses import replace

import msgspec
import numpy as np
import pytest

from core.plan.model import Route
from core.plan.read import load_plan
from core.routes.evaluate import evaluate_route
from core.routes.result import RouteResult
from desktop.findings import honest_chance
from desktop.plan_files import SAMPLE
from desktop.words.numbers import PlainNumbers, percent


def played(*chances: float) -> tuple[Route, RouteResult]:
    plan = load_plan(SAMPLE)
    route = plan.routes[0]
    result = evaluate_route(plan, route)
    return route, replace(result, method="simulated", chance_by_season=np.array(chances))


@pytest.mark.parametrize(("chance", "said"), [(0.0, "< 1 %"), (0.5, "50 %"), (1.0, "> 99 %")])
def test_plays_are_never_certain(chance: float, said: str) -> None:
    route, result = played(chance)
    assert percent(honest_chance(route, result, 1), PlainNumbers()) == said
    exact = replace(result, method="exact")
    assert honest_chance(route, exact, 1) == chance


def test_what_is_bought_is_certain() -> None:
    route, result = played(0.4, 1.0)
    buys = msgspec.structs.replace(route, buy_outright=2)
    assert honest_chance(buys, result, 2) == 1.0
    assert honest_chance(buys, result, 1) == 0.4
