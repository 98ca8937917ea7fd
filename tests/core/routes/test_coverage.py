"""Standard errors say how far off a played answer is: in 95 of 100 plays the truth lies within 1.96 of them."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from msgspec import structs
from scipy.stats import binom
from test_outside_values import BOTH, TWO, het, plan_of

from core.plan.model import Plan, Simulation
from core.plan.read import load_plan, read_plan
from core.progress import finished
from core.routes.answer import Answer
from core.routes.evaluate import evaluate_route
from core.routes.prepare import prepare
from core.routes.problem import Problem
from core.routes.result import PLAYS_A_RUN
from core.routes.simulated import simulated_counts, standard_errors

SAMPLES = Path(__file__).parents[3] / "assets" / "samples"
SEEDS = range(2000)
RUNS = 100


def played(problem: Problem, seed: int) -> Answer:
    """The engine of played routes, also where the route could be answered exactly."""
    plan = structs.replace(problem.plan, simulation=Simulation(runs=RUNS, seed=seed))
    steps = simulated_counts([replace(problem, plan=plan)], 0)
    return finished(steps)[0][0]


def told(**species: Any) -> Plan:
    """Two eggs or many: chances from .02 to .98 over the seasons."""
    maybe = het("a") | {"b": {"b/+": "9/10", "+/+": "1/10"}}
    return read_plan(json.dumps(plan_of(TWO, het("a", "b"), maybe, BOTH, **species)).encode())


@pytest.fixture(scope="module")
def coverage() -> tuple[Any, Any]:
    """The exact chances, and per chance the share of seeds whose interval covers it."""
    exact, covered = [], []
    for plan in (told(eggs=1, seasons=2, fertile=0.4), told(eggs=4, dams=2, seasons=6)):
        chances = evaluate_route(plan, plan.routes[0]).chance_by_season
        problem = prepare(plan, plan.routes[0])
        answers = [played(problem, seed) for seed in SEEDS]
        off = np.abs(np.array([answer.chance for answer in answers]) - chances)
        exact.append(chances)
        covered.append((off <= 1.96 * np.array([answer.se for answer in answers])).mean(axis=0))
    return np.concatenate(exact), np.concatenate(covered)


def test_intervals_cover_the_truth(coverage: tuple[Any, Any]) -> None:
    exact, covered = coverage
    asked = (exact >= 0.02) & (exact <= 0.98)
    assert asked.sum() >= 6
    assert covered[asked] == pytest.approx(0.95, abs=0.02)


def test_default_runs_tell_80_percent_to_15_in_10000() -> None:
    plan = told()
    assert plan.simulation.runs == 20_000
    assert standard_errors(np.array([0.8]), plan.simulation.runs * PLAYS_A_RUN)[0] <= 0.0015


def test_a_chance_is_as_sure_in_every_chart_as_by_season() -> None:
    plan = load_plan(SAMPLES / "gecko-three-generations.plan.json")
    result = evaluate_route(plan, next(one for one in plan.routes if one.id == "three-gens"))
    assert result.chance_by_season_se is not None
    assert result.noise(result.chance_by_season) == pytest.approx(2 * result.chance_by_season_se, abs=2e-4)


@pytest.mark.parametrize("plays", [400, 20_000])
def test_intervals_cover_rare_and_nearly_sure_events(plays: int) -> None:
    """Also where none or all of the plays reach the goal: no chance is told as certain."""
    hits = np.arange(plays + 1)
    told = hits / plays
    errors = standard_errors(told, plays)
    rare = np.geomspace(0.01, 0.02 * plays, 300) / plays
    for chance in (*rare, *(1 - rare)):
        near = np.abs(told - chance) <= 1.96 * errors
        assert binom.pmf(hits[near], plays, chance).sum() >= 0.93
    assert errors[0] > 0
    assert errors[-1] > 0
