"""Shares as dots out of 100."""

from __future__ import annotations

import pytest

from core.counter.dots import dots_of


@pytest.mark.parametrize(
    ("shares", "dots"),
    [
        ([9 / 16, 3 / 16, 3 / 16, 1 / 16], (56, 19, 19, 6)),
        ([1 / 3, 1 / 3, 1 / 3], (34, 33, 33)),
        ([1.0], (100,)),
        ([0.999, 0.001], (99, 1)),
        ([0.9999], (99,)),
        ([0.498, 0.498, 0.002, 0.002], (49, 49, 1, 1)),
        ([], ()),
    ],
)
def test_dots(shares: list[float], dots: tuple[int, ...]) -> None:
    assert dots_of(shares) == dots
