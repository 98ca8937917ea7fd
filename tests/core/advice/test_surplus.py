"""How many surplus young of each look: the looks together are all surplus young."""

from __future__ import annotations

from collections.abc import Generator
from typing import TypeVar

import pytest

from core.advice.surplus import Surplus, surplus_by_form
from core.routes.evaluate import evaluate_route
from tests.core.advice.advice_cases import bought, pair, pairing, plan, read, route

T = TypeVar("T")


def result_of(steps: Generator[float, None, T]) -> T:
    """Run to the end."""
    while True:
        try:
            assert 0 <= next(steps) <= 1
        except StopIteration as end:
            value: T = end.value
            return value


def looks(found: tuple[Surplus, ...]) -> dict[str, float]:
    return {" ".join(sorted(one.forms.values())): one.expected for one in found}


def test_looks_add_up_to_all_surplus() -> None:
    told = read(plan(routes=[pair(2)]))
    found = result_of(surplus_by_form(told, told.routes[0]))
    assert sum(one.expected for one in found) == pytest.approx(evaluate_route(told, told.routes[0]).surplus)
    assert [one.expected for one in found] == sorted((one.expected for one in found), reverse=True)


def test_nine_three_three_one() -> None:
    # OpenStax Biology m44479: 9:3:3:1. One clutch of 16 without losses; the first double visual is the goal, so of
    # the expected one double visual only what comes after it is surplus.
    sure = {"clutch": {"fixed": 16}, "lays": 1, "clutch_lost": 0, "fertile": 1, "hatches": 1,
            "breeds": {"male": 1, "female": 1}}  # fmt: skip
    once = route([bought("sire", "male"), bought("dams", "female")], [pairing("first", "sire", "dams", 1, 1)])
    told = read(plan(species=sure, routes=[once]))
    found = looks(result_of(surplus_by_form(told, told.routes[0])))
    assert found == pytest.approx(
        {"normal normal": 9, "amel normal": 3, "lavender normal": 3, "amel lavender": 1 - (1 - (15 / 16) ** 16)}
    )
