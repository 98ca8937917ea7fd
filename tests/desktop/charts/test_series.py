"""Curves as values: thinning loses nothing that can be seen, labels never overlap, ticks are round."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from desktop.panels.charts.placing import round_ticks, spread
from desktop.panels.charts.series import Crossing, Series, alike, stairs, thinned, value_at


@given(st.lists(st.floats(0, 1), min_size=1, max_size=300))
def test_thinning_keeps_every_visible_rise(rises: list[float]) -> None:
    y = np.sort(np.array(rises))
    x = np.arange(y.size, dtype=np.float64)
    few_x, few_y = thinned(x, y)
    assert few_x[0] == x[0]
    assert few_x[-1] == x[-1]
    at = np.searchsorted(few_x, x, side="right") - 1
    assert np.all(np.abs(few_y[at] - y) <= 1 / 500 + 1e-12)


def test_a_staircase_rises_at_each_step_and_runs_on() -> None:
    x, y = stairs(np.array([1.0, 3.0]), np.array([0.2, 0.7]), 10.0)
    assert x.tolist() == [1, 3, 3, 10]
    assert y.tolist() == [0.2, 0.2, 0.7, 0.7]


def test_values_between_steps_stay_and_between_points_slope() -> None:
    x, y = np.array([1.0, 3.0]), np.array([0.2, 0.6])
    step = Series("a", "A", 0, x, y, is_step=True)
    slope = Series("a", "A", 0, x, y)
    assert value_at(step, 2) == pytest.approx(0.2)
    assert value_at(slope, 2) == pytest.approx(0.4)
    assert value_at(step, 0.5) is None


@given(st.lists(st.tuples(st.floats(0, 200), st.sampled_from([16.0, 32.0])), min_size=1, max_size=8))
def test_labels_never_overlap_nor_leave(wanted: list[tuple[float, float]]) -> None:
    wanted.sort()
    heights = [height for _, height in wanted]
    centres = spread([centre for centre, _ in wanted], heights, -50.0, 250.0)
    edges = [(c - h / 2, c + h / 2) for c, h in zip(centres, heights, strict=True)]
    assert edges[0][0] >= -50 - 1e-6
    assert edges[-1][1] <= 250 + 1e-6
    for (_, above), (below, _) in pairwise(edges):
        assert below >= above - 1e-6


def test_labels_with_room_stay_where_they_are() -> None:
    assert spread([20.0, 80.0], [16.0, 16.0], 0.0, 100.0) == [20.0, 80.0]


@given(st.floats(0, 1e6), st.floats(1, 1e6), st.integers(1, 12))
def test_ticks_are_few_and_inside(low: float, width: float, most: int) -> None:
    ticks = round_ticks(low, low + width, most)
    assert len(ticks) <= most + 1
    assert all(low - 1e-6 * width <= tick <= low + width * (1 + 1e-6) for tick in ticks)


def test_pictures_are_alike_where_nothing_would_look_otherwise() -> None:
    curve = Series("a", "A", 0, np.array([0.0, 1.0]), np.array([0.0, 0.5]), crossing=Crossing(1.0, "1"))
    same = replace(curve, x=curve.x.copy(), y=curve.y.copy())
    assert alike((curve, 0.0, "x"), (same, 0.0, "x"))
    assert not alike(curve, replace(same, y=np.array([0.0, 0.6])))
    assert not alike(curve, replace(same, noise=np.array([0.1, 0.1])))
    assert not alike(curve, replace(same, crossing=None))
    assert not alike((curve,), (curve, curve))
    assert not alike(curve, None)
