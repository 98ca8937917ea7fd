"""What values mean together: references, sums, genotypes, forms."""

from __future__ import annotations

from typing import Any

import msgspec
import pytest

from core.plan.check import check_plan
from core.plan.read import read_plan
from tests.core.plan.plan_cases import GONE, SAMPLE, Json, faults_of, put, rich

BROKEN: list[tuple[str, Any, str]] = [
    ("genes[1].id", "amel", 'genes[1].id: "amel" is already genes[0].id'),
    ("genes[0].alleles", ["a", "u", "a"], 'genes[0].alleles[2]: "a" is already genes[0].alleles[0]'),
    ('genes[0].forms."u/a"', "x", 'genes[0].forms["u/a"]: is the same genotype as "a/u"'),
    (
        'genes[0].forms."a/q"',
        "x",
        'genes[0].forms["a/q"]: "a/q" is no genotype of "amel": two of + a u with "/" between',
    ),
    (
        'genes[0].forms."a/W"',
        "x",
        'genes[0].forms["a/W"]: "a/W" is no genotype of "amel": two of + a u with "/" between',
    ),
    ('genes[3].forms."b/Y"', "x", 'genes[3].forms["b/Y"]: "b/Y" is no genotype of "band": two of + b with "/" between'),
    ("genes[2].lethal", ["S/S", "S/S"], 'genes[2].lethal[1]: is the same genotype as "S/S"'),
    ("genes[2].lethal", ["S"], 'genes[2].lethal[0]: "S" is no genotype of "spider": two of + S with "/" between'),
    (
        "genes[2].placement",
        "sex-chromosome",
        'genes[3].placement: must be autosome: "spider" already lies on the sex chromosomes',
    ),
    ("genes[1].recombination", 0.1, "genes[1].recombination: belongs only to a gene on both sex chromosomes"),
    (
        "species.sex_system",
        "temperature",
        "genes[3].placement: must be autosome: a species sexed by temperature has no sex chromosomes",
    ),
    ("linkage[0].genes[1]", "lab", 'linkage[0].genes[1]: no gene has the id "lab"; is "lav" meant?'),
    (
        "linkage[0].genes[1]",
        "band",
        'linkage[0].genes[1]: "band" lies on the sex chromosomes; only autosomal genes can be linked here',
    ),
    ("linkage[0].genes[1]", "amel", 'linkage[0].genes[1]: "amel" is already linkage[0].genes[0]'),
    ("linkage[0].recombination", [], "linkage[0].recombination: needs one number between neighbours, so 1 for 2 genes"),
    ("combinations[0].forms.lav", "blue", 'combinations[0].forms.lav: no genotype shows "blue"'),
    ("species.female_share", 0.5, "species.female_share: belongs only to a species sexed by temperature"),
    ("species.clutch", {}, "species.clutch: must be given in one way: fixed, or counts, or mean, sd, min and max"),
    (
        "species.clutch.fixed",
        6,
        "species.clutch: must be given in one way: fixed, or counts, or mean, sd, min and max",
    ),
    ("species.clutch.sd", GONE, "species.clutch.sd: is missing"),
    ("species.clutch.sd", 0, "species.clutch.sd: must be more than 0"),
    ("species.clutch.min", 21, "species.clutch.max: must not be less than min, which is 21"),
    (
        "species.clutch",
        {"mean": 12, "sd": 0.5, "min": 100, "max": 120},
        "species.clutch: no size from min to max has any chance: they lie too many sd from the mean",
    ),
    ("species.clutch", {"counts": {"5": 0.5}}, "species.clutch.counts: the chances sum to 0.5, not 1"),
    ("species.clutch", {"counts": {}}, "species.clutch.counts: the chances sum to 0, not 1"),
    (
        "species.clutch",
        {"counts": {"5.5": 1}},
        'species.clutch.counts["5.5"]: a clutch size must be a whole number of eggs',
    ),
    ("species.clutch", {"counts": {"999": 1}}, 'species.clutch.counts["999"]: a clutch size must be at most 400'),
    ("goal.chance", 1, "goal.chance: must lie between 0 and 1 and be neither"),
    ("goal.chance", "0/3", "goal.chance: must lie between 0 and 1 and be neither"),
    ("goal.want[0].forms.amell", "x", 'goal.want[0].forms.amell: no gene has the id "amell"; is "amel" meant?'),
    (
        "goal.want[0].forms.amel",
        "amelanistik",
        'goal.want[0].forms.amel: no genotype shows "amelanistik"; is "amelanistic" meant?',
    ),
    ("goal.outright_price", None, "routes[0].buy_outright: needs goal.outright_price, which is not given"),
    ("routes[0].buy_outright", 7, "routes[0].buy_outright: must be at most 6, the seasons of the goal"),
    ("costs.surplus[0].forms.lav", "x", 'costs.surplus[0].forms.lav: no genotype shows "x"'),
    (
        "for_sale[0].carries.lav",
        "l/q",
        'for_sale[0].carries.lav: "l/q" is no genotype of "lav": two of + l with "/" between',
    ),
    ("for_sale[0].carries.lav", {"l/+": 0.5}, "for_sale[0].carries.lav: the chances sum to 0.5, not 1"),
    ("for_sale[0].carries.lav", {}, "for_sale[0].carries.lav: the chances sum to 0, not 1"),
    (
        "for_sale[0].carries.lav",
        {"l/+": 0.5, "+/l": 0.5},
        'for_sale[0].carries.lav["+/l"]: is the same genotype as "l/+"',
    ),
    ("for_sale[0].carries.spider", "S/S", 'for_sale[0].carries.spider: "S/S" is lethal: no living animal has it'),
    ("for_sale[0].carries.band", "b/W", 'for_sale[0].carries.band: a male has two copies of "band", as in "b/+"'),
    ("for_sale[0].carries.nope", "b/b", 'for_sale[0].carries.nope: no gene has the id "nope"'),
    (
        'for_sale[0].carries."lav amel"',
        "+ +/+ +",
        'for_sale[0].carries["lav amel"]: no linkage row lists exactly these genes in this order',
    ),
    (
        'for_sale[0].carries."amel lav"',
        "+ +/+ +",
        'for_sale[0].carries["amel lav"]: "lav" is given twice, singly and in a linked set',
    ),
    ("my_animals[0].sire", "F0", 'my_animals[0].sire: must be male, yet "F0" is female'),
    ("my_animals[0].sire", "M9", 'my_animals[0].sire: my_animals lists no "M9"'),
    ("my_animals[0].sire", GONE, "my_animals[0].sire: is missing: sire and dam come together or not at all"),
    ("my_animals[0].dam", "F1", 'my_animals[0]: "F1" is its own ancestor'),
    (
        "my_animals[0].carries",
        {"lav": "l/+"},
        "my_animals[0].carries: must be left out: an animal with sire and dam inherits its genes",
    ),
    ("my_animals[2].carries.band", "b/b", 'my_animals[2].carries.band: a female has one copy of "band", as in "b/W"'),
    ("my_animals[0].forms.amel", "x", 'my_animals[0].forms.amel: no genotype shows "x"'),
    ("clutch_records[0].dam", "M0", 'clutch_records[0].dam: must be female, yet "M0" is male'),
    ("clutch_records[0].sire", "X", 'clutch_records[0].sire: my_animals lists no "X"'),
    ("clutch_records[0].young[0].forms.amel", "x", 'clutch_records[0].young[0].forms.amel: no genotype shows "x"'),
    ("routes[1].id", "r", 'routes[1].id: "r" is already routes[0].id'),
    ("routes[0].groups[1].until", 1, "routes[0].groups[1].until: must not be before the group's arrival in season 2"),
    (
        'routes[0].groups[0].carries."amel lav"',
        "a/+",
        'routes[0].groups[0].carries["amel lav"]: "a/+" must give each half one allele of every gene, as in "+ +/+ +"',
    ),
    ("routes[0].groups[2].count", 1, "routes[0].groups[2].count: must be left out: the group names its animals"),
    ("routes[0].groups[2].animals[0]", "M0", 'routes[0].groups[2].animals[0]: must be female, yet "M0" is male'),
    (
        "routes[0].groups[2].animals",
        ["F1", "F1"],
        'routes[0].groups[2].animals[1]: "F1" is already routes[0].groups[2].animals[0]',
    ),
    (
        "routes[0].groups[3].carries",
        GONE,
        "routes[0].groups[3].carries: is missing; an own group has count and carries, or animals",
    ),
    (
        "routes[0].groups[3]",
        {"id": "others", "sex": "female", "animals": ["F1"], "origin": "own", "season": 2},
        'routes[0].groups[3].animals[0]: "F1" is already in routes[0].groups[2] at that time',
    ),
    (
        "routes[0].groups[4].from[0]",
        "frist",
        'routes[0].groups[4].from[0]: this route has no pairing "frist"; is "first" meant?',
    ),
    ("routes[0].groups[4].pick[0].amel", "x", 'routes[0].groups[4].pick[0].amel: no genotype shows "x"'),
    (
        "routes[0].pairings[0].seasons",
        [2, 1],
        "routes[0].pairings[0].seasons: the first season, 2, must not be after the last, 1",
    ),
    ("routes[0].pairings[1].id", "first", 'routes[0].pairings[1].id: "first" is already routes[0].pairings[0].id'),
    (
        "routes[0].pairings[1].males[0]",
        "dams",
        'routes[0].pairings[1].males[0]: must be a group of males, yet "dams" is female',
    ),
    ("routes[0].pairings[1].females[0]", "x", 'routes[0].pairings[1].females[0]: this route has no group "x"'),
    ("routes[0].scale.groups[0]", "x", 'routes[0].scale.groups[0]: this route has no group "x"'),
    (
        "routes[0].scale.groups[0]",
        "mine",
        'routes[0].scale.groups[0]: "mine" names its animals, so its count cannot be varied',
    ),
    ("routes[0].scale.counts", [1, 2, 1], "routes[0].scale.counts[2]: 1 is already routes[0].scale.counts[0]"),
]


@pytest.mark.parametrize(("place", "value", "line"), BROKEN, ids=[line[:60] for _, _, line in BROKEN])
def test_a_broken_meaning_is_one_line(place: str, value: object, line: str) -> None:
    assert faults_of(put(rich(), place, value)) == [line]


def both_sexes(genotype: str, sex: str, system: str = "XY") -> Json:
    """A plan in which an animal of `sex` carries `genotype` of a gene on both sex chromosomes."""
    plan = rich()
    eye = {"id": "eye", "name": "Eye", "alleles": ["e"], "forms": {"e/e": "red"}, "recombination": 0.1}
    plan["genes"][3] = eye | {"placement": "both-sex-chromosomes"}
    plan["species"]["sex_system"] = system
    plan["my_animals"][2]["carries"] = {}
    plan["for_sale"] = [{"id": "x", "sex": sex, "carries": {"eye": genotype}, "price": 1}]
    return plan


@pytest.mark.parametrize(
    ("genotype", "sex", "system"),
    [
        ("e/+", "male", "XY"),
        ("e X/+ Y", "male", "XY"),
        ("+ Y/e X", "male", "XY"),
        ("e X/+ X", "female", "XY"),
        ("e Z/+ W", "female", "ZW"),
        ("e Z/+ Z", "male", "ZW"),
        ({"e X/+ Y": 0.5, "+ X/e Y": 0.5}, "male", "XY"),
    ],
)
def test_a_gene_on_both_sex_chromosomes_names_them_or_not(genotype: str, sex: str, system: str) -> None:
    assert faults_of(both_sexes(genotype, sex, system)) == []


@pytest.mark.parametrize(
    ("genotype", "sex"),
    [("e X/+ X", "male"), ("e X/+ Y", "female"), ("e X/+", "male"), ("e Z/+ W", "female"), ("e/Y", "male")],
)
def test_chromosomes_must_be_those_of_the_sex(genotype: str, sex: str) -> None:
    (line,) = faults_of(both_sexes(genotype, sex))
    assert line.startswith(f'for_sale[0].carries.eye: "{genotype}" ')


def test_phases_that_differ_in_nothing_are_one_genotype() -> None:
    (line,) = faults_of(both_sexes({"e X/+ X": 0.5, "+/e": 0.5}, "female"))
    assert line == 'for_sale[0].carries.eye["+/e"]: is the same genotype as "e X/+ X"'


def test_a_gene_on_both_sex_chromosomes_needs_its_recombination() -> None:
    plan = put(both_sexes("e/+", "male"), "genes[3].recombination", GONE)
    assert faults_of(plan) == ["genes[3].recombination: is missing; a gene on both sex chromosomes needs it"]


def test_forms_on_both_sex_chromosomes_are_written_without_them() -> None:
    (line,) = faults_of(put(both_sexes("e/+", "male"), 'genes[3].forms."e X/e Y"', "white"))
    assert line.startswith('genes[3].forms["e X/e Y"]: ')


@pytest.mark.parametrize("sex", ["any", "male", "female"])
def test_a_form_must_be_shown_by_the_sex_it_is_asked_of(sex: str) -> None:
    plan = put(rich(), 'genes[3].forms."b/W"', "half-banded")
    plan["goal"]["want"] = [{"forms": {"band": "half-banded"}, "sex": sex}]
    lines = ['goal.want[0].forms.band: no genotype of a male shows "half-banded"']
    assert faults_of(plan) == (lines if sex == "male" else [])


def test_a_form_of_lethal_genotypes_alone_is_never_seen() -> None:
    plan = put(rich(), 'genes[2].forms."S/S"', "pearl")
    plan["goal"]["want"] = [{"forms": {"spider": "pearl"}}]
    assert faults_of(plan) == ['goal.want[0].forms.spider: no genotype shows "pearl"']


def test_normal_is_a_form_while_some_genotype_is_not_listed() -> None:
    plan = put(rich(), "goal.want[0].forms.lav", "normal")
    assert faults_of(plan) == []
    plan["genes"][1]["forms"] |= {"l/+": "het", "+/+": "wild"}
    assert faults_of(plan)[0] == 'goal.want[0].forms.lav: no genotype shows "normal"'


def test_a_lethal_wild_type_must_be_named_away() -> None:
    plan = put(rich(), "genes[2].lethal", ["S/S", "+/+"])
    lines = faults_of(plan)
    assert lines[0] == 'for_sale[0].carries: must name "spider": left out it is "+/+", which is lethal'


def test_both_orders_of_a_linked_genotype_are_one() -> None:
    plan = put(rich(), 'routes[0].groups[0].carries."amel lav"', {"a l/+ +": 0.5, "+ +/a l": 0.5})
    place = 'routes[0].groups[0].carries["amel lav"]["+ +/a l"]'
    assert faults_of(plan) == [f'{place}: is the same genotype as "a l/+ +"']


def test_an_animal_may_change_groups() -> None:
    plan = put(rich(), "routes[0].groups[2].until", 2)
    again = {"id": "others", "sex": "female", "animals": ["F1"], "origin": "own", "season": 3}
    assert faults_of(put(plan, "routes[0].groups[3]", again)) == []


def test_chances_may_miss_one_by_rounding_only() -> None:
    thirds = {"l/+": "1/3", "+/+": "1/3", "l/l": "1/3"}
    assert faults_of(put(rich(), "for_sale[0].carries.lav", thirds)) == []
    off = {"l/+": 0.5, "+/+": 0.5 + 1e-8}
    assert len(faults_of(put(rich(), "for_sale[0].carries.lav", off))) == 1


def test_a_fault_of_a_gene_hides_what_only_follows_from_it() -> None:
    plan = put(rich(), "genes[0].forms", {"a/q": "amelanistic", "a/u": "ultramel"})
    assert [line.split(": ")[0] for line in faults_of(plan)] == ['genes[0].forms["a/q"]']


def test_a_plan_made_by_code_is_checked_alike() -> None:
    plan = read_plan(SAMPLE.read_bytes())
    assert check_plan(plan) == ()
    goal = msgspec.structs.replace(plan.goal, seasons=0, chance=float("nan"))
    places = [fault.place for fault in check_plan(msgspec.structs.replace(plan, goal=goal))]
    assert places == ["goal.chance", "goal.seasons"]
