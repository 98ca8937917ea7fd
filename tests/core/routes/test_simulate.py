"""The simulation against the slow reference, on plans that between them use everything a route can say."""

from __future__ import annotations

import json
import math
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from core.plan.read import read_plan
from core.progress import finished
from core.routes.prepare import prepare
from core.routes.simulation import Odds, Played, play_route
from tests.reference.enumerate import enumerate_route
from tests.reference.player import play_many
from tests.reference.results import Result

DATA = Path(__file__).parents[2] / "data"
FEW = 1e-9
AMEL = {"id": "amel", "name": "Amelanistic", "alleles": ["a"], "forms": {"a/a": "amelanistic"}}
LAV = {"id": "lav", "name": "Lavender", "alleles": ["l"], "forms": {"l/l": "lavender"}}
LOSSES = {
    "lays": 0.8,
    "clutch_lost": 0.2,
    "fertile": 0.9,
    "hatches": 0.8,
    "breeds": {"male": 0.8, "female": 0.7},
    "reaches_breeding": 0.8,
}
COSTS = {
    "setup": 10,
    "keep_adult": 5,
    "keep_young": 2.5,
    "per_egg": 0.5,
    "per_young": 1,
    "surplus": [{"forms": {"amel": "amelanistic"}, "sex": "female", "price": 40}, {"price": 7}],
}


def bought(name: str, sex: str, carries: dict[str, Any], count: int = 1, **more: Any) -> dict[str, Any]:
    return {"id": name, "sex": sex, "count": count, "carries": carries, "origin": "buy", "price": 20} | more


def held(name: str, sex: str, count: int, source: list[str], *pick: dict[str, str], **more: Any) -> dict[str, Any]:
    return {"id": name, "sex": sex, "count": count, "origin": "hold", "from": source, "pick": list(pick)} | more


def pairing(name: str, males: list[str], females: list[str], *seasons: int | None) -> dict[str, Any]:
    return {"id": name, "males": males, "females": females} | ({"seasons": list(seasons)} if seasons else {})


def plan_of(
    groups: list[dict[str, Any]], pairings: list[dict[str, Any]], want: list[dict[str, Any]], seasons: int, **more: Any
) -> dict[str, Any]:
    species: dict[str, Any] = {"name": "Some reptile", "sex_system": "ZW", "clutch": {"counts": {"2": 0.5, "4": 0.5}}}
    species |= {"matures": {"male": 1, "female": 1}} | more.pop("species", {})
    route = {"id": "r", "name": "Some route", "groups": groups, "pairings": pairings} | more.pop("route", {})
    return {
        "format": "pairwright-plan",
        "version": 1,
        "title": "Some plan",
        "currency": "USD",
        "genes": [AMEL, LAV],
        "species": species,
        "goal": {"want": want, "chance": 0.8, "seasons": seasons} | more.pop("goal", {}),
        "costs": COSTS,
        "routes": [route],
    } | more


def played(plan: dict[str, Any], runs: int, seed: int = 5, place: int = 0) -> Played:
    read = read_plan(json.dumps(plan).encode())
    return finished(play_route(prepare(read, read.routes[place]), runs, np.random.default_rng(seed)))


DOUBLE_HET = {"amel": "a/+", "lav": "l/+"}
MAYBE = {"amel": {"a/+": "2/3", "+/+": "1/3"}, "lav": "l/+"}
VISUAL = {"amel": "amelanistic"}
BOTH = {"amel": "amelanistic", "lav": "lavender"}

PLANS: dict[str, dict[str, Any]] = {
    "three generations": plan_of(
        [
            bought("m", "male", {"lav": "l/l"}, until=2),
            bought("f", "female", {"amel": "a/a"}, count=2, until=2),
            held("sons", "male", 2, ["one"], {}),
            held("daughters", "female", 3, ["one"], {}, until=4),
            held("grandsons", "male", 1, ["two"], BOTH, VISUAL, {}),
            held("granddaughters", "female", 2, ["two"], BOTH, VISUAL, {}),
        ],
        [
            pairing("one", ["m"], ["f"]),
            pairing("two", ["sons"], ["daughters"]),
            pairing("three", ["grandsons", "sons"], ["granddaughters"]),
        ],
        [{"forms": BOTH, "sex": "female"}],
        6,
        species=LOSSES,
    ),
    "groups that want the same young": plan_of(
        [
            bought("m", "male", DOUBLE_HET),
            bought("f", "female", MAYBE, count=2),
            held("any", "female", 1, ["one"], {}),
            held("best", "female", 2, ["one", "two"], BOTH, VISUAL),
            held("again", "female", 2, ["two", "one"], VISUAL, {"lav": "normal"}),
        ],
        [pairing("one", ["m"], ["f"]), pairing("two", ["m"], ["again", "best", "any"])],
        [{"forms": BOTH, "count": 2}],
        4,
        species=LOSSES,
    ),
    "overlapping goal rows": plan_of(
        [
            bought("m", "male", DOUBLE_HET),
            bought("f", "female", DOUBLE_HET, count=2),
            held("keep", "female", 1, ["one"], VISUAL),
        ],
        [pairing("one", ["m"], ["f", "keep"])],
        [
            {"forms": VISUAL, "sex": "female"},
            {"forms": VISUAL, "count": 2},
            {"forms": {"lav": "lavender"}, "sex": "male"},
        ],
        4,
    ),
    "males that take turns, and idle females": plan_of(
        [
            bought("late", "male", {"amel": "a/a", "lav": "l/l"}, count=2, season=2, ready_in=1),
            bought("m", "male", DOUBLE_HET, count=2),
            bought("f", "female", MAYBE, count=6),
            held("sons", "male", 1, ["one"], {"lav": "normal"}),
        ],
        [pairing("one", ["late", "sons", "m"], ["f"], None, 3), pairing("two", ["m"], ["f"])],
        [{"forms": BOTH}],
        4,
        species=LOSSES | {"females_per_male": 2, "clutches_per_season": 2},
    ),
    "animals of one's own": plan_of(
        [
            {"id": "m", "sex": "male", "origin": "own", "animals": ["M"]},
            {"id": "f", "sex": "female", "origin": "own", "animals": ["F", "D"], "price": 3, "kept_anyway": False},
        ],
        [pairing("one", ["m"], ["f"])],
        [{"forms": BOTH}],
        3,
        my_animals=[
            {"id": "M", "sex": "male", "carries": MAYBE},
            {"id": "F", "sex": "female", "carries": {"lav": {"l/+": 0.5, "+/+": 0.5}, "amel": "a/+"}},
            {"id": "D", "sex": "female", "sire": "M", "dam": "F", "forms": VISUAL},
        ],
        clutch_records=[{"sire": "M", "dam": "F", "season": 0, "young": [{"forms": {"lav": "normal"}, "count": 3}]}],
    ),
    "sex by temperature, then bought": plan_of(
        [
            bought("m", "male", DOUBLE_HET),
            bought("f", "female", DOUBLE_HET),
            held("keep", "female", 2, ["one"], VISUAL, {}),
        ],
        [pairing("one", ["m"], ["f", "keep"])],
        [{"forms": BOTH, "sex": "male"}],
        5,
        species={"sex_system": "temperature", "female_share": 0.7},
        goal={"outright_price": 300, "outright_change": -0.1},
        route={"buy_outright": 4, "setup": 12},
    ),
}


class Near:
    """Whether means and chances agree within their errors."""

    def __init__(self, mine: int, other: int) -> None:
        self.mine, self.other = mine, other
        self.inverse = 1 / mine + (1 / other if other else 0)

    def chance(self, own: float, other: float) -> bool:
        pooled = (own * self.mine + other * self.other) / (self.mine + self.other)
        return abs(own - other) <= 4.5 * math.sqrt(pooled * (1 - pooled) * self.inverse) + FEW

    def mean(self, own: np.ndarray[Any, Any], other: float) -> bool:
        return abs(float(own.mean()) - other) <= 4.5 * float(own.std()) * math.sqrt(self.inverse) + 1e-6


def assert_agree(own: Played, other: Result, near: Near) -> None:
    seasons = range(1, other.seasons + 1)
    for season, chance in zip(seasons, other.chance_by_season(), strict=True):
        assert near.chance(float(((own.met_season > 0) & (own.met_season <= season)).mean()), float(chance))
    by_eggs = other.chance_by_eggs()
    for eggs in range(len(by_eggs)):
        assert near.chance(float(((own.met_egg > 0) & (own.met_egg <= eggs)).mean()), float(by_eggs[eggs]))
    totals = np.sort(own.paid[own.met_season > 0, -1])
    for paid, _ in other.money()[:: max(1, len(other.money()) // 20)]:
        assert near.chance(
            float(np.searchsorted(totals, float(paid) + 1e-6, side="right") / len(own.paid)),
            float(other.chance_with(paid)),
        )
    kinds = {"paid": own.paid, "eggs": own.eggs.cumsum(axis=1), "young": own.young.cumsum(axis=1)}
    for season in seasons:
        for kind, values in kinds.items():
            assert near.mean(values[:, season - 1], float(other.running(kind)[season - 1])), (kind, season)
        assert near.mean(own.present[:, season - 1], float(other.expected.get(("animals", season), 0)))
        assert near.chance(float(own.reached[:, season - 1].mean()), float(other.expected.get(("reached", season), 0)))
    assert near.mean(own.surplus, float(other.surplus()))
    # Sales are expected values given the run, so the reference's own spread is the wider one.
    for season, (sales, error) in enumerate(zip(other.sales_by_season(), other.spread["sales"], strict=True)):
        assert abs(float(own.sales[:, season].mean()) - float(sales)) <= 4.5 * error * math.sqrt(
            1 + near.other / near.mine
        )


@pytest.mark.parametrize("name", PLANS)
def test_agrees_with_the_reference(name: str) -> None:
    plan = PLANS[name]
    other = play_many(plan, plan["routes"][0], runs=2500, seed=8)
    assert_agree(played(plan, 40_000), other, Near(40_000, 2500))


def test_agrees_with_every_way_taken() -> None:
    """A hold-back with a second preference, small enough for exact chances."""
    plan = plan_of(
        [
            bought("m", "male", {"amel": "a/+"}),
            bought("f", "female", {"amel": {"a/+": 0.5, "+/+": 0.5}}, until=1),
            held("keep", "female", 1, ["one"], VISUAL, {}),
        ],
        [pairing("one", ["m"], ["f"]), pairing("two", ["m"], ["keep"])],
        [{"forms": VISUAL, "sex": "female"}],
        3,
        species={"clutch": {"fixed": 2}, "hatches": 0.8, "reaches_breeding": 0.75},
    )
    every = enumerate_route(plan, plan["routes"][0])
    own, near = played(plan, 100_000), Near(100_000, 0)
    for season, chance in enumerate(every.chance_by_season(), start=1):
        share = float(((own.met_season > 0) & (own.met_season <= season)).mean())
        assert abs(share - chance) <= 4.5 * math.sqrt(float(chance * (1 - chance)) / 100_000)
        assert near.mean(own.paid[:, season - 1], float(every.paid_by_season()[season - 1]))
    eggs = every.chance_by_eggs()
    for e, chance in enumerate(eggs):
        share = float(((own.met_egg > 0) & (own.met_egg <= e)).mean())
        assert abs(share - chance) <= 4.5 * math.sqrt(float(chance * (1 - chance)) / 100_000)


SAMPLE = json.loads((DATA / "amel-lavender.plan.json").read_text("utf-8"))
EXPECTED = json.loads((DATA / "amel-lavender.expected.json").read_text("utf-8"))["routes"]


@pytest.mark.parametrize("place", range(len(EXPECTED)), ids=[route["id"] for route in EXPECTED])
def test_the_sample_plan(place: int) -> None:
    expected = EXPECTED[place]
    own, near = played(SAMPLE, 30_000, place=place), Near(30_000, expected["runs"])
    for season, chance in enumerate(expected["chance_by_season"], start=1):
        assert near.chance(float(((own.met_season > 0) & (own.met_season <= season)).mean()), chance)
        assert near.mean(own.paid[:, season - 1], expected["paid_by_season"][season - 1])
    for eggs, chance in enumerate(expected["chance_by_eggs"]):
        assert near.chance(float(((own.met_egg > 0) & (own.met_egg <= eggs)).mean()), chance)
    totals = own.paid[own.met_season > 0, -1]
    for paid, chance in expected["chance_by_money"]:
        # The sums are told to a cent, and many runs can share one sum.
        below, up_to = ((totals <= paid + cent).sum() / 30_000 for cent in (-0.01, 0.01))
        assert below <= chance <= up_to or near.chance(float(below), chance) or near.chance(float(up_to), chance)
    assert near.mean(own.surplus, expected["surplus"])
    assert near.mean(own.young.sum(axis=1), expected["young"])


def test_the_same_seed_gives_the_same_answer() -> None:
    plan = PLANS["three generations"]
    one, two, other = played(plan, 3000), played(plan, 3000), played(plan, 3000, seed=6)
    assert (one.paid == two.paid).all()
    assert (one.met_egg == two.met_egg).all()
    assert (one.paid != other.paid).any()


def test_kept_odds_change_no_answer() -> None:
    """What was worked out at one count serves at another."""
    read = read_plan(json.dumps(PLANS["three generations"]).encode())
    problem = prepare(read, read.routes[0])
    more = problem.with_counts(["f"], 4)
    odds = Odds(problem)
    finished(play_route(problem, 2000, np.random.default_rng(1), odds))
    kept = finished(play_route(more, 2000, np.random.default_rng(1), odds))
    fresh = finished(play_route(more, 2000, np.random.default_rng(1)))
    assert abs(kept.paid.mean() - fresh.paid.mean()) < 4.5 * fresh.paid.std() * math.sqrt(2 / 2000 / 6)


def test_runs_that_are_not_told_apart_leave_the_same_sums_and_no_more() -> None:
    """A million runs of sixty seasons would be many GB otherwise."""
    read = read_plan(json.dumps(PLANS["three generations"]).encode())
    problem = prepare(read, read.routes[0])
    every = finished(play_route(problem, 2000, np.random.default_rng(1)))
    alone = finished(play_route(problem, 2000, np.random.default_rng(1), apart=False))
    assert not any(alone.seasons)
    assert (every.spent == alone.spent).all()
    assert (every.means_paid() == alone.means_paid()).all()
    assert every.means("present") == pytest.approx(every.present.mean(axis=0))
    assert every.means("sales").cumsum() == pytest.approx(every.sales.mean(axis=0))
    assert every.share_reached() == pytest.approx(every.reached.mean(axis=0))


def test_progress_reaches_the_end_and_arrays_are_fixed() -> None:
    read = read_plan(json.dumps(SAMPLE).encode())
    steps = play_route(prepare(read, read.routes[0]), 25_000, np.random.default_rng(1))
    done = [next(steps)]
    assert 0 < done[0] < 25_000
    own = finished(steps)
    assert own.paid.shape == (25_000, 7)
    with pytest.raises(ValueError, match="read-only"):
        own.spent[0] = 1


def test_standard_errors_are_honest() -> None:
    """Chances from many seeds scatter as their binomial error says."""
    plan = PLANS["three generations"]
    runs, seeds = 500, 60
    chances = np.array([(played(plan, runs, seed).met_season > 0).mean() for seed in range(seeds)])
    p = float(chances.mean())
    scatter = float(chances.var(ddof=1)) / (p * (1 - p) / runs)
    assert abs(scatter - 1) < 4.5 * math.sqrt(2 / (seeds - 1))
