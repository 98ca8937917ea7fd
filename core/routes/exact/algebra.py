"""Counts that matter along a run of eggs, as an algebra: adding counts is multiplying elements.

An element has one number for each state of the counts (axis -2) at every probe point (axis -1). How counts add is the
algebra's own: for goal rows, what fills a row falls out, so that an element holds the chance that none is full yet;
for young to hold back, counts stop at the vacancies.
"""

from __future__ import annotations

import math
import operator
from collections.abc import Callable, Hashable, Sequence
from functools import cached_property, lru_cache
from itertools import product
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

Complex = NDArray[np.complex128]
Indices = NDArray[np.intp]
Floats = NDArray[np.float64]

# So many probe points in front tell what is expected, by a tiny imaginary part (see `eggs.EXPECTATIONS`).
EXPECTING = 6
# Above this many states a product of goal counts goes through Fourier transforms instead of all pairs of states.
_MOST_PAIRED_STATES = 16
# Up to so many numbers of each state, calls take longer than they do.
_FEW_NUMBERS = 96
# What a number of such transforms takes, in products.
_FOURIER = 12


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


class _Joined(NamedTuple):
    """The states one can be joined with, in the order of what they become: those sums, and where each begins."""

    others: Indices
    sums: Indices
    first: Indices


def _sorted(targets: Indices) -> _Joined:
    others = np.argsort(targets, kind="stable")[int((targets < 0).sum()) :]
    sums, first = np.unique(targets[others], return_index=True)
    return _Joined(others, sums, first)


class CountAlgebra:
    """Elements over the states that a start reaches by steps; `add` joins two states, None where the sum falls out."""

    def __init__(self, start: Hashable, steps: Sequence[Hashable], add: Callable[[Any, Any], Hashable | None]) -> None:
        self.states: tuple[Any, ...] = _reached(start, steps, add)
        self.size = len(self.states)
        self.steps = len(steps)
        self._every_step, self._add = tuple(steps), add
        self._index = {state: i for i, state in enumerate(self.states)}
        self._table: tuple[tuple[int, int, int], ...] | None = None
        self._joined: list[_Joined] | None = None

    def one(self, points: int) -> Complex:
        """The element of a beginning with nothing counted: [states, points]."""
        element = np.zeros((self.size, points), dtype=complex)
        element[0] = 1
        return element

    @property
    def effort(self) -> int:
        """How many numbers a product takes for each of its own, about."""
        if self.size <= _MOST_PAIRED_STATES:
            return 1 if self.size == 1 else len(self._pairs()) // self.size
        return sum(len(own.others) for own in self._joins()) // self.size

    @cached_property
    def few_pairs(self) -> tuple[tuple[int, int, int, bool], ...] | None:
        """Which states are joined to which, and whether it is the first time for that one; None for many states."""
        if self.size > _MOST_PAIRED_STATES:
            return None
        seen, found = set[int](), []
        for i, j, k in self._pairs():
            found.append((i, j, k, k not in seen))
            seen.add(k)
        return tuple(found)

    def takes_all_at_once(self, numbers: int) -> bool:
        """Whether elements of so many numbers are multiplied with all pairs of states in one call."""
        return self.size <= _MOST_PAIRED_STATES and numbers <= _FEW_NUMBERS * self.size

    @cached_property
    def _pairs_by_sum(self) -> tuple[Indices, Indices, Indices]:
        """The same pairs as two rows, in the order of what they become, and where each of those begins."""
        ones, others, sums = np.array(sorted(self._pairs(), key=operator.itemgetter(2)), dtype=np.intp).T
        return ones, others, np.searchsorted(sums, np.arange(self.size))

    def multiply(self, a: Complex, b: Complex) -> Complex:
        """The product of two elements of shape [..., states, points]."""
        if self.size == 1:
            return a * b
        if self.takes_all_at_once(max(a.size, b.size)):
            ones, others, first = self._pairs_by_sum
            found: Complex = np.add.reduceat(a[..., ones, :] * b[..., others, :], first, axis=-2)
            return found
        out = np.zeros(np.broadcast_shapes(a.shape, b.shape), dtype=complex)
        if self.size <= _MOST_PAIRED_STATES:
            for i, j, k in self._pairs():
                out[..., k, :] += a[..., i, :] * b[..., j, :]
            return out
        for i, own in enumerate(self._joins()):
            joined = a[..., i, None, :] * b[..., own.others, :]
            out[..., own.sums, :] += np.add.reduceat(joined, own.first, axis=-2)
        return out

    def power(self, a: Complex, exponent: int) -> Complex:
        """The element times itself, `exponent` >= 1 times in all."""
        return _power(a, exponent, self.multiply)

    def lay(self, element: Complex, miss: Complex, steps: Sequence[Complex]) -> Complex:
        """One more egg: no change with weight `miss`, or step v with weight `steps[v]` (each [points])."""
        out = element * miss
        if self.size > 1:
            for (sources, targets), weight in zip(self._moves, steps, strict=True):
                for source, target in zip(sources, targets, strict=True):
                    out[..., target, :] += element[..., source, :] * weight
        return out

    def total(self, element: Complex) -> Complex:
        """The sum over states: [..., points]."""
        return element[..., 0, :] if self.size == 1 else element.sum(axis=-2)

    @cached_property
    def _moves(self) -> list[tuple[list[int], list[int]]]:
        """By step, from which states it leads to which."""
        return [self._moved(step) for step in self._every_step]

    def _moved(self, step: Hashable) -> tuple[list[int], list[int]]:
        sums = [(i, self._add(state, step)) for i, state in enumerate(self.states)]
        kept = [(i, self._index[state]) for i, state in sums if state is not None]
        return [i for i, _ in kept], [j for _, j in kept]

    def targets(self, state: int) -> Indices:
        """What each state is when joined with one of them; -1 where it falls out."""
        sums = (self._add(self.states[state], other) for other in self.states)
        return np.array([-1 if own is None else self._index[own] for own in sums], dtype=np.intp)

    def stepped(self, step: int) -> Indices:
        """What each state is after a step; -1 where it falls out."""
        sources, targets = self._moves[step]
        found = np.full(self.size, -1, dtype=np.intp)
        found[sources] = targets
        return found

    def _joins(self) -> list[_Joined]:
        if self._joined is None:
            self._joined = [_sorted(self.targets(state)) for state in range(self.size)]
        return self._joined

    def _pairs(self) -> tuple[tuple[int, int, int], ...]:
        if self._table is None:
            sums = ((i, j, self._add(a, b)) for (i, a), (j, b) in product(enumerate(self.states), repeat=2))
            self._table = tuple((i, j, self._index[k]) for i, j, k in sums if k is not None)
        return self._table


class GoalAlgebra(CountAlgebra):
    """Counts per goal row, each short of its full count `lacking[r]`; step r counts one young in row r."""

    def __init__(self, lacking: Sequence[int]) -> None:
        self.lacking = tuple(lacking)
        zero = (0,) * len(self.lacking)
        ones = [(*zero[:row], 1, *zero[row + 1 :]) for row in range(len(zero))]
        super().__init__(zero, ones, self._sum)

    @property
    def effort(self) -> int:
        """How many numbers a product takes for each of its own, about."""
        return super().effort if self.size <= _MOST_PAIRED_STATES else _FOURIER << len(self.lacking)

    def multiply(self, a: Complex, b: Complex) -> Complex:
        """The product of two elements of shape [..., states, points]."""
        if self.size <= _MOST_PAIRED_STATES:
            return super().multiply(a, b)
        out = self._convolved(a, b)
        # Rounding of the real part would drown the tiny imaginary one, which tells what is expected.
        x, y = a[..., :EXPECTING], b[..., :EXPECTING]
        out.imag[..., :EXPECTING] = (self._convolved(x.real, y.imag) + self._convolved(x.imag, y.real)).real
        return out

    def _convolved(self, a: Complex | Floats, b: Complex | Floats) -> Complex:
        padded = tuple(2 * count - 1 for count in self.lacking)
        axes = tuple(range(-1 - len(padded), -1))
        full = np.fft.ifftn(self._spectrum(a, padded, axes) * self._spectrum(b, padded, axes), axes=axes)
        kept = tuple(slice(count) for count in self.lacking)
        cut: Complex = full[(Ellipsis, *kept, slice(None))]  # type: ignore[arg-type]
        return cut.reshape(*cut.shape[: cut.ndim - len(padded) - 1], math.prod(self.lacking), cut.shape[-1])

    def _spectrum(self, element: Complex | Floats, padded: tuple[int, ...], axes: tuple[int, ...]) -> Complex:
        return np.fft.fftn(element.reshape(*element.shape[:-2], *self.lacking, element.shape[-1]), padded, axes)

    def _sum(self, a: tuple[int, ...], b: tuple[int, ...]) -> tuple[int, ...] | None:
        total = tuple(x + y for x, y in zip(a, b, strict=True))
        return total if all(x < full for x, full in zip(total, self.lacking, strict=True)) else None


class _OneAnimal(GoalAlgebra):
    """The counts of a goal of one animal: there is but one state, and nothing to look up."""

    def multiply(self, a: Complex, b: Complex) -> Complex:
        """The product of two elements of shape [..., 1, points]."""
        return a * b


@lru_cache(maxsize=4)
def goal_algebra(lacking: tuple[int, ...]) -> GoalAlgebra:
    """The algebra of these counts, which most routes of a plan share."""
    return GoalAlgebra(lacking) if math.prod(lacking) > 1 else _OneAnimal(lacking)


def _reached(
    start: Hashable, steps: Sequence[Hashable], add: Callable[[Any, Any], Hashable | None]
) -> tuple[Hashable, ...]:
    """All states reached from the start, in lexicographic order where states are tuples."""
    found = {start}
    fresh = [start]
    while fresh:
        sums = {add(state, step) for state in fresh for step in steps} - found
        fresh = [state for state in sums if state is not None]
        found.update(fresh)
    rest: list[Any] = list(found - {start})
    return start, *sorted(rest)
