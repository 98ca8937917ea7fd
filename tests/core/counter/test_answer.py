"""What is said of two animals, and what is aimed at when nobody says."""

from __future__ import annotations

import pytest

from core.counter.answer import CLUTCHES, Goal, answer, goals
from core.counter.card import Parent
from core.plan.model import Carries, Plan
from core.plan.read import load_plan
from desktop.plan_files import SAMPLES

HET: Carries = {"amel": "a/+", "lav": "l/+"}


@pytest.fixture(scope="module")
def plan() -> Plan:
    return load_plan(SAMPLES / "amel-lavender.plan.json")


def test_the_goal_of_the_plan_counts_where_it_can_come(plan: Plan) -> None:
    found = answer(plan, Parent("male", HET), Parent("female", HET))
    assert found.goal == Goal({"amel": "amel", "lav": "lavender"})
    assert [row.is_goal for row in found.rows] == [False, False, False, True]
    assert len(found.chances) == CLUTCHES


def test_else_the_rarest_look_that_shows(plan: Plan) -> None:
    found = answer(plan, Parent("male", {"amel": "a/+"}), Parent("female", {"amel": "a/+"}))
    assert [(row.look, row.share, row.is_goal) for row in found.rows] == [
        ("Normal", "3 in 4", False),
        ("Amel", "1 in 4", True),
    ]


def test_two_normals_give_normals(plan: Plan) -> None:
    found = answer(plan, Parent("male", {}), Parent("female", {}))
    assert [(row.look, row.dots, row.is_goal) for row in found.rows] == [("Normal", 100, True)]


def test_a_tapped_look_is_the_goal_exactly_as_it_looks(plan: Plan) -> None:
    amel = Goal({"amel": "amel", "lav": "normal"})
    found = answer(plan, Parent("male", HET), Parent("female", HET), amel)
    assert [row.look for row in found.rows if row.is_goal] == ["Amel"]


def test_goals_to_choose_from_stand_once_each(plan: Plan) -> None:
    assert goals(plan) == (Goal({"amel": "amel", "lav": "lavender"}), Goal({"amel": "amel"}), Goal({"lav": "lavender"}))
