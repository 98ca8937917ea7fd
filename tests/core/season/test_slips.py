"""Records that cannot be: the slips that would explain them are found by trying each."""

from __future__ import annotations

from typing import Any

import pytest

from core.genetics.beliefs import ImpossibleEvidence, belief_report
from core.plan.model import Plan
from core.season.slips import UNUSUAL, likely_slips
from tests.core.season.season_cases import PAIR, plan, record

HET = {"id": "H", "name": "Ember", "sex": "male", "carries": {"lav": "l/+"}}
PLAIN = {"id": "P", "name": "Slate", "sex": "male"}
DAM = {"id": "F", "name": "Hazel", "sex": "female", "carries": {"lav": "l/+"}}


def slips(told: Plan) -> tuple[str, ...]:
    with pytest.raises(ImpossibleEvidence) as caught:
        belief_report(told)
    return likely_slips(told, caught.value)


def test_another_sire_or_a_misread_form() -> None:
    told = plan(my_animals=[PLAIN, HET, DAM], clutch_records=[record("P", "F", ("normal", 5), ("lavender", 1))])
    assert slips(told) == (
        "It could be if the sire was Ember, not Slate.",
        "It could be if 1 young taken for lavender was something else.",
        UNUSUAL,
    )


def test_a_wrong_sex_on_the_sex_chromosomes() -> None:
    gene: dict[str, Any] = {"id": "lav", "name": "Ash", "alleles": ["l"], "forms": {"l/l": "lavender"}}
    animals = [
        {"id": "P", "name": "Slate", "sex": "male", "carries": {"lav": "l/+"}},
        {"id": "F", "name": "Hazel", "sex": "female"},
    ]
    told = plan(
        genes=[gene | {"placement": "sex-chromosome"}],
        my_animals=animals,
        clutch_records=[record("P", "F", ("lavender", 1), sex="male")],
    )
    assert "It could be if 1 young was sexed wrongly (male)." in slips(told)


def test_an_animal_with_the_wrong_father() -> None:
    child = {"id": "Y", "name": "Juniper", "sex": "female", "sire": "P", "dam": "F", "forms": {"lav": "lavender"}}
    told = plan(my_animals=[PLAIN, HET, DAM, child])
    assert slips(told) == (
        "It could be if Juniper was taken for lavender and is something else.",
        "It could be if its sire was Ember, not Slate.",
    )


def test_an_impossible_founder() -> None:
    told = plan(my_animals=[{"id": "P", "sex": "male", "forms": {"lav": "lavender"}}, *PAIR])
    assert slips(told) == ("It could be if P was taken for lavender and is something else.",)


def test_a_founder_has_its_slips_though_another_animal_cannot_be_either() -> None:
    child = {"id": "Y", "name": "Juniper", "sex": "female", "sire": "P", "dam": "F", "forms": {"lav": "lavender"}}
    stray = {"id": "S", "name": "Rowan", "sex": "male", "forms": {"lav": "lavender"}}
    told = plan(my_animals=[PLAIN, HET, DAM, child, stray])
    assert slips(told) == ("It could be if Rowan was taken for lavender and is something else.",)


def test_a_young_has_its_slips_though_its_sister_cannot_be_either() -> None:
    sisters = [
        {"id": name[0], "name": name, "sex": "female", "sire": "P", "dam": "F", "forms": {"lav": "lavender"}}
        for name in ("Juniper", "Willow")
    ]
    told = plan(my_animals=[PLAIN, HET, DAM, *sisters])
    assert slips(told) == (
        "It could be if Juniper was taken for lavender and is something else.",
        "It could be if its sire was Ember, not Slate.",
    )
