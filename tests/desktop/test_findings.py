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
from desktop.evaluation import RouteAnswer, core_engine, evaluation_steps
from desktop.findings import as_drawn, findings, honest_chance, verdict
from desktop.plan_files import SAMPLE, SAMPLES
from desktop.words.answer import answer
from desktop.words.editing_answer import lead
from desktop.words.new_route import beside
from desktop.words.numbers import PLAIN, PlainNumbers, percent


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


def test_what_no_play_reached_with_the_budget_is_not_impossible_for_that() -> None:
    plan = load_plan(SAMPLE)
    route, result = played(0.0, 0.0)
    curve = replace(result.chance_by_money, chance=np.zeros_like(result.chance_by_money.chance))
    for budget, said in ((1800, "< 1 %"), (result.up_front - 1, "0 %")):
        goal = msgspec.structs.replace(plan.goal, budget=budget)
        tried = RouteAnswer(route.id, *(replace(result, chance_by_money=curve),) * 2)
        (one,) = findings(msgspec.structs.replace(plan, goal=goal, routes=(route,)), {route.id: tried})
        assert one.at_budget is not None
        assert percent(one.at_budget, PLAIN) == said


def test_what_is_certain_has_no_noise() -> None:
    plan = load_plan(SAMPLE)
    route, result = played(0.4, 1.0)
    noisy = replace(result, chance_by_season_se=np.array([0.01, 0.0001]))
    for buys, noise in ((2, None), (None, 0.0002)):
        whole = msgspec.structs.replace(plan, routes=(msgspec.structs.replace(route, buy_outright=buys),))
        (one,) = findings(whole, {route.id: RouteAnswer(route.id, noisy, noisy)})
        assert one.noise == noise


def test_out_of_reach_the_figures_are_of_the_count_that_comes_closest() -> None:
    plan = load_plan(SAMPLES / "corn-linked.plan.json")
    plan = msgspec.structs.replace(plan, routes=tuple(one for one in plan.routes if one.id == "apart"))
    answers = {step.id: step for step in evaluation_steps(plan, core_engine()) if isinstance(step, RouteAnswer)}
    found = findings(plan, answers)
    (one,) = found
    assert one.to_goal is None
    assert one.drawn is not None
    assert one.chance == pytest.approx(float(one.drawn.budget_curve.chance[-1]), abs=0.005)
    assert (one.males, one.females) == (1, 4)
    drawn = as_drawn(plan, one)
    assert (drawn.males, drawn.females) == (1, 2)
    assert drawn.chance < one.chance - 0.1
    decided = verdict(found, complete=True)
    assert "With 1.4 it would reach 44 %." in lead(plan, drawn, one, decided, PLAIN)
    assert "With 1.4 it comes closest: 44 %." in beside(drawn, one, decided, PLAIN)
    said = answer(plan, found, decided, PLAIN)
    assert f"comes closest, with 1.4 (one male, four females): {said.share} of 100 people by season 6." in said.lead
