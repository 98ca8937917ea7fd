"""The sample plan against an independent event-by-event reference, as the note in its file says to compare."""

from __future__ import annotations

import json
import math
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from core.plan.model import Plan
from core.plan.read import load_plan
from core.progress import finished
from core.routes.evaluate import evaluate
from core.routes.prepare import prepare
from core.routes.result import Comparison
from core.routes.simulation.play import play_route
from core.routes.simulation.played import Played

DATA = Path(__file__).parents[2] / "data"
EXPECTED: list[dict[str, Any]] = json.loads((DATA / "amel-lavender.expected.json").read_text("utf-8"))["routes"]
ROUTES = [route["id"] for route in EXPECTED]
# Standard errors between the two; expectations have theirs from plays, which know them to a few parts in a hundred.
FAR = 4.5
PLAYS = 20_000


@pytest.fixture(scope="module")
def sample() -> Plan:
    return load_plan(DATA / "amel-lavender.plan.json")


@pytest.fixture(scope="module")
def comparison(sample: Plan) -> Comparison:
    return evaluate(sample)


@pytest.fixture(scope="module")
def plays(sample: Plan) -> list[Played]:
    return [_played(sample, place) for place in range(len(sample.routes))]


def _played(plan: Plan, place: int) -> Played:
    steps = play_route(prepare(plan, plan.routes[place]), PLAYS, np.random.default_rng(3))
    return finished(steps)


def near(ours: float, other: float, runs: int, own_error: float = 0.0) -> bool:
    """Whether two estimates of a chance agree."""
    return abs(ours - other) <= FAR * math.hypot(math.sqrt(other * (1 - other) / runs), own_error) + 5 / runs


def last_held(curve: Sequence[float], length: int) -> list[float]:
    """The curve at least this long: it goes on as it ends."""
    return [*curve, *[curve[-1]] * (length - len(curve))]


def test_all_routes_are_there(comparison: Comparison) -> None:
    assert [route.id for route in comparison.routes] == ROUTES


@pytest.mark.parametrize("place", range(len(ROUTES)), ids=ROUTES)
def test_chances_by_season_eggs_and_money(comparison: Comparison, place: int) -> None:
    ours, other = comparison.routes[place], EXPECTED[place]
    runs = other["runs"]
    errors = ours.chance_by_season_se if ours.chance_by_season_se is not None else np.zeros(len(ours.chance_by_season))
    own = float(max(errors))
    assert len(ours.chance_by_season) == len(other["chance_by_season"])
    pairs = zip(ours.chance_by_season, other["chance_by_season"], errors, strict=True)
    assert all(near(one, two, runs, error) for one, two, error in pairs)
    length = max(len(ours.chance_by_eggs), len(other["chance_by_eggs"]))
    by_eggs = (last_held(curve, length) for curve in (ours.chance_by_eggs.tolist(), other["chance_by_eggs"]))
    assert all(near(one, two, runs, own) for one, two in zip(*by_eggs, strict=True))
    curve = ours.chance_by_money
    step = 0.001 * float(curve.money[-1])
    for x, chance in other["chance_by_money"]:
        sooner, later = (_value(curve.money, curve.chance, at) for at in (x - step, x + step))
        assert sooner <= chance or near(sooner, chance, runs, own)
        assert later >= chance or near(later, chance, runs, own)


def _value(money: Any, chance: Any, x: float) -> float:
    place = int(np.searchsorted(money, x, "right"))
    return float(chance[place - 1]) if place else 0.0


@pytest.mark.parametrize("place", range(len(ROUTES)), ids=ROUTES)
def test_expectations(comparison: Comparison, plays: list[Played], place: int) -> None:
    ours, other, played = comparison.routes[place], EXPECTED[place], plays[place]
    # The reference sold each young for what it was; these plays for what it can be expected to be: a smaller spread.
    sums: list[tuple[Any, list[float], Any, float]] = [
        (ours.paid_by_season, other["paid_by_season"], played.paid, 1.1),
        (ours.sales_by_season, other["sales_by_season"], played.sales, 1.5),
        ([ours.young], [other["young"]], played.young.sum(axis=1, keepdims=True), 1.1),
        ([ours.surplus], [other["surplus"]], played.surplus[:, None], 1.1),
    ]
    for means, others, each, more in sums:
        allowed = _allowed(each, other["runs"], played=ours.method == "simulated")
        for mean, one, most in zip(means, others, more * allowed, strict=True):
            assert abs(mean - one) <= most + 1e-6 * abs(one)
    eggs = played.eggs.sum(axis=1, keepdims=True)
    assert abs(float(eggs.mean()) - other["eggs"]) <= 1.1 * _allowed(eggs, other["runs"], played=True)[0] + 1e-9


def _allowed(each: Any, runs: int, *, played: bool) -> Any:
    return FAR * np.std(each, axis=0) * math.sqrt(1 / runs + (1 / PLAYS if played else 0))


@pytest.mark.parametrize("place", range(len(ROUTES)), ids=ROUTES)
def test_up_front_and_peaks(comparison: Comparison, plays: list[Played], place: int) -> None:
    ours, other, played = comparison.routes[place], EXPECTED[place], plays[place]
    assert ours.up_front == pytest.approx(other["up_front"], abs=1e-9)
    for name, each in (("peak_animals", played.present), ("peak_young", played.young)):
        if not played.reached.any():
            assert getattr(ours, name) == other[name] == 0
            continue
        # A maximum of means: off by no more than the mean of the season that is told worst.
        often = played.reached.mean(axis=0) >= 0.05
        spreads = [
            np.std(each[played.reached[:, season], season]) / math.sqrt(max(share * other["runs"], 1))
            for season, share in enumerate(played.reached.mean(axis=0))
            if often[season]
        ]
        assert abs(getattr(ours, name) - other[name]) <= FAR * 1.5 * max(spreads) + 1e-9
