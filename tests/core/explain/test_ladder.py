"""The ladder: every rung is the model with one more truth, worked out apart; all rungs add up."""

from __future__ import annotations

from typing import Any

import msgspec
import numpy as np
import pytest
from explain_cases import (
    BOTH,
    DOUBLE_HET,
    HALF_HET,
    back_plan,
    bought,
    chance_of,
    held,
    ladder_of,
    pair_plan,
    pairing,
    plan_of,
)

from core.explain.ladder import Ladder, told_percent
from core.explain.truths import TRUTHS, even_clutch, mean_eggs
from core.plan.model import Animal, Breeds, Clutch, Matures, Owned, Plan

RISKS: dict[str, Any] = {
    "lays": 0.8,
    "clutch_lost": 0.1,
    "fertile": 0.9,
    "hatches": 0.9,
    "breeds": {"male": 0.9, "female": "3/4"},
    "reaches_breeding": 0.9,
}
VARIED = {"counts": {"4": "1/4", "8": "3/4"}}


def species(plan: Plan, **changes: Any) -> Plan:
    return msgspec.structs.replace(plan, species=msgspec.structs.replace(plan.species, **changes))


def ends(ladder: Ladder, season: int) -> list[float]:
    return [float(rung.after[season - 1]) for rung in ladder.rungs]


def test_rungs_without_hold_backs_are_plans_with_one_more_risk() -> None:
    plan = pair_plan(DOUBLE_HET, HALF_HET, dams=3, eggs=VARIED, seasons=3, **RISKS)
    ladder = ladder_of(plan)
    bare = {"lays": 1, "clutch_lost": 0, "fertile": 1, "hatches": 1, "breeds": Breeds()}
    changes: list[dict[str, Any]] = [
        {**bare, "clutch": Clutch(fixed=7)},
        bare,
        {key: bare[key] for key in ("clutch_lost", "fertile", "hatches", "breeds")},
        {"breeds": Breeds()},
        {},
    ]
    for rung, changed in zip(ladder.rungs, changes, strict=False):
        assert rung.after == pytest.approx(chance_of(species(plan, **changed)), abs=1e-12), rung.truth
    assert ladder.textbook[-1] == pytest.approx(1 - (15 / 16) ** (3 * 7 * 3), abs=1e-12)


def test_rungs_of_a_route_that_holds_back() -> None:
    """Below "holding", the daughters are a bought group that carries what such daughters carry on average."""
    plan = back_plan(eggs=VARIED, **RISKS)
    ladder = ladder_of(plan)
    assert ladder.real == pytest.approx(chance_of(plan), abs=0)
    grown_at_once = species(plan, matures=Matures(male=1, female=1))
    assert ladder.rung("holding").after == pytest.approx(chance_of(grown_at_once), abs=1e-12)
    groups = [bought("sire", "male", 1, DOUBLE_HET), bought("dams", "female", 2, {"a": "a/a"})]
    daughters = bought("daughters", "female", 4, HALF_HET, season=2)
    pairings = [pairing("first", "sire", "dams", [1, 1]), pairing("back", "sire", "daughters")]
    full = plan_of([*groups, daughters], pairings, eggs=VARIED, seasons=5, **RISKS | {"reaches_breeding": 1})
    assert ladder.rung("breeders").after == pytest.approx(chance_of(full), abs=1e-12)
    sure = species(full, breeds=Breeds(), lays=1, clutch_lost=0, fertile=1, hatches=1, clutch=Clutch(fixed=7))
    assert ladder.rung("genotypes").after == pytest.approx(chance_of(sure), abs=1e-12)
    assert ladder.textbook[-1] == pytest.approx(1 - (15 / 16) ** (4 * 7 * 4), abs=1e-12)


def test_averages_of_held_young() -> None:
    """From the other end, a daughter is there or not, but every egg of hers meets the average (closed form)."""
    groups = [
        bought("sire", "male", 1, DOUBLE_HET),
        bought("dam", "female", 1, {"a": "a/a"}),
        held("daughter", 1, [{"a": "a-form"}]),
    ]
    pairings = [pairing("first", "sire", "dam", [1, 1]), pairing("back", "sire", "daughter", [3, 3])]
    plan = plan_of(groups, pairings, seasons=3)
    there = 1 - (3 / 4) ** 6
    ladder = ladder_of(plan, from_end=True)
    assert ladder.rungs[-1].truth == "genotypes"
    assert ladder.rungs[-1].before[-1] == pytest.approx(there * (1 - (15 / 16) ** 6), abs=1e-12)
    assert ladder.real[-1] == pytest.approx(there * (1 - (7 / 8) ** 6) / 2, abs=1e-12)


@pytest.mark.parametrize("from_end", [False, True])
def test_rungs_add_up_from_either_end(from_end: bool) -> None:
    plan = back_plan(eggs=VARIED, **RISKS)
    ladder = ladder_of(plan, from_end=from_end)
    assert [rung.truth for rung in ladder.rungs] == list(TRUTHS[::-1] if from_end else TRUTHS)
    assert all(rung.applies for rung in ladder.rungs)
    for season in range(1, 6):
        total = sum(rung.points(season) for rung in ladder.rungs)
        assert total == pytest.approx(100 * (ladder.real - ladder.textbook)[season - 1], abs=1e-9)
    before = [ladder.textbook, *(rung.after for rung in ladder.rungs)]
    assert all(np.array_equal(rung.before, start) for rung, start in zip(ladder.rungs, before, strict=False))


@pytest.mark.parametrize("mine", [False, True])
def test_siblings_share_what_their_dam_truly_is(mine: bool) -> None:
    """One possible het dam, forty eggs: none of her daughters carries it in 1/3 + 2/3 × 1/16, and places are full."""
    open_ = {"a": {"a/+": "2/3", "+/+": "1/3"}}
    groups = [
        bought("sire", "male", 1, {}),
        bought("dam", "female", 1, open_, origin="own"),
        held("daughters", 4, [{}]),
        bought("mate", "male", 1, {"a": "a/a"}),
    ]
    pairs = [pairing("first", "sire", "dam", [1, 1]), pairing("back", "mate", "daughters")]
    plan = plan_of(groups, pairs, want=[{"forms": {"a": "a-form"}}], eggs=40, seasons=2)
    if mine:
        route = plan.routes[0]
        dam = Owned(id="dam", sex="female", animals=("F",))
        drawn = msgspec.structs.replace(route, groups=(route.groups[0], dam, *route.groups[2:]))
        animals = (Animal(id="F", sex="female", carries=open_),)
        plan = msgspec.structs.replace(plan, my_animals=animals, routes=(drawn,))
    ladder = ladder_of(plan)
    right = 2 / 3 * (1 - 1 / 16)
    assert ladder.rung("genotypes").after[1] == pytest.approx(right)
    assert ladder.rung("holding").points(2) == pytest.approx(0, abs=1e-6)


def test_both_ends_meet() -> None:
    plan = back_plan(eggs=VARIED, **RISKS)
    one, other = ladder_of(plan), ladder_of(plan, from_end=True)
    assert one.textbook == pytest.approx(other.textbook, abs=0)
    assert one.real == pytest.approx(other.real, abs=0)


def test_hatch_rates_and_females_that_do_not_lay() -> None:
    """q = 1/16, hatch rate .81, 1 in 10 lays nothing: the published formula, recomputed (see the outside values)."""
    plan = pair_plan(DOUBLE_HET, DOUBLE_HET, eggs=7, hatches=0.81, lays=0.9)
    ladder = ladder_of(plan)
    assert ladder.textbook[0] == pytest.approx(1 - (15 / 16) ** 7, abs=1e-12)
    assert ladder.rung("laying").after[0] == pytest.approx(0.9 * (1 - (15 / 16) ** 7), abs=1e-12)
    assert ladder.real[0] == pytest.approx(0.274385, abs=5e-7)


def test_shared_unknown_genotypes() -> None:
    """Two animals, each 2/3 het, 7 eggs: (4/9)(1 - (3/4)^7), where averaging says 1 - (8/9)^7 (recomputed)."""
    possible = {"a": {"a/+": "2/3", "+/+": "1/3"}}
    ladder = ladder_of(pair_plan(possible, possible, eggs=7, want=[{"forms": {"a": "a-form"}}]))
    assert ladder.textbook[0] == pytest.approx(0.561538, abs=5e-7)
    assert ladder.rung("genotypes").after[0] == pytest.approx(0.385118, abs=5e-7)


def test_a_goal_of_several_rows_climbs_too() -> None:
    want = [{"forms": BOTH, "count": 2}, {"forms": {"a": "a-form", "b": "normal"}, "sex": "female"}]
    ladder = ladder_of(pair_plan(DOUBLE_HET, HALF_HET, dams=2, seasons=3, want=want, eggs=VARIED, **RISKS))
    assert 1 > ladder.textbook[-1] > ladder.real[-1] > 0


def test_buying_outright_leaves_nothing_to_climb() -> None:
    plan = pair_plan(DOUBLE_HET, DOUBLE_HET, seasons=3, **RISKS)
    goal = msgspec.structs.replace(plan.goal, outright_price=500)
    route = msgspec.structs.replace(plan.routes[0], buy_outright=3)
    ladder = ladder_of(msgspec.structs.replace(plan, goal=goal, routes=(route,)))
    assert ladder.textbook[-1] == ladder.real[-1] == 1
    assert ladder.textbook[1] > ladder.real[1]


def test_simulated_rungs_end_at_the_routes_own_figure() -> None:
    groups = [
        bought("sire", "male", 1, DOUBLE_HET),
        bought("dams", "female", 2, {"a": "a/a"}),
        held("daughters", 2, [{"a": "a-form"}]),
        held("grand", 2, [{"a": "a-form"}], source="second"),
    ]
    pairings = [
        pairing("first", "sire", "dams", [1, 1]),
        pairing("second", "sire", "daughters"),
        pairing("third", "sire", "grand"),
    ]
    plan = plan_of(groups, pairings, seasons=4, matures={"male": 1, "female": 1})
    plan = msgspec.structs.replace(plan, simulation=msgspec.structs.replace(plan.simulation, runs=100))
    for from_end in (False, True):
        ladder = ladder_of(plan, from_end=from_end)
        assert ladder.runs == 100
        assert ladder.real == pytest.approx(chance_of(plan), abs=0)


def test_ready_in_is_waiting() -> None:
    plan = pair_plan(DOUBLE_HET, DOUBLE_HET, seasons=3)
    route = plan.routes[0]
    young = tuple(msgspec.structs.replace(group, ready_in=1) for group in route.groups)
    waiting = msgspec.structs.replace(plan, routes=(msgspec.structs.replace(route, groups=young),))
    rung = ladder_of(waiting).rung("waiting")
    assert rung.before == pytest.approx(chance_of(plan), abs=1e-12)
    assert rung.after == pytest.approx(chance_of(waiting), abs=0)


@pytest.mark.parametrize(
    ("clutch", "mean", "even"),
    [
        (Clutch(fixed=6), 6.0, Clutch(fixed=6)),
        (Clutch(counts={"4": "1/4", "8": "3/4"}), 7.0, Clutch(fixed=7)),
        (Clutch(mean=6.8, sd=1.8, min=3, max=11), 6.8, Clutch(counts={"6": "2/10", "7": "8/10"})),
        (Clutch(counts={"0": 0.5, "1": 0.5}), 0.5, Clutch(counts={"0": "5/10", "1": "5/10"})),
    ],
)
def test_even_clutches(clutch: Clutch, mean: float, even: Clutch) -> None:
    assert mean_eggs(clutch) == mean
    assert even_clutch(clutch) == even


def test_told_steps_add_up_as_they_are_told() -> None:
    ladder = ladder_of(back_plan(eggs=VARIED, **RISKS))
    for season in range(1, 6):
        told = sum(rung.told_points(season) for rung in ladder.rungs)
        assert told == pytest.approx(told_percent(ladder.real[season - 1]) - told_percent(ladder.textbook[season - 1]))
        assert all(abs(rung.told_points(season) - rung.points(season)) < 0.11 for rung in ladder.rungs)
