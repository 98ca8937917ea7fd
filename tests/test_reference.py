"""The reference against itself, and against values known by hand."""

from __future__ import annotations

import json
import math
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from tests.reference.enumerate import enumerate_route
from tests.reference.genetics import Genome
from tests.reference.player import play_many

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

    def near(chance: float, other: float) -> bool:
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
