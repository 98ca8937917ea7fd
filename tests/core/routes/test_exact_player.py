"""The engine against the reference's plays, on random plans too large to take every way."""

from __future__ import annotations

import json
import math
import os
from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from test_exact_enumeration import FIXED, played_again

from core.plan.read import read_plan
from core.routes.evaluate import evaluate_route
from core.routes.result import PLAYS_A_RUN, RouteResult
from core.routes.simulation.played import Played
from tests.reference import derived, kinship
from tests.reference.plans import plans
from tests.reference.player import play_many
from tests.reference.results import Result

EXAMPLES = int(os.environ.get("PAIRWRIGHT_EXAMPLES", "22"))
PLAYS = int(os.environ.get("PAIRWRIGHT_PLAYS", "250"))
FAR = 4.5

Json = dict[str, Any]


def faults(ours: RouteResult, theirs: Result, played: Played) -> Iterator[str]:
    """What lies further than 4.5 standard errors apart; `played`: many more plays, for the spread of single ones."""
    runs = theirs.runs or 1
    own = len(played.met_season) if ours.method == "simulated" else math.inf
    yield from _chances("season", ours.chance_by_season.tolist(), theirs.chance_by_season(), runs, own)
    length = max(len(ours.chance_by_eggs), theirs.most_eggs + 1)
    our_eggs, their_eggs = _extended(ours.chance_by_eggs.tolist(), length), _extended(theirs.chance_by_eggs(), length)
    yield from _chances("eggs", our_eggs, their_eggs, runs, own)
    if ours.method == "exact" and len(ours.chance_by_eggs) - 1 < theirs.most_eggs:
        yield f"{theirs.most_eggs} eggs were laid, the curve ends at {len(ours.chance_by_eggs) - 1}"
    yield from _money(ours, theirs, runs, own)
    for name, each in (("paid", played.paid), ("sales", played.sales)):
        yield from _means(
            name, getattr(ours, f"{name}_by_season"), theirs.running(name), theirs.spread[name], each, own
        )
    for name, several in (("young", played.young.sum(axis=1)), ("surplus", played.surplus)):
        mean = [getattr(ours, name)]
        yield from _means(name, mean, theirs.running(name)[-1:], theirs.spread[name][-1:], several[:, None], own)
    if abs(ours.up_front - float(theirs.up_front)) > 1e-9:
        yield f"up_front: {ours.up_front}, expected {float(theirs.up_front)}"


def _extended(curve: Sequence[Any], length: int) -> list[float]:
    return [float(c) for c in curve] + [float(curve[-1])] * (length - len(curve))


def _error(chance: float, runs: float, own: float) -> float:
    return FAR * math.sqrt(max(chance * (1 - chance), 0.0) * (1 / runs + 1 / own)) + 5 / runs


def _chances(name: str, ours: Sequence[Any], theirs: Sequence[Any], runs: float, own: float) -> Iterator[str]:
    for place, (one, other) in enumerate(zip(ours, theirs, strict=True)):
        if abs(one - float(other)) > _error(one, runs, own):
            yield f"chance by {name} [{place}]: {one}, played {float(other)}"


def _money(ours: RouteResult, theirs: Result, runs: float, own: float) -> Iterator[str]:
    money, chance = ours.chance_by_money.money, ours.chance_by_money.chance
    step = 0.001 * float(money[-1])
    steps = theirs.money()
    for x in [float(x) for x, _ in steps[:: max(1, len(steps) // 12)]]:
        played = float(theirs.chance_with(x + 1e-9))
        sooner, later = (_value(money, chance, at) for at in (x - step, x + step))
        if sooner > played + _error(sooner, runs, own) or later < played - _error(later, runs, own):
            yield f"chance with {x}: {sooner} to {later}, played {played}"


def _value(money: Any, chance: Any, x: float) -> float:
    place = int(np.searchsorted(money, x + 1e-9 * abs(x) + 1e-9, "right"))
    return float(chance[place - 1]) if place else 0.0


def _means(
    name: str, ours: Sequence[Any], theirs: Sequence[Any], spread: Sequence[float], each: Any, own: float
) -> Iterator[str]:
    """Spreads are known from few plays and from many; the larger one counts, and what is too rare to be seen."""
    for place, (one, other, error) in enumerate(zip(ours, theirs, spread, strict=True)):
        column = each[:, place]
        several = float(np.std(column)) * math.sqrt(1 / PLAYS + 1 / own)
        rare = 5 * (float(column.max()) - float(column.min())) / PLAYS
        if abs(one - float(other)) > FAR * max(error, several) + rare + 1e-6 * max(1.0, abs(one)):
            yield f"{name} [{place}]: {one}, played {float(other)} +- {error}"


def compared(plan: Json) -> list[str]:
    read = read_plan(json.dumps(plan).encode())
    wrong = []
    for told, route in zip(plan["routes"], read.routes, strict=True):
        ours = evaluate_route(read, route)
        theirs = play_many(plan, told, PLAYS, seed=5)
        wrong += list(faults(ours, theirs, played_again(read, route)))
        for name, expected in (
            ("per_egg", derived.per_egg(plan, told)),
            ("inbreeding", kinship.inbreeding(plan, told)),
        ):
            floats = {key: None if value is None else float(value) for key, value in expected.items()}
            if getattr(ours, name) != pytest.approx(floats, abs=1e-9):
                wrong.append(f"{name}: {getattr(ours, name)}, expected {floats}")
    return wrong


@settings(FIXED, max_examples=EXAMPLES)
@given(plans())
def test_plays_of_any_plan(plan: Json) -> None:
    wrong = compared(plan | {"simulation": {"runs": 4000 // PLAYS_A_RUN, "seed": 1}})
    assert not wrong, "\n".join(wrong)


@settings(FIXED, max_examples=EXAMPLES // 2)
@given(plans(generations=1, hidden=False, animals=False))
def test_plays_of_plans_with_known_founders(plan: Json) -> None:
    wrong = compared(plan | {"simulation": {"runs": 4000 // PLAYS_A_RUN, "seed": 1}})
    assert not wrong, "\n".join(wrong)
