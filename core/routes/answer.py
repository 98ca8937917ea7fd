"""What an engine says of one route at one set of counts, before it is put into the words of a report."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from core.routes.result import Floats

# Money is told to this share of the largest sum that can be paid; the page asks for 1/1000.
MONEY_STEP = 0.0004


@dataclass(frozen=True)
class MoneyGrid:
    """Equal steps of money from `least` up to at least `most`; sums are rounded up to the next step."""

    least: float
    most: float

    @property
    def step(self) -> float:
        """Money of one step."""
        return max(self.most * MONEY_STEP, 1e-9)

    @property
    def size(self) -> int:
        """How many points the grid has."""
        return int(np.ceil((self.most - self.least) / self.step - 1e-6)) + 1

    def index(self, money: Floats) -> np.typing.NDArray[np.int64]:
        """The first point at or above each sum."""
        where = np.ceil((np.asarray(money) - self.least) / self.step - 1e-6).astype(np.int64)
        return np.clip(where, 0, self.size - 1)

    def points(self) -> Floats:
        """The money at every point."""
        return self.least + self.step * np.arange(self.size)


@dataclass(frozen=True, eq=False)
class Answer:
    """One route at one set of counts.

    chance: [seasons], that the goal is met by the end of each season.
    paid: [seasons, grid size], chance that it is met in that season with this much paid in all.
    eggs: worked out when asked for: [seasons, most eggs + 1], chance that it is met in that season by this egg.
    se: [seasons], standard errors of `chance` where it was simulated.
    """

    chance: Floats
    grid: MoneyGrid
    paid: Floats
    eggs: Callable[[], Floats]
    se: Floats | None = None


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
