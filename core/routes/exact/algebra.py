"""What the goal still lacks, as an algebra: counts per goal row, each short of its full count, added egg by egg.

An element has one number for each such state (axis -2) at every probe point (axis -1). Multiplying two elements adds
their counts; what fills any of the rows falls out, so an element holds just the chance that none is full yet.
"""

from __future__ import annotations

import math
import operator
from collections.abc import Callable, Sequence
from itertools import product

import numpy as np
from numpy.typing import NDArray

Complex = NDArray[np.complex128]

# Above this many states a product goes through Fourier transforms instead of all pairs of states.
_MOST_PAIRED_STATES = 16


def raised(numbers: Complex, exponent: int) -> Complex:
    """Numbers to a whole power >= 1, by squaring: numpy's own power takes logarithms of complex numbers."""
    return _power(numbers, exponent, operator.mul)


def _power(a: Complex, exponent: int, multiply: Callable[[Complex, Complex], Complex]) -> Complex:
    result: Complex | None = None
    while True:
        if exponent & 1:
            result = a if result is None else multiply(result, a)
        exponent >>= 1
        if not exponent:
            assert result is not None
            return result
        a = multiply(a, a)


class GoalAlgebra:
    """The states of some goal rows, `lacking[r]` young short of full at the start."""

    def __init__(self, lacking: Sequence[int]) -> None:
        self.lacking = tuple(lacking)
        self.states = tuple(product(*(range(count) for count in lacking)))
        self.size = len(self.states)
        index = {state: i for i, state in enumerate(self.states)}
        self._steps = [self._step(row, index) for row in range(len(self.lacking))]
        self._pairs = self._all_pairs(index) if 1 < self.size <= _MOST_PAIRED_STATES else ()

    def one(self, points: int) -> Complex:
        """The element of a beginning with nothing counted: [states, points]."""
        element = np.zeros((self.size, points), dtype=complex)
        element[0] = 1
        return element

    def multiply(self, a: Complex, b: Complex) -> Complex:
        """The product of two elements of shape [..., states, points]."""
        if self.size == 1:
            return a * b
        if self._pairs:
            out = np.zeros(np.broadcast_shapes(a.shape, b.shape), dtype=complex)
            for i, j, k in self._pairs:
                out[..., k, :] += a[..., i, :] * b[..., j, :]
            return out
        return self._by_transform(a, b)

    def power(self, a: Complex, exponent: int) -> Complex:
        """The element times itself, `exponent` >= 1 times in all."""
        return _power(a, exponent, self.multiply)

    def lay(self, element: Complex, miss: Complex, hits: Sequence[Complex]) -> Complex:
        """One more egg: it misses with weight `miss` or counts for row r with weight `hits[r]` (each [points])."""
        out = element * miss
        if self.size > 1:
            for (source, target), hit in zip(self._steps, hits, strict=True):
                out[..., target, :] += element[..., source, :] * hit
        return out

    def total(self, element: Complex) -> Complex:
        """The sum over states: [..., points]."""
        return element[..., 0, :] if self.size == 1 else element.sum(axis=-2)

    def _step(self, row: int, index: dict[tuple[int, ...], int]) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
        raised = [(i, index.get((*s[:row], s[row] + 1, *s[row + 1 :]))) for i, s in enumerate(self.states)]
        kept = [(i, j) for i, j in raised if j is not None]
        return np.array([i for i, _ in kept], dtype=np.intp), np.array([j for _, j in kept], dtype=np.intp)

    def _all_pairs(self, index: dict[tuple[int, ...], int]) -> tuple[tuple[int, int, int], ...]:
        sums = (
            (i, j, index.get(tuple(x + y for x, y in zip(a, b, strict=True))))
            for (i, a), (j, b) in product(enumerate(self.states), repeat=2)
        )
        return tuple((i, j, k) for i, j, k in sums if k is not None)

    def _by_transform(self, a: Complex, b: Complex) -> Complex:
        padded = tuple(2 * count - 1 for count in self.lacking)
        axes = tuple(range(-1 - len(padded), -1))

        def spectrum(element: Complex) -> Complex:
            return np.fft.fftn(element.reshape(*element.shape[:-2], *self.lacking, element.shape[-1]), padded, axes)

        full = np.fft.ifftn(spectrum(a) * spectrum(b), axes=axes)
        cut = full[(..., *(slice(count) for count in self.lacking), slice(None))]
        return cut.reshape(*cut.shape[: cut.ndim - len(padded) - 1], math.prod(self.lacking), cut.shape[-1])
