"""Finite distributions with exact chances, and the two ways to draw from them: by lot, or every way in turn."""

from __future__ import annotations

import math
import random
from bisect import bisect
from collections.abc import Callable, Iterable, Iterator
from fractions import Fraction
from typing import Any, Generic, Protocol, TypeVar

T = TypeVar("T")


def exact(value: int | float | str | Fraction) -> Fraction:
    """The number as it is written: 0.1 is 1/10, "2/3" is 2/3."""
    return value if isinstance(value, Fraction) else Fraction(str(value))


class Distribution(Generic[T]):
    """Values with chances that sum to 1; equal values are merged, impossible ones left out."""

    def __init__(self, pairs: Iterable[tuple[T, Fraction]]) -> None:
        weights: dict[T, Fraction] = {}
        for value, weight in pairs:
            if weight:
                weights[value] = weights.get(value, Fraction(0)) + weight
        total = sum(weights.values(), Fraction(0))
        if total <= 0:
            raise ValueError("nothing is possible here")
        self.chances: dict[T, Fraction] = {value: weight / total for value, weight in weights.items()}
        self.values: list[T] = list(self.chances)
        self._steps: list[float] | None = None

    def items(self) -> Iterable[tuple[T, Fraction]]:
        return self.chances.items()

    def chance(self, test: Callable[[T], bool]) -> Fraction:
        return sum((p for value, p in self.items() if test(value)), Fraction(0))

    def given(self, test: Callable[[T], bool]) -> Distribution[T]:
        """The same, known to pass the test."""
        return Distribution((value, p) for value, p in self.items() if test(value))

    def steps(self) -> list[float]:
        """Cumulative chances, for drawing by lot."""
        if self._steps is None:
            running = Fraction(0)
            self._steps = []
            for p in self.chances.values():
                running += p
                self._steps.append(float(running))
            self._steps[-1] = math.inf
        return self._steps


def coin(chance: int | float | str | Fraction) -> Distribution[bool]:
    p = exact(chance)
    return Distribution([(True, p), (False, 1 - p)])


def always(value: T) -> Distribution[T]:
    return Distribution([(value, Fraction(1))])


def product(parts: Iterable[Distribution[Any]]) -> Distribution[tuple[Any, ...]]:
    """Independent draws, one from each part, as a tuple."""
    rows: list[tuple[tuple[Any, ...], Fraction]] = [((), Fraction(1))]
    for part in parts:
        rows = [((*row, value), p * q) for row, p in rows for value, q in part.items()]
    return Distribution(rows)


class Chance(Protocol):
    """Whatever decides the random events of a play."""

    def draw(self, distribution: Distribution[T]) -> T: ...


class Lot:
    """Draws at random."""

    def __init__(self, rng: random.Random) -> None:
        self.rng = rng

    def draw(self, distribution: Distribution[T]) -> T:
        values = distribution.values
        if len(values) == 1:
            return values[0]
        return values[bisect(distribution.steps(), self.rng.random())]


class _Script:
    """Takes the given turns first, then the first way each time, and remembers the ways not taken."""

    def __init__(self, turns: tuple[int, ...]) -> None:
        self.turns = turns
        self.taken = 0
        self.weight = Fraction(1)
        self.untaken: list[tuple[int, ...]] = []

    def draw(self, distribution: Distribution[T]) -> T:
        values = distribution.values
        if len(values) == 1:
            return values[0]
        if self.taken == len(self.turns):
            self.untaken += [(*self.turns, turn) for turn in range(1, len(values))]
            self.turns = (*self.turns, 0)
        value = values[self.turns[self.taken]]
        self.taken += 1
        self.weight *= distribution.chances[value]
        return value


def every_way(step: Callable[[Chance], T]) -> Iterator[tuple[T, Fraction]]:
    """Run the step once for every way its draws can fall, each result with its chance."""
    scripts: list[tuple[int, ...]] = [()]
    while scripts:
        script = _Script(scripts.pop())
        result = step(script)
        scripts += script.untaken
        yield result, script.weight
