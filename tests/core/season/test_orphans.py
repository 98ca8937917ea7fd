"""A parent taken out: what its young are believed to carry stays."""

from __future__ import annotations

import pytest

from core.genetics.beliefs import belief_report
from core.plan.check import check_plan
from core.season.orphans import without_parent
from tests.core.season.season_cases import PAIR, plan, record

YOUNG = {"id": "Y", "sex": "female", "sire": "M", "dam": "F", "forms": {"lav": "normal"}}
MATE = {"id": "N", "sex": "male", "carries": {"lav": "l/l"}}


def test_young_of_a_visual_stay_hets() -> None:
    told = plan(my_animals=[*PAIR, YOUNG], clutch_records=[record("M", "F", ("normal", 2))])
    left = without_parent(told, "M")
    assert not check_plan(left)
    # Two normal young leave the dam a het with 1/3; half of her daughters by him would be visuals.
    young = left.my_animals[1]
    assert (young.id, young.sire) == ("Y", None)
    assert young.carries == {"lav": {"l/+": pytest.approx(5 / 6), "l/l": pytest.approx(1 / 6)}}
    assert belief_report(left)["Y"] == {"lav": {"l/+": pytest.approx(1)}}


def test_what_was_seen_of_the_young_counts_once() -> None:
    # A dam of 2/3 to a normal male: her daughter carries it with 1/3, and after two normal young of her own with 1/9.
    normal = {"id": "M", "sex": "male", "carries": {}}
    seen = record("N", "Y", ("normal", 2))
    told = plan(my_animals=[normal, PAIR[1], YOUNG, MATE], clutch_records=[seen])
    before = belief_report(told)["Y"]["lav"]["l/+"]
    assert before == pytest.approx(1 / 9)
    left = without_parent(told, "F")
    assert left.my_animals[1].carries == {"lav": {"l/+": pytest.approx(1 / 3), "+/+": pytest.approx(2 / 3)}}
    assert belief_report(left)["Y"]["lav"]["l/+"] == pytest.approx(before)


def test_plain_young_carry_nothing() -> None:
    plain = [{"id": "M", "sex": "male"}, {"id": "F", "sex": "female"}]
    assert without_parent(plan(my_animals=[*plain, YOUNG]), "M").my_animals[1].carries == {}
