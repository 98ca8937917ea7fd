"""When a pair and its young can breed."""

from __future__ import annotations

import msgspec
import pytest

from core.counter.growing import breeds_in, hatchling_words, pair_words
from core.plan.model import Plan
from core.plan.read import load_plan
from desktop.plan_files import SAMPLES


@pytest.fixture(scope="module")
def plan() -> Plan:
    return load_plan(SAMPLES / "amel-lavender.plan.json")


def test_a_hatchling_grows_up(plan: Plan) -> None:
    assert (breeds_in(plan, "male", 2030), breeds_in(plan, "female", 2030)) == (2032, 2033)
    assert hatchling_words(plan, 2031) == "A male hatched in 2031 can breed in 2033, a female in 2034."


def test_one_year_for_both(plan: Plan) -> None:
    alike = msgspec.structs.replace(plan.species.matures, male=3, female=3)
    even = msgspec.structs.replace(plan, species=msgspec.structs.replace(plan.species, matures=alike))
    assert hatchling_words(even, 2031) == "A hatchling of 2031 can breed in 2034."


def test_live_young_are_born(plan: Plan) -> None:
    live = msgspec.structs.replace(plan, species=msgspec.structs.replace(plan.species, young="live"))
    assert hatchling_words(live, 2031) == "A male born in 2031 can breed in 2033, a female in 2034."
    alike = msgspec.structs.replace(live.species, matures=msgspec.structs.replace(plan.species.matures, male=3))
    even = msgspec.structs.replace(live, species=alike)
    assert hatchling_words(even, 2031) == "Young born in 2031 can breed in 2034."


def test_when_the_pair_can_breed() -> None:
    assert pair_words(2031, 0) == "This pair can breed this year."
    assert pair_words(2031, 1) == "This pair can breed in 2032, after 1 season of growing."
    assert pair_words(2031, 2) == "This pair can breed in 2033, after 2 seasons of growing."
