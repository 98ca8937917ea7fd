"""The draws that plays are made of: each value as often as it should come, by whatever way it is found."""

from __future__ import annotations

import math
from itertools import combinations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from core.routes.simulation.clutches import nth_hit
from core.routes.simulation.learning import UNKNOWN, look_up
from core.routes.simulation.lots import Binomials, Lots, spread

DRAWS = 200_000


def near(counts: NDArray[np.intp], chances: NDArray[np.float64]) -> bool:
    """Within what chance does in so many draws."""
    expected = chances * counts.sum()
    return bool((np.abs(counts - expected) <= 5 * np.sqrt(expected * (1 - chances)) + 1).all())


@pytest.mark.parametrize(("bits", "group"), [(2, 1), (6, 3), (8, 1), (11, 2)])
def test_rows_give_each_value_as_often_as_told(bits: int, group: int) -> None:
    """Sure values and rare ones, more of them than cells, in rows that were added apart."""
    rng, lots, values = np.random.default_rng(3), Lots(bits, group), np.arange(17) ** 2
    chances, rows = [], []
    for _ in range(2):
        more = rng.random((6, len(values))) ** 6
        more[0], more[0, 5], more[1:, 3], more[2, -4:] = 0, 1, 0, 0
        rows += lots.add(np.broadcast_to(values, more.shape), more).tolist()
        chances += list(more / more.sum(axis=1, keepdims=True))
    for row, own in zip(rows, chances, strict=True):
        drawn = np.bincount(lots.draw(rng, np.full(DRAWS, row)), minlength=values[-1] + 1)[values]
        assert drawn.sum() == DRAWS
        assert not drawn[own == 0].any()
        assert near(drawn, own)


def test_successes_among_any_number_of_trials() -> None:
    rng, binomials = np.random.default_rng(4), Binomials(20)
    for chance, base in zip((0.3, 0.97), binomials.bases(np.array([0.3, 0.97])).tolist(), strict=True):
        for trials in (0, 1, 7, 20):
            drawn = np.bincount(binomials.draw(rng, np.full(DRAWS, base + trials)), minlength=21)
            ways = np.array([math.comb(trials, hits) for hits in range(21)])
            hits = np.arange(21)
            assert near(drawn, ways * chance**hits * (1 - chance) ** np.maximum(trials - hits, 0))


@pytest.mark.parametrize(("eggs", "hits"), [(1, 1), (6, 1), (6, 3), (7, 5), (4, 4)])
def test_all_orders_of_a_clutch_are_equally_likely(eggs: int, hits: int) -> None:
    every = np.array(list(combinations(range(1, eggs + 1), hits)))
    for nth in range(1, hits + 1):
        alike = (np.full(DRAWS, number) for number in (eggs, hits, nth))
        found = np.bincount(nth_hit(*alike, np.random.default_rng(nth)), minlength=eggs + 1)
        assert near(found, np.bincount(every[:, nth - 1], minlength=eggs + 1) / len(every))


@given(st.lists(st.integers(0, 4)))
def test_places_are_spread_by_their_counts(counts: list[int]) -> None:
    assert spread(np.array(counts, dtype=np.intp)).tolist() == np.repeat(np.arange(len(counts)), counts).tolist()


@pytest.mark.parametrize("shape", [(0,), (5,), (3, 4000)])
def test_a_table_learns_what_it_is_asked_and_nothing_twice(shape: tuple[int, ...]) -> None:
    table, learnt = np.full(50, UNKNOWN), list[int]()

    def learn(places: list[int]) -> None:
        learnt.extend(places)
        table[places] = [place * place for place in places]

    places = np.random.default_rng(6).integers(0, 40, shape)
    places.ravel()[-1:] = 49
    for _ in range(2):
        assert (look_up(table, places, learn) == places * places).all()
        assert sorted(learnt) == sorted(set(places.ravel().tolist()))
