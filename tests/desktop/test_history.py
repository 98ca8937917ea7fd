"""Undo and redo as a person expects them, whatever is done in whatever order."""

from __future__ import annotations

import msgspec
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PySide6.QtCore import QLocale

from core.plan.model import Plan
from core.plan.read import load_plan
from desktop.history import History
from desktop.locale_reading import read_number
from desktop.plan_files import SAMPLE

PLANS = [msgspec.structs.replace(load_plan(SAMPLE), title=str(n)) for n in range(5)]


@pytest.mark.usefixtures("qapp")
@settings(derandomize=True, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.lists(st.one_of(st.integers(0, 4), st.sampled_from(["undo", "redo"])), max_size=30))
def test_it_behaves_like_two_stacks(moves: list[int | str]) -> None:
    history, plan = History(PLANS[0]), PLANS[0]
    past: list[Plan] = []
    future: list[Plan] = []
    for move in moves:
        if isinstance(move, int):
            history.add("step", PLANS[move], None)
            past, future, plan = [*past, plan], [], PLANS[move]
        elif move == "undo":
            history.undo()
            if past:
                past, future, plan = past[:-1], [*future, plan], past[-1]
        else:
            history.redo()
            if future:
                past, future, plan = [*past, plan], future[:-1], future[-1]
        assert history.plan is plan
        assert history.is_clean == (plan is PLANS[0])
        assert (history.undo_what is None) == (not past)
        assert (history.redo_what is None) == (not future)


@pytest.mark.usefixtures("qapp")
def test_steps_of_one_field_are_one() -> None:
    history = History(PLANS[0])
    history.add("change it", PLANS[1], "field")
    history.add("change it", PLANS[2], "field")
    history.add("change the other", PLANS[3], "other")
    history.undo()
    assert history.plan is PLANS[2]
    history.undo()
    assert history.plan is PLANS[0]
    assert history.undo_what is None


@pytest.mark.usefixtures("qapp")
def test_typing_back_is_no_step() -> None:
    history = History(PLANS[0])
    history.add("change it", PLANS[1], "field")
    history.add("change it", PLANS[0], "field")
    assert history.plan is PLANS[0]
    assert history.undo_what is None
    assert history.is_clean


@pytest.mark.usefixtures("qapp")
def test_a_saved_plan_is_not_joined_with_what_follows() -> None:
    history = History(PLANS[0])
    history.add("change it", PLANS[1], "field")
    history.set_clean()
    history.add("change it", PLANS[2], "field")
    assert not history.is_clean
    history.undo()
    assert history.plan is PLANS[1]
    assert history.is_clean


@pytest.mark.usefixtures("qapp")
def test_a_plan_that_was_never_saved_is_never_clean() -> None:
    history = History(PLANS[0])
    history.begin(PLANS[1], clean=False)
    assert not history.is_clean
    history.add("change it", PLANS[2], None)
    history.undo()
    assert not history.is_clean


def test_numbers_are_read_as_the_locale_writes_them() -> None:
    before = QLocale()
    try:
        QLocale.setDefault(QLocale(QLocale.Language.German, QLocale.Country.Germany))
        assert read_number("1.800", whole=False) == 1800
        assert read_number("12,5", whole=False) == 12.5
        QLocale.setDefault(QLocale(QLocale.Language.English, QLocale.Country.UnitedStates))
        assert read_number("1,800", whole=False) == 1800
        assert read_number("12.5", whole=False) == 12.5
        assert read_number("12.5", whole=True) is None
        assert read_number("66 %", whole=False) == 66
        assert read_number("soon", whole=False) is None
        assert read_number("nan", whole=False) is None
        assert read_number("1e999", whole=True) is None
    finally:
        QLocale.setDefault(before)
