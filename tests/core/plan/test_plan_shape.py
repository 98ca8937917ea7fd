"""Every value by itself: types, ranges, unknown and missing keys."""

from __future__ import annotations

import json

import pytest

from tests.core.plan.plan_cases import GONE, faults_of, put, rich

BROKEN = [
    ("title", GONE, "title: is missing"),
    ("title", 5, "title: must be text in double quotes, not a number"),
    ("titel", "x", 'titel: is not a key that belongs here; is "title" meant?'),
    ("format", "other", 'format: must be "pairwright-plan": this is not a plan of Pairwright'),
    ("version", 2, "version: this file was made by a newer Pairwright: its version is 2, this one reads version 1"),
    ("version", 0, "version: must be 1, not 0"),
    ("version", True, "version: must be 1, not true or false"),
    ("genes", {}, "genes: must be a list in brackets [ ], not an object"),
    ("genes[0]", 7, "genes[0]: must be an object in braces { }, not a number"),
    ("genes[1].id", "la v", 'genes[1].id: must hold no space and no "/", yet is "la v"'),
    ("genes[1].id", "", "genes[1].id: must not be empty"),
    ("genes[0].alleles[0]", "W", 'genes[0].alleles[0]: must not be "W": +, -, W, X, Y, Z are no names of alleles'),
    ("genes[0].alleles", [], "genes[0].alleles: needs at least 1 entry"),
    ("genes[0].forms", [], "genes[0].forms: must be an object in braces { }, not a list"),
    ('genes[0].forms."a/a"', None, 'genes[0].forms["a/a"]: must be text in double quotes, not null'),
    (
        "genes[0].placement",
        "W",
        'genes[0].placement: must be "autosome", "both-sex-chromosomes" or "sex-chromosome", not "W"',
    ),
    ("genes[0].recombination", None, 'genes[0].recombination: must be a number or a fraction such as "2/3", not null'),
    ("linkage[0].recombination[0]", 0.6, "linkage[0].recombination[0]: must be at most 0.5"),
    ("species.lays", 1.5, "species.lays: must be at most 1"),
    ("species.lays", "3/2", "species.lays: must be at most 1"),
    ("species.lays", "1/0", 'species.lays: must be a number or a fraction such as "2/3", not "1/0"'),
    ("species.lays", "66 %", 'species.lays: must be a number or a fraction such as "2/3", not "66 %"'),
    ("species.lays", True, 'species.lays: must be a number or a fraction such as "2/3", not true or false'),
    ("species.breeds", {"mail": 1}, 'species.breeds.mail: is not a key that belongs here; is "male" meant?'),
    ("species.matures.male", 0, "species.matures.male: must be at least 1"),
    (
        "species.clutches_per_season",
        2.5,
        "species.clutches_per_season: must be a whole number, written without a point, not 2.5",
    ),
    ("species.females_per_male", 0, "species.females_per_male: must be at least 1"),
    ("goal.want", [], "goal.want: needs at least 1 entry"),
    ("goal.seasons", 10**400, "goal.seasons: must be at most 60"),
    ("goal.budget", -1, "goal.budget: must not be negative"),
    ("goal.outright_change", -1.5, "goal.outright_change: must be at least -1"),
    ("costs.surplus[0].sex", "both", 'costs.surplus[0].sex: must be "any", "female" or "male", not "both"'),
    (
        "for_sale[0].carries.lav",
        3,
        "for_sale[0].carries.lav: must be a genotype or a map from genotypes to chances, not a number",
    ),
    ("my_animals[1].sire", None, "my_animals[1].sire: must be text in double quotes, not null"),
    ("clutch_records[0].slugs", -1, "clutch_records[0].slugs: must not be negative"),
    ("routes[0].groups[0].price", -150, "routes[0].groups[0].price: must not be negative"),
    ("routes[0].groups[0].price", float("nan"), "routes[0].groups[0].price: must be a number, not NaN"),
    ("routes[0].groups[0].price", float("inf"), "routes[0].groups[0].price: must be at most 1,000,000,000,000"),
    ("routes[0].groups[0].count", 10**9, "routes[0].groups[0].count: must be at most 400"),
    ("routes[0].groups[0].kept_anyway", True, "routes[0].groups[0].kept_anyway: is not a key that belongs here"),
    ("routes[0].groups[0].origin", "bye", 'routes[0].groups[0].origin: is "bye"; it must be "buy", "own" or "hold"'),
    ("routes[0].groups[0].origin", GONE, 'routes[0].groups[0].origin: is missing; it must be "buy", "own" or "hold"'),
    ("routes[0].groups[2].kept_anyway", 1, "routes[0].groups[2].kept_anyway: must be true or false, not a number"),
    ("routes[0].groups[4].season", 1, "routes[0].groups[4].season: is not a key that belongs here"),
    ("routes[0].groups[4].pick", [], "routes[0].groups[4].pick: needs at least 1 entry"),
    ("routes[0].pairings[0].males", [], "routes[0].pairings[0].males: needs at least 1 entry"),
    (
        "routes[0].pairings[0].seasons",
        [1],
        "routes[0].pairings[0].seasons: must be a first and a last season in brackets, such as [1, 2] or [null, null]",
    ),
    ("routes[0].pairings[0].seasons", [0, 2], "routes[0].pairings[0].seasons[0]: must be at least 1"),
    ("routes[0].scale", None, "routes[0].scale: must be an object in braces { }, not null"),
    ("simulation", {"runs": 10**7}, "simulation.runs: must be at most 1,000,000"),
    ("already_spent", "5", 'already_spent: must be a number, not "5"'),
    ("notes", "n" * 20_001, "notes: is 20,001 characters long; at most 20,000 are allowed"),
    ("notes", "\ud800", "notes: holds half a character (a lone surrogate)"),
    ("cautions_read", [""] * 2_001, "cautions_read: has 2,001 entries; at most 2,000 are allowed"),
]


def test_nothing_is_wrong_with_the_plan_to_break() -> None:
    assert faults_of(rich()) == []


@pytest.mark.parametrize(("place", "value", "line"), BROKEN, ids=[line[:60] for _, _, line in BROKEN])
def test_a_broken_value_is_one_line(place: str, value: object, line: str) -> None:
    assert faults_of(put(rich(), place, value)) == [line]


def test_every_fault_is_told() -> None:
    plan = rich()
    put(plan, "routes[0].groups[0].price", -1)
    put(plan, "species.lays", "x")
    put(plan, "routes[0].pairings[1].males[0]", "nobody")
    put(plan, "goal.want[0].forms.amel", "blue")
    places = [line.split(": ")[0] for line in faults_of(plan)]
    assert places == [
        "species.lays",
        "routes[0].groups[0].price",
        "goal.want[0].forms.amel",
        "routes[0].pairings[1].males[0]",
    ]


def test_an_empty_object_misses_all_that_is_required() -> None:
    required = ["format", "version", "title", "currency", "genes", "species", "goal"]
    assert faults_of({}) == [f"{key}: is missing" for key in required]


@pytest.mark.parametrize("value", [[], 3, "plan", None])
def test_a_plan_is_an_object(value: object) -> None:
    assert faults_of(value) == ["file: must hold one plan: an object in braces { }"]


def test_keys_given_twice_are_named() -> None:
    text = json.dumps(rich())
    doubled = text.replace('"title": ', '"title": "x", "title": ').replace('"l/+": ', '"l/+": 0, "l/+": ')
    assert faults_of(doubled.encode()) == ["title: is given twice", 'for_sale[0].carries.lav["l/+"]: is given twice']


def test_strange_text_is_shown_on_one_line() -> None:
    (line,) = faults_of(put(rich(), "goal.want[0].forms.amel", "a\nb\x1b[31m\u202e" + "c" * 300))
    assert line.isprintable()
    assert len(line) < 200


def test_a_stranger_can_cause_only_so_many_lines() -> None:
    lines = faults_of(rich() | {f"key{i}": i for i in range(5_000)})
    assert len(lines) == 101
    assert lines[-1] == "file: there are more faults; mend these first"
