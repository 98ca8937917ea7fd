"""What is to be multiplied with what, told once and followed at many points: nothing has to be thought out again."""

from __future__ import annotations

import math
from collections.abc import Callable, Hashable, Mapping, Sequence
from typing import NamedTuple

import numpy as np

from core.routes.exact.algebra import Complex, CountAlgebra
from core.routes.exact.limits import OutOfReach

# Products of one recipe: a third of a second to find, and half a minute to follow at some thousand points.
_MOST_PRODUCTS = 50_000
# The number of an element; None stands for the one that changes nothing.
Place = int | None
# Two that are multiplied.
Part = tuple[Place, Place]


class _Product(NamedTuple):
    """An element that is the product of two, or that is added to it."""

    out: int
    one: Place
    other: Place
    adds: bool


class Recipe:
    """Sums of products of elements that are given, `told` by key; the rest are numbered as they come up."""

    def __init__(self) -> None:
        self.told: dict[Hashable, int] = {}
        self._products: list[_Product] = []
        self._totals: dict[tuple[Part, ...], int] = {}
        self._size = 0

    @property
    def products(self) -> int:
        """How many products there are."""
        return len(self._products)

    def new(self) -> int:
        """The number of another element, to be put or added to."""
        self._size += 1
        return self._size - 1

    def given(self, key: Hashable) -> int:
        """The number of an element that is given under a key."""
        if key not in self.told:
            self.told[key] = self.new()
        return self.told[key]

    def put(self, out: int, one: Place, other: Place, *, adds: bool) -> None:
        """Has an element become the product of two, or that be added to it. Raises OutOfReach for too many."""
        if len(self._products) == _MOST_PRODUCTS:
            raise OutOfReach("young can be held in too many ways")
        self._products.append(_Product(out, one, other, adds))

    def total(self, parts: Sequence[Part]) -> Place:
        """The number of a sum of products, which is worked out once."""
        if len(parts) == 1 and None in parts[0]:
            return parts[0][0] if parts[0][1] is None else parts[0][1]
        key = tuple(part if part[0] is not None else (part[1], None) for part in parts)
        if key not in self._totals:
            self._totals[key] = self.new()
            for place, part in enumerate(key):
                self.put(self._totals[key], *part, adds=place > 0)
        return self._totals[key]

    def follow(self, algebra: CountAlgebra, given: Mapping[Hashable, Complex]) -> list[Complex]:
        """All elements; those worked out have the shape that all that are given have together."""
        one = algebra.one(1)
        shape = np.broadcast_shapes(one.shape, *{own.shape for own in given.values()})
        found: list[Complex] = [one] * self._size
        for key, number in self.told.items():
            found[number] = given[key]
        multiply = _plainly(shape) if algebra.size == 1 else _in_algebra(algebra, shape)
        for out, a, b, adds in self._products:
            if not adds and found[out] is one:
                found[out] = np.empty(shape, dtype=complex)
            if b is None:
                _put(found[out], one if a is None else found[a], adds=adds)
            else:
                multiply(found[out], one if a is None else found[a], found[b], adds)
        return found


_Multiply = Callable[[Complex, Complex, Complex, bool], None]


def _plainly(shape: tuple[int, ...]) -> _Multiply:
    """Into an array that is there: memory asked for anew takes longer than the product."""
    between = np.empty(shape, dtype=complex)

    def multiply(out: Complex, one: Complex, other: Complex, adds: bool) -> None:
        if adds:
            np.multiply(one, other, out=between)
            np.add(out, between, out=out)
        else:
            np.multiply(one, other, out=out)

    return multiply


def _in_algebra(algebra: CountAlgebra, shape: tuple[int, ...]) -> _Multiply:
    pairs = algebra.few_pairs
    if pairs is None or algebra.takes_all_at_once(math.prod(shape)):

        def by_algebra(out: Complex, one: Complex, other: Complex, adds: bool) -> None:
            _put(out, algebra.multiply(one, other), adds=adds)

        return by_algebra
    between = np.empty((*shape[:-2], shape[-1]), dtype=complex)

    def multiply(out: Complex, one: Complex, other: Complex, adds: bool) -> None:
        for i, j, k, first in pairs:
            if first and not adds:
                np.multiply(one[..., i, :], other[..., j, :], out=out[..., k, :])
            else:
                np.multiply(one[..., i, :], other[..., j, :], out=between)
                out[..., k, :] += between

    return multiply


def _put(out: Complex, own: Complex, *, adds: bool) -> None:
    if adds:
        out += own
    else:
        out[...] = own
