"""What an engine says of one route at one set of counts, before it is put into the words of a report."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import NoReturn

import numpy as np

from core.routes.result import Floats

# Money is told to this share of the largest sum that can be paid; the page asks for 1/1000.
MONEY_STEP = 0.0004


@dataclass(frozen=True)
class MoneyGrid:
    """Equal steps of money, `size` points from `least` on; sums are rounded up to the next point."""

    least: float
    step: float
    size: int

    def points(self) -> Floats:
        """The money at every point."""
        points: Floats = self.least + self.step * np.arange(self.size, dtype=np.float64)
        return points

    def money(self, point: int) -> float:
        """The money at one point."""
        return float(self.least + self.step * point)


def money_grid(least: float, most: float, unit: float | None = None) -> MoneyGrid:
    """A grid over least..most, fine enough for a report; whole multiples of `unit` where that is finer."""
    step = max(most * MONEY_STEP, 1e-9)
    if unit is not None and unit < step:
        step = unit * int(step / unit + 1e-9)
    return MoneyGrid(least, step, int(np.ceil((most - least) / step - 1e-6)) + 1)


@dataclass(frozen=True, eq=False)
class Answer:
    """One route at one set of counts.

    chance: [seasons], that the goal is met by the end of each season.
    money: worked out when asked for: `by_money`.
    eggs: worked out when asked for: [seasons, most eggs + 1], chance that it is met in that season by this egg; raises
    LookupError where chances and money alone were asked for.
    se: [seasons], standard errors of `chance` where it was simulated.
    beaten: whether another count breeds alike for less, by a step of the grid at least by the end of every season: then
    this one is never better, whatever the money, and what it takes need not be worked out to compare them.
    """

    chance: Floats
    grid: MoneyGrid
    money: Callable[[], Floats]
    eggs: Callable[[], Floats]
    se: Floats | None = None
    beaten: bool = False

    @cached_property
    def by_money(self) -> Floats:
        """Chance that the goal is met by the end of each season with at most so much paid: [seasons, grid size]."""
        return self.money()

    @cached_property
    def paid(self) -> Floats:
        """Chance that the goal is met in each season itself with at most so much paid in all: [seasons, grid size]."""
        return np.diff(self.by_money, axis=0, prepend=0.0)


def untold(*_: object) -> NoReturn:
    """Stands for what was not asked for."""
    raise LookupError("chances and money alone were asked for")


@dataclass(frozen=True, eq=False)
class Expected:
    """Expectations of one route at one set of counts: by season [seasons], except the last two."""

    paid: Floats
    sales: Floats
    present: Floats
    reached: Floats
    young: Floats
    surplus: float
    up_front: float


# The expectations of the set of counts at a place.
Expectations = Callable[[int], Expected]


class InSteps(ABC):
    """Expectations that take long: worked out step by step for a set of counts before they are asked for."""

    @abstractmethod
    def __call__(self, place: int) -> Expected:
        """The expectations of the set of counts at a place."""

    @abstractmethod
    def steps(self, place: int) -> Iterator[float]:
        """Works out what they take, and what happens at every egg; yields the share done."""

    @abstractmethod
    def forget(self) -> None:
        """Lets go of what was kept meanwhile; who asks on waits for it once more."""
