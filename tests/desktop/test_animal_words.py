"""Trade names of animals: combinations, series, second copies, and what is only possible."""

from __future__ import annotations

import msgspec
import pytest

from core.plan.model import Carries, Gene, Linkage, Plan
from core.season.telling import telling
from desktop.plan_files import SAMPLE, SAMPLES, Faults, open_plan
from desktop.words.animals import animal, animal_title, of_mine
from desktop.words.my_animals import tells, tells_row
from desktop.words.numbers import PlainNumbers
from tests.core.season.season_cases import dominant
from tests.core.season.season_cases import plan as season_plan

GENES = (
    Gene(id="tig", name="Tiger", alleles=("T",), forms={"T/+": "tiger", "T/T": "tiger"}),
    Gene(id="ser", name="Sand", alleles=("t", "f"), forms={"t/t": "toffee", "t/f": "caramel"}),
    Gene(
        id="bo", name="Both", alleles=("b",), forms={"b/b": "both"}, placement="both-sex-chromosomes", recombination=0.1
    ),
)


@pytest.fixture(scope="module")
def plan() -> Plan:
    opened = open_plan(SAMPLE)
    assert not isinstance(opened, Faults)
    return msgspec.structs.replace(opened, genes=(*opened.genes, *GENES))


@pytest.mark.parametrize(
    ("carries", "title"),
    [
        ({"amel": "a/a", "lav": {"l/+": "2/3", "+/+": "1/3"}}, "amel, 66 % het lavender"),
        ({"amel": "a/a", "lav": "l/l"}, "opal"),
        ({"amel": "a/a", "lav": "l/l", "tig": "T/+"}, "opal tiger"),
        ({"tig": "T/T"}, "tiger, two copies"),
        ({"tig": {"T/T": "1/3", "T/+": "2/3"}}, "tiger, 33 % two copies"),
        ({"ser": "t/f"}, "caramel"),
        ({"ser": "f/+"}, "het f"),
        ({"ser": "t/+"}, "het toffee"),
        ({"bo": "b/+"}, "het both"),
        ({"bo": "b Z/+ W"}, "het both (both on Z)"),
        ({"bo": "b W/+ Z"}, "het both (both on W)"),
        ({"bo": "b Z/b W"}, "both"),
        ({"bo": "b Z/+ Z"}, "het both"),
        ({"lav": {"l/+": 0.5, "+/+": 0.5}}, "50 % het lavender"),
        ({"lav": {"l/l": "1/4", "l/+": "1/2", "+/+": "1/4"}}, "75 % het lavender"),
        ({"amel": {"a/a": 1}}, "amel"),
        ({}, "normal"),
    ],
)
def test_titles(plan: Plan, carries: Carries, title: str) -> None:
    assert animal_title(plan, carries) == title


@pytest.mark.parametrize(
    ("carries", "title"),
    [
        ({"amel lav": "a l/+ +"}, "double het amel lavender (amel + lavender together)"),
        ({"amel lav": "a +/+ l", "tig": "T/+"}, "tiger double het amel lavender (amel + lavender apart)"),
        ({"amel": "a/+", "lav": "l/+"}, "double het amel lavender"),
        ({"amel lav": "a l/+ l"}, "lavender het amel"),
        ({"amel lav": {"a l/+ +": "1/2", "a +/+ l": "1/2"}}, "double het amel lavender"),
        ({"amel lav tig": "a + T/+ l +"}, "tiger double het amel lavender (amel + tiger | lavender)"),
    ],
)
def test_linked_genes_tell_their_sides(plan: Plan, carries: Carries, title: str) -> None:
    genes = next(iter(carries)).split()
    linked = msgspec.structs.replace(plan, linkage=(Linkage(genes=(*genes,), recombination=(0.1,) * (len(genes) - 1)),))
    assert animal_title(linked if len(genes) > 1 else plan, carries) == title


def test_of_two_genes_the_sides_need_no_names(plan: Plan) -> None:
    linkage = (Linkage(genes=("amel", "lav"), recombination=(0.1,)),)
    two = msgspec.structs.replace(plan, genes=plan.genes[:2], linkage=linkage)
    assert animal_title(two, {"amel lav": "a +/+ l"}) == "double het (apart)"


def test_within_a_sentence_there_are_no_commas(plan: Plan) -> None:
    assert animal(plan, {"amel": "a/a", "lav": {"l/+": "2/3", "+/+": "1/3"}}) == "amel 66 % het lavender"


def test_what_an_animal_came_as_is_not_what_its_young_say_of_it() -> None:
    plan = open_plan(SAMPLES / "boa-my-animals.plan.json")
    assert not isinstance(plan, Faults)
    hazel = next(one for one in plan.my_animals if one.id == "F1")
    assert of_mine(plan, hazel) == f"{animal_title(plan, hazel.carries)} before its young"
    assert of_mine(msgspec.structs.replace(plan, clutch_records=()), hazel) == animal_title(plan, hazel.carries)


@pytest.mark.parametrize(
    ("sire", "sentence", "later"),
    [
        ("D/D", "shows a visual dusk in 100 %; one such young would leave Hazel at 50 %, as Flint", "–"),
        ("D/+", "shows a visual dusk in 96 %; one such young would leave Hazel at 60 %, as Flint", "33 %"),
        ("+/+", "shows a visual dusk in 46 %; that would prove Hazel het dusk.", "33 %"),
    ],
)
def test_a_visual_proves_only_what_its_mate_cannot_give(sire: str, sentence: str, later: str) -> None:
    plan = season_plan(**dominant(sire))
    told = telling(plan, "M", "F", "d", most=2)
    assert sentence in tells(plan, told, plan.my_animals[1], plan.my_animals[0], PlainNumbers())
    assert tells_row(told, plan.my_animals[1], 1, PlainNumbers()) == later
