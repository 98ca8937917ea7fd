"""Counts along a season's eggs: states joined many at a time are those joined one by one."""

from __future__ import annotations

import numpy as np
import pytest

from core.routes.exact.algebra import Complex, CountAlgebra
from core.routes.exact.filling import filling_algebra


@pytest.mark.parametrize(
    ("lacking", "classes", "vacancies"),
    [((2,), (3,), (4,)), ((1, 2), (2, 1), (3, 2)), ((1,), (2, 0), (8, 0)), ((), (2,), (7,))],
)
def test_many_at_a_time_is_one_by_one(
    lacking: tuple[int, ...], classes: tuple[int, ...], vacancies: tuple[int, ...]
) -> None:
    algebra = filling_algebra(lacking, classes, vacancies)
    assert algebra.size > 16
    for state in range(algebra.size):
        assert np.array_equal(algebra.targets(state), CountAlgebra.targets(algebra, state))
    one, other = (_some(algebra.size, seed) for seed in (1, 2))
    slow = np.zeros_like(one)
    for i in range(algebra.size):
        for j, k in enumerate(algebra.targets(i)):
            if k >= 0:
                slow[k] += one[i] * other[j]
    assert algebra.multiply(one, other) == pytest.approx(slow)


def _some(states: int, seed: int) -> Complex:
    rng = np.random.default_rng(seed)
    some: Complex = rng.random((states, 3)) + 1j * rng.random((states, 3))
    return some
