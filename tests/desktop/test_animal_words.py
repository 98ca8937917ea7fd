"""Trade names of animals: combinations, series, second copies, and what is only possible."""

from __future__ import annotations

import msgspec
import pytest

from core.plan.model import Carries, Gene, Plan
from desktop.plan_files import SAMPLE, Faults, open_plan
from desktop.words.animals import animal, animal_title

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
        ({"bo": "b Z/+ W"}, "het both"),
        ({"lav": {"l/+": 0.5, "+/+": 0.5}}, "50 % het lavender"),
        ({"lav": {"l/l": "1/4", "l/+": "1/2", "+/+": "1/4"}}, "75 % het lavender"),
        ({"amel": {"a/a": 1}}, "amel"),
        ({}, "normal"),
    ],
)
def test_titles(plan: Plan, carries: Carries, title: str) -> None:
    assert animal_title(plan, carries) == title


def test_within_a_sentence_there_are_no_commas(plan: Plan) -> None:
    assert animal(plan, {"amel": "a/a", "lav": {"l/+": "2/3", "+/+": "1/3"}}) == "amel 66 % het lavender"
