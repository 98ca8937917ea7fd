"""The reference against itself, and against values known by hand."""

from __future__ import annotations

import json
import math
import random
from collections import Counter
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings

from tests.reference import derived
from tests.reference.beliefs import beliefs
from tests.reference.enumerate import TooMany, enumerate_route
from tests.reference.genetics import Genome
from tests.reference.kinship import inbreeding
from tests.reference.plans import plans
from tests.reference.player import play_many
from tests.reference.results import Meeting, Result

DATA = Path(__file__).parent / "data"
AMEL = {"id": "amel", "name": "Amelanistic", "alleles": ["a"], "forms": {"a/a": "amelanistic"}}
LAV = {"id": "lav", "name": "Lavender", "alleles": ["l"], "forms": {"l/l": "lavender"}}
BOTH = {"amel": "amelanistic", "lav": "lavender"}
DOUBLE_HET = {"amel": "a/+", "lav": "l/+"}


def bought(name: str, sex: str, carries: dict[str, Any], count: int = 1, **more: Any) -> dict[str, Any]:
    return {"id": name, "sex": sex, "count": count, "carries": carries, "origin": "buy", "price": 0} | more


def plan_of(
    groups: list[dict[str, Any]], eggs: int, forms: dict[str, str], seasons: int = 1, **species: Any
) -> dict[str, Any]:
    """One pairing of the males and the females among the groups, one fixed clutch a season."""
    by_sex = {sex: [group["id"] for group in groups if group["sex"] == sex] for sex in ("male", "female")}
    return {
        "genes": [AMEL, LAV],
        "species": {"sex_system": "ZW", "clutch": {"fixed": eggs}, "matures": {"male": 1, "female": 1}} | species,
        "goal": {"want": [{"forms": forms}], "chance": 0.8, "seasons": seasons},
        "routes": [
            {
                "id": "r",
                "groups": groups,
                "pairings": [{"id": "p", "males": by_sex["male"], "females": by_sex["female"]}],
            }
        ],
    }


def chance_of(plan: dict[str, Any]) -> Any:
    return enumerate_route(plan, plan["routes"][0]).chance_by_season()[-1]


def test_double_hets_one_clutch() -> None:
    plan = plan_of([bought("m", "male", DOUBLE_HET), bought("f", "female", DOUBLE_HET)], 6, BOTH)
    assert chance_of(plan) == 1 - Fraction(15, 16) ** 6


def test_each_daughter_is_het_or_not_for_good() -> None:
    maybe = {"amel": "a/a", "lav": {"l/+": 0.5, "+/+": 0.5}}
    plan = plan_of([bought("m", "male", DOUBLE_HET), bought("f", "female", maybe, count=4)], 6, BOTH)
    assert chance_of(plan) == 1 - (Fraction(1, 2) + Fraction(1, 2) * Fraction(7, 8) ** 6) ** 4


def test_a_pair_of_possible_hets() -> None:
    maybe = {"amel": {"a/+": "2/3", "+/+": "1/3"}}
    plan = plan_of([bought("m", "male", maybe), bought("f", "female", maybe)], 7, {"amel": "amelanistic"})
    assert chance_of(plan) == Fraction(4, 9) * (1 - Fraction(3, 4) ** 7)


def test_losses_by_hand() -> None:
    """An egg that hatches as wanted: clutch not lost, fertile, 1/4, hatches; and the pair must work and lay."""
    plan = plan_of(
        [bought("m", "male", {"amel": "a/+"}), bought("f", "female", {"amel": "a/+"})],
        3,
        {"amel": "amelanistic"},
        lays=0.5,
        clutch_lost=0.2,
        fertile=0.9,
        hatches=0.8,
        breeds={"male": 0.7, "female": 0.6},
    )
    egg = Fraction(9, 10) * Fraction(1, 4) * Fraction(8, 10)
    assert chance_of(plan) == Fraction(7, 10) * Fraction(6, 10) * Fraction(1, 2) * Fraction(8, 10) * (
        1 - (1 - egg) ** 3
    )


def test_eggs_of_the_whole_season_are_paid_for() -> None:
    plan = plan_of([bought("m", "male", DOUBLE_HET), bought("f", "female", DOUBLE_HET)], 3, {}, seasons=2)
    plan["costs"] = {"per_egg": 2, "keep_adult": 5}
    result = enumerate_route(plan, plan["routes"][0])
    assert result.paid_by_season() == [16, 16]
    assert result.chance_by_eggs() == [0, 1, 1, 1]
    assert result.up_front == 10


def test_linked_sets_keep_their_phase() -> None:
    plan = plan_of(
        [bought("m", "male", {"amel lav": "a l/+ +"}), bought("f", "female", {"amel lav": "a +/+ l"})], 1, BOTH
    )
    plan["linkage"] = [{"genes": ["amel", "lav"], "recombination": [0.1]}]
    assert chance_of(plan) == Fraction(45, 100) * Fraction(5, 100)
    groups = plan["routes"][0]["groups"]
    groups[0]["carries"] = groups[1]["carries"] = DOUBLE_HET
    assert chance_of(plan) == Fraction(1, 16)


@pytest.mark.parametrize(("carries", "sons", "daughters"), [("b X/+ Y", "0.05", "0.45"), ("b/+", "0.25", "0.25")])
def test_gene_on_both_sex_chromosomes(carries: str, sons: str, daughters: str) -> None:
    """A father that has the mutant on X gives it to his daughters, but for recombination."""
    gene = {"id": "b", "alleles": ["b"], "forms": {"b/+": "B", "b/b": "BB"}} | {
        "placement": "both-sex-chromosomes",
        "recombination": 0.1,
    }
    plan = plan_of([], 1, {}, sex_system="XY")
    genome = Genome(plan | {"genes": [gene]})
    sires, dam = genome.prior({"b": carries}, "male"), genome.prior({}, "female").values[0]
    for sex, share in (("male", sons), ("female", daughters)):
        shown = sum(
            p * q
            for sire, p in sires.items()
            for (born, genotype), q in genome.offspring(sire, dam).items()
            if born == sex and genome.form("b", genotype) == "B"
        )
        assert shown == Fraction(share)


def test_one_copy_looks_like_two_unless_listed() -> None:
    gene = {"id": "b", "alleles": ["b"], "forms": {"b/b": "B"}, "placement": "sex-chromosome"}
    plan = plan_of([], 1, {}) | {"genes": [gene]}
    hen = Genome(plan).prior({"b": "b/W"}, "female").values[0]
    assert Genome(plan).form("b", hen) == "B"
    gene["forms"] = {"b/b": "B", "b/W": "pale"}
    assert Genome(plan).form("b", hen) == "pale"


def small_plan() -> dict[str, Any]:
    """Everything that is drawn, small enough to take every way."""
    carries = {"amel": {"a/+": "2/3", "+/+": "1/3"}}
    plan = plan_of([bought("m", "male", {"amel": "a/+"}, price=20)], 1, {"amel": "amelanistic"}, seasons=3)
    plan["genes"] = [AMEL]
    plan["species"] |= {"clutch": {"counts": {"1": 0.25, "2": 0.75}}, "lays": 0.9, "clutch_lost": 0.1, "fertile": 0.9}
    plan["species"] |= {"hatches": 0.8, "breeds": {"female": 0.9}, "reaches_breeding": 0.8, "females_per_male": 2}
    plan["costs"] = {"setup": 10, "keep_adult": 5, "keep_young": 2.5, "per_egg": 0.5, "surplus": [{"price": 7}]}
    route = plan["routes"][0]
    route["groups"] += [
        bought("f", "female", carries, count=2, price=20, until=1),
        {
            "id": "h",
            "sex": "female",
            "count": 1,
            "origin": "hold",
            "from": ["p"],
            "pick": [{"amel": "amelanistic"}, {}],
        },
    ]
    route["pairings"] = [{"id": "p", "males": ["m"], "females": ["f"]}, {"id": "q", "males": ["m"], "females": ["h"]}]
    return plan


def test_player_agrees_with_every_way() -> None:
    plan = small_plan()
    every = enumerate_route(plan, plan["routes"][0])
    played = play_many(plan, plan["routes"][0], runs=6000, seed=3)
    for exact, mean, error in zip(
        every.chance_by_season(), played.chance_by_season(), played.chance_by_season_se(), strict=True
    ):
        assert abs(mean - exact) < 4.5 * error
    for kind in ("paid", "sales", "young", "surplus", "eggs"):
        for exact, mean, error in zip(every.running(kind), played.running(kind), played.spread[kind], strict=True):
            assert abs(mean - exact) < 4.5 * error
    for x, _ in every.money()[::5]:
        exact = every.chance_with(x)
        assert abs(played.chance_with(x) - exact) < 4.5 * played.standard_error(exact) + 1e-9
    assert played.most_eggs <= every.most_eggs
    assert played.up_front == every.up_front == 85
    assert played.peak_animals() == every.peak_animals() == 3
    assert float(played.peak_young()) == pytest.approx(float(every.peak_young()), rel=0.05)


AMEL_LAVENDER = json.loads((DATA / "amel-lavender.plan.json").read_text("utf-8"))
EXPECTED = json.loads((DATA / "amel-lavender.expected.json").read_text("utf-8"))["routes"]


@pytest.mark.parametrize("place", range(len(EXPECTED)), ids=[route["id"] for route in EXPECTED])
def test_player_against_the_sample_plan(place: int) -> None:
    expected = EXPECTED[place]
    runs = 800
    played = play_many(AMEL_LAVENDER, AMEL_LAVENDER["routes"][place], runs, seed=11)

    def near(chance: Any, other: float) -> bool:
        return abs(chance - other) <= 4.5 * math.sqrt(other * (1 - other) * (1 / runs + 1 / expected["runs"])) + 1e-9

    assert all(map(near, played.chance_by_season(), expected["chance_by_season"]))
    assert all(map(near, played.chance_by_eggs(), expected["chance_by_eggs"]))
    assert all(near(played.chance_with(x + 0.005), chance) for x, chance in expected["chance_by_money"])
    for kind in ("paid", "sales"):
        for mean, other, error in zip(
            played.running(kind), expected[f"{kind}_by_season"], played.spread[kind], strict=True
        ):
            assert abs(mean - other) <= 4.7 * error + 1e-4
    for kind in ("young", "surplus", "eggs"):
        assert abs(played.running(kind)[-1] - expected[kind]) <= 4.7 * played.spread[kind][-1] + 1e-9
    assert played.up_front == expected["up_front"]
    assert float(played.peak_animals()) == pytest.approx(expected["peak_animals"], rel=0.05)
    assert float(played.peak_young()) == pytest.approx(expected["peak_young"], rel=0.1)


# Derived figures


def test_per_egg_by_hand() -> None:
    odds = [derived.per_egg(AMEL_LAVENDER, route) for route in AMEL_LAVENDER["routes"]]
    hatches = Fraction(96, 100) * Fraction(9, 10) ** 2 / 2  # the wanted sex is half
    assert odds[0] == {"first": hatches / 16}
    assert odds[3] == {"first": 0, "back": hatches / 16}  # amel daughters are het for the second with chance 1/2
    assert odds[4] == {"first": 0, "together": hatches / 16}
    assert odds[6] == {}


def test_inbreeding_by_hand() -> None:
    """Father and daughter, and full siblings, 1/4; two dams make half of the sibling pairs half-siblings."""
    routes = AMEL_LAVENDER["routes"]
    assert inbreeding(AMEL_LAVENDER, routes[3]) == {"first": 0, "back": Fraction(1, 4)}
    assert inbreeding(AMEL_LAVENDER, routes[4]) == {"first": 0, "together": Fraction(1, 4)}
    groups = [group | {"count": 2} if group["id"] == "dam" else group for group in routes[4]["groups"]]
    assert inbreeding(AMEL_LAVENDER, routes[4] | {"groups": groups}) == {"first": 0, "together": Fraction(3, 16)}


def test_a_group_fed_by_its_own_young_has_no_figures() -> None:
    route = small_plan()["routes"][0]
    route["groups"][2]["from"] = ["q"]
    assert inbreeding(small_plan(), route) == {"p": 0, "q": None}
    assert derived.per_egg(small_plan(), route)["q"] is None


def result_of(*ways: tuple[int, int | None, int, str]) -> Result:
    met = {Meeting(season, egg, Fraction(paid)): Fraction(chance) for season, egg, paid, chance in ways}
    return Result(3, met, {}, Fraction(0), 9)


def test_money_to_the_goal() -> None:
    """One is cheap and slow, two are dear and sure."""
    one = result_of((1, 2, 100, "0.4"), (2, 5, 150, "0.3"), (3, None, 400, "0.2"))
    two = result_of((1, 2, 200, "0.7"), (2, 7, 260, "0.2"))
    results: dict[int | None, Result] = {1: one, 2: two}
    assert derived.to_goal(results, 0.7) == derived.ToGoal(1, Fraction(150), 2, 5, Fraction(7, 10))
    assert derived.to_goal(results, 0.8) == derived.ToGoal(2, Fraction(260), 2, 7, Fraction(9, 10))
    assert derived.to_goal(results, 0.95) is None
    assert derived.as_drawn(one, 0.9) == derived.ToGoal(None, Fraction(400), 3, None, Fraction(9, 10))
    cut = derived.to_goal_by_season(results, 0.7, 2)
    assert [way and way.money for way in cut] == [200, 150]
    assert derived.chance_at_budget(results, 200) == Fraction(7, 10)
    assert derived.best_with(results, 200) == (Fraction(7, 10), 1)
    assert derived.budget_curve(results)[-1] == (Fraction(400), Fraction(9, 10), 1)
    sooner = derived.ToGoal(1, Fraction(150), 1, 5, 1)
    assert derived.cheapest([("none", None), ("a", cut[1]), ("b", sooner), ("c", sooner)]) == "b"


# Beliefs


def own(name: str, sex: str, **more: Any) -> dict[str, Any]:
    return {"id": name, "sex": sex} | more


def test_normal_young_lower_the_odds_of_a_het() -> None:
    plan = plan_of([], 1, {})
    plan["my_animals"] = [
        own("M", "male", carries={"lav": {"l/+": "2/3", "+/+": "1/3"}}),
        own("F", "female", carries={"lav": "l/l"}),
    ]
    plan["clutch_records"] = [{"sire": "M", "dam": "F", "young": [{"forms": {"lav": "normal"}, "count": 5}]}]
    assert beliefs(plan)["animals"]["M"]["lav"] == {"l/+": Fraction(1, 17), "+/+": Fraction(16, 17)}


def test_a_normal_looking_young_of_hets() -> None:
    plan = plan_of([], 1, {})
    plan["my_animals"] = [
        own("Y", "male", sire="M", dam="F", forms={"lav": "normal"}),
        own("M", "male", carries={"lav": "l/+"}),
        own("F", "female", carries={"lav": "l/+"}),
    ]
    assert beliefs(plan)["animals"]["Y"]["lav"] == {"l/+": Fraction(2, 3), "+/+": Fraction(1, 3)}


def test_beliefs_against_pedigrees_played_by_lot() -> None:
    """Linked genes and a daughter bred back to her father: keep the pedigrees that show what was seen."""
    plan = plan_of([], 1, {})
    plan["linkage"] = [{"genes": ["amel", "lav"], "recombination": [0.2]}]
    plan["my_animals"] = [
        own("M", "male", carries=DOUBLE_HET),
        own("F", "female", carries={"amel": "a/a", "lav": {"l/+": 0.5, "+/+": 0.5}}),
        own("D", "female", sire="M", dam="F", forms={"amel": "amelanistic"}),
    ]
    plan["clutch_records"] = [
        {"sire": "M", "dam": "D", "young": [{"forms": BOTH, "count": 1}, {"forms": {"lav": "normal"}, "count": 1}]}
    ]
    told = beliefs(plan)["animals"]
    rng, genome = random.Random(1), Genome(plan)
    kept: Counter[str] = Counter()
    for _ in range(8000):
        sire, dam = (
            _drawn(rng, genome.prior(plan["my_animals"][i]["carries"], sex)) for i, sex in ((0, "male"), (1, "female"))
        )
        sex, daughter = _drawn(rng, genome.offspring(sire, dam))
        young = [_drawn(rng, genome.offspring(sire, daughter))[1] for _ in range(2)]
        seen = sex == "female" and genome.fits(daughter, {"amel": "amelanistic"})
        if seen and genome.fits(young[0], BOTH) and genome.fits(young[1], {"lav": "normal"}):
            kept.update(
                f"{name} {genome.written(0, one[0])}" for name, one in (("M", sire), ("F", dam), ("D", daughter))
            )
    total = sum(kept.values()) / 3
    for animal, by_unit in told.items():
        for text, p in by_unit["amel lav"].items():
            assert abs(kept[f"{animal} {text}"] / total - p) < 4.5 * math.sqrt(p * (1 - p) / total) + 1e-9


def _drawn(rng: random.Random, distribution: Any) -> Any:
    return rng.choices(distribution.values, [float(p) for p in distribution.chances.values()])[0]


# Random plans


@settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck), derandomize=True)
@given(plans())
def test_any_plan_can_be_played(plan: dict[str, Any]) -> None:
    assert json.loads(json.dumps(plan)) == plan
    route = plan["routes"][0]
    played = play_many(plan, route, runs=15, seed=1)
    curve = played.chance_by_season()
    assert curve == sorted(curve)
    assert played.surplus() <= played.young() <= played.eggs()
    assert all(0 <= odds <= 1 for odds in derived.per_egg(plan, route).values() if odds is not None)
    assert all(0 <= f < 1 for f in inbreeding(plan, route).values() if f is not None)
    for by_unit in beliefs(plan)["animals"].values():
        assert all(sum(chances.values()) == 1 for chances in by_unit.values())


@settings(max_examples=10, deadline=None, suppress_health_check=list(HealthCheck), derandomize=True)
@given(plans(tiny=True))
def test_player_agrees_on_any_tiny_plan(plan: dict[str, Any]) -> None:
    route = plan["routes"][0]
    try:
        every = enumerate_route(plan, route, most_steps=2500)
    except TooMany:
        return
    runs = 400
    played = play_many(plan, route, runs, seed=2)
    for p, mean in zip(every.chance_by_season(), played.chance_by_season(), strict=True):
        assert abs(float(mean - p)) <= 5 * math.sqrt(p * (1 - p) / runs) + 1e-9
    assert played.up_front == every.up_front
    assert played.most_eggs <= every.most_eggs
    assert float(every.expected.get(("reached", 1), 0)) == played.expected.get(("reached", 1), 0)
