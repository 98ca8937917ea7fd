"""Places for held young, filled over several seasons, as counts that multiply.

The young of a route that can be held fall into lots: one for each season, preference and kind of parents, in the order
in which a herd's places are filled. Which of them are held does not depend on the order of the eggs, so a founder's
whole life is one element, and founders multiply.

An element does not tell how many of each lot are held but how many young there are in the first few lots, all other
young left open: with fewer young than places those are plain polynomials, which `held` turns into chances of holding.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache, reduce
from math import comb, factorial, prod
from typing import NamedTuple

import numpy as np

from core.routes.exact.algebra import Complex, CountAlgebra
from core.routes.exact.brood import HoldClass
from core.routes.exact.eggs import EggWeights, clutch_total
from core.routes.exact.limits import Room
from core.routes.exact.ways import HerdCounts, Ways, numbering
from core.routes.result import Floats


class Lot(NamedTuple):
    """Young of one class that can be held in one season."""

    season: int
    kind: HoldClass


class Layout(NamedTuple):
    """Per held herd: its places, and the lots that fill them, first come first."""

    free: tuple[int, ...]
    lots: tuple[tuple[Lot, ...], ...]

    @property
    def size(self) -> int:
        """How many counts of young an element tells apart."""
        return prod(comb(free + len(lots), free) for free, lots in zip(self.free, self.lots, strict=True))

    def before(self, season: int) -> tuple[int, ...]:
        """Per herd, how many lots there are before a season."""
        return tuple([sum([lot.season < season for lot in lots]) for lots in self.lots])


class _Term(NamedTuple):
    """A term of a clutch: where it goes, how many eggs it tells in how many orders, and the step that each takes."""

    place: int
    state: int
    total: int
    ways: int
    taken: list[int]


class Places:
    """The algebra of a layout; an element has numbers for [counts of young, states of the goal, points]."""

    def __init__(self, goal: CountAlgebra, layout: Layout, room: Room) -> None:
        self.goal, self.layout, self._room = goal, layout, room
        self._numbering = numbering(tuple(map(len, layout.lots)), layout.free)
        self.counts = self._numbering.counts
        self._before: dict[int, tuple[int, ...]] = {}
        self._first: dict[tuple[int, ...], Places] = {}

    def one(self, points: int) -> Complex:
        """The element of no young at all."""
        element = np.zeros((len(self.counts), self.goal.size, points), dtype=complex)
        self.add_none(element, 1)
        return element

    def add_none(self, element: Complex, weight: Complex | float) -> None:
        """Adds so much of no young at all to an element of shape [..., counts, goal, points], in place."""
        element[..., self._numbering.empty, 0, :] += weight

    def multiply(self, a: Complex, b: Complex) -> Complex:
        """The product of two elements of shape [..., counts, goal, points]."""
        pairs = self._numbering.pairs
        shape = a.shape if a.shape == b.shape else np.broadcast_shapes(a.shape, b.shape)
        self._room.take(math.prod(shape) * max(len(pairs), 1) // max(shape[-3], 1))
        if self.goal.size > 1:
            out = np.zeros(shape, dtype=complex)
            for i, j, k in pairs:
                out[..., k, :, :] += self.goal.multiply(a[..., i, :, :], b[..., j, :, :])
            return out
        out = np.empty(shape, dtype=complex)
        product = np.empty_like(out[..., 0, 0, :])
        ones, others, sums = _rows(a), _rows(b), _rows(out)
        begun = [False] * len(sums)
        for i, j, k in pairs:
            if begun[k]:
                sums[k] += np.multiply(ones[i], others[j], out=product)
            else:
                # Every count is a sum of itself and of none.
                np.multiply(ones[i], others[j], out=sums[k])
                begun[k] = True
        return out

    def before(self, season: int) -> tuple[int, ...]:
        """Per herd, how many lots there are before a season."""
        if season not in self._before:
            self._before[season] = self.layout.before(season)
        return self._before[season]

    def first(self, lots: tuple[int, ...]) -> Places:
        """The algebra of the first so many lots per herd."""
        if lots not in self._first:
            few = tuple(own[:many] for own, many in zip(self.layout.lots, lots, strict=True))
            self._first[lots] = Places(self.goal, Layout(self.layout.free, few), self._room)
        return self._first[lots]

    def rows(self, lots: tuple[int, ...]) -> list[int]:
        """Where an element tells what one of the first so many lots per herd does."""
        return [self._numbering.index[counts] for counts in self.first(lots).counts]

    def power(self, element: Complex, exponent: int) -> Complex:
        """The element times itself, `exponent` >= 1 times in all."""
        total = element
        for _ in range(exponent - 1):
            total = self.multiply(total, element)
        return total

    def clutch(self, sizes: Floats, eggs: EggWeights, steps: Mapping[tuple[int, int], int]) -> Complex:
        """Clutches of these sizes; `steps`: the lots (herd, lot) that these young may be of, and which step each is.

        The steps before those are of the goal's rows, where they count.
        """
        states = self.goal.states if len(eggs.steps) > len(steps) else self.goal.states[:1]
        found = np.zeros((len(self.counts), self.goal.size, len(eggs.miss)), dtype=complex)
        told: dict[tuple[int, ...], Complex] = {}
        for beyond, most, terms in self._numbering.kept(
            ("terms", tuple(steps.items()), states), lambda: list(self._terms(steps, states))
        ):
            if beyond not in told or len(told[beyond]) <= most:
                told[beyond] = _orders(sizes, reduce(np.add, [eggs.steps[step] for step in beyond], eggs.miss), most)
            for place, state, total, ways, taken in terms:
                term = np.multiply(told[beyond][total], ways, out=found[place, state])
                for step in taken:
                    term *= eggs.steps[step]
        return found

    def _terms(
        self, steps: Mapping[tuple[int, int], int], states: Sequence[tuple[int, ...]]
    ) -> Iterator[tuple[tuple[int, ...], int, list[_Term]]]:
        """What `clutch` adds up: steps of lots that are not told, the most eggs that are, and every term of them."""
        for lengths, counts in self._numbering.by_lengths.items():
            within = [counted for counted in counts if _only(counted, steps)]
            every = [
                (counted, state, [*_young(counted, steps), *((row, n) for row, n in enumerate(told) if n)])
                for counted in within
                for state, told in enumerate(states)
            ]
            terms = [
                _Term(
                    self._numbering.index[counted],
                    state,
                    sum(n for _, n in young),
                    factorial(sum(n for _, n in young)) // prod(factorial(n) for _, n in young),
                    [step for step, n in young for _ in range(n)],
                )
                for counted, state, young in every
            ]
            beyond = tuple([step for (herd, lot), step in steps.items() if lot >= lengths[herd]])
            yield beyond, max(term.total for term in terms), terms

    def ways(self, lots: tuple[int, ...]) -> Ways:
        """Every way of holding young of the first so many lots per herd."""
        return self._numbering.ways(lots)

    def open(self, element: Complex) -> Complex:
        """The weight of everything, whatever is held: [..., goal, points]."""
        return element[..., 0, :, :]


def _rows(element: Complex) -> list[Complex]:
    """Count by count, where the goal has one state."""
    return [*np.moveaxis(element[..., 0, :], -2, 0)] if element.ndim > 3 else [*element[:, 0]]


def _only(counts: HerdCounts, steps: Mapping[tuple[int, int], int]) -> bool:
    return all((herd, lot) in steps for herd, lot, _ in _nonzero(counts))


def _young(counts: HerdCounts, steps: Mapping[tuple[int, int], int]) -> Iterator[tuple[int, int]]:
    """By which step young of each lot come, and how many there are."""
    return ((steps[herd, lot], n) for herd, lot, n in _nonzero(counts))


def _nonzero(counts: HerdCounts) -> Iterator[tuple[int, int, int]]:
    return ((herd, lot, n) for herd, own in enumerate(counts) for lot, n in enumerate(own) if n)


@lru_cache(maxsize=64)
def _coefficients(sizes: tuple[float, ...], most: int) -> Floats:
    """Of clutches with k eggs set apart, k up to `most`, as polynomials in the weight of the others: [k, powers]."""
    found = np.zeros((most + 1, len(sizes)))
    for k in range(min(most, len(sizes) - 1) + 1):
        found[k, : len(sizes) - k] = [sizes[n] * comb(n, k) for n in range(k, len(sizes))]
    return found


def _orders(sizes: Floats, miss: Complex, most: int) -> Complex:
    """Clutches with k eggs set apart, the others missing, for k up to `most`: [k, points]."""
    if not most:
        return clutch_total(sizes, miss)[None]
    coefficients, many = _coefficients(tuple(sizes.tolist()), most), len(sizes)
    powers = np.ones((many, len(miss)), dtype=complex)
    known = 1
    while known < many:
        # Twice as many powers at a time.
        step = powers[known - 1] * miss
        more = min(known, many - known)
        np.multiply(powers[:more], step, out=powers[known : known + more])
        known += more
    orders: Complex = (coefficients @ powers.view(np.float64)).view(np.complex128)
    return orders
