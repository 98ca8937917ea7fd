"""What matters most: how far the answer moves when each assumption does, and which of them change the winner."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from core.advice.matters_ranges import Assumption
from core.routes.answer import MONEY_STEP

# Chances closer than this are equal.
_SAME_CHANCE = 1e-4

Side = Literal["below", "above"]


@dataclass(frozen=True)
class Figures:
    """One route under one value: the least money to the goal (None: out of reach), its range where simulated.

    count: that reaches it for this money; season: the first that reaches the goal's chance there; chances: by count of
    the route's scale, of the goal by the horizon.
    """

    money: float | None
    count: int | None
    season: int
    span: tuple[float, float] | None
    chances: Mapping[int | None, float]


@dataclass(frozen=True, eq=False)
class Reply:
    """What every route answers with an assumption at `value`; routes that cannot be worked out are left out.

    cheapest: the id of the route that reaches the goal with the least money, None where none does.
    """

    value: float
    routes: Mapping[str, Figures]
    cheapest: str | None


@dataclass(frozen=True, eq=False)
class Flip:
    """Where the cheapest route changes: at `value` it is another one, or none; at `last` it is not yet.

    far: the cheapest at the far end of the range, which may be yet another.
    stays: from `value` to there it is the same.
    """

    side: Side
    value: float
    last: float
    winner: str | None
    money: float | None
    far: str | None
    stays: bool


@dataclass(frozen=True, eq=False)
class Effect:
    """What one assumption does at both ends of its range, and where it changes the winner.

    sure: every value between was tried; else the winner was taken to change once at most on the way to an end.
    """

    assumption: Assumption
    low: Reply
    high: Reply
    flips: tuple[Flip, ...]
    sure: bool = False


@dataclass(frozen=True, eq=False)
class Matters:
    """The answer as the plan stands, and what each assumption does to it, in the order of the table."""

    usual: Reply
    effects: tuple[Effect, ...]

    @property
    def sure(self) -> bool:
        """Whether every value of every assumption was tried."""
        return all(effect.sure for effect in self.effects)


def ranked(matters: Matters, route: str) -> tuple[tuple[Effect, ...], tuple[Effect, ...]]:
    """The assumptions that a route's money or chance hangs on, or the winner, most money first; and all others.

    Where the goal falls out of reach counts for more than any money, and there the chance decides.
    """
    count = matters.usual.routes[route].count if route in matters.usual.routes else None
    sized = [(_size(effect, route, count), effect) for effect in matters.effects]
    moving = [(size, effect) for size, effect in sized if max(size) > 0 or effect.flips]
    moving.sort(key=_by_size)
    idle = tuple(effect for size, effect in sized if not (max(size) > 0 or effect.flips))
    return tuple(effect for _, effect in moving), idle


def _size(effect: Effect, route: str, count: int | None) -> tuple[float, float]:
    """How far money and chance of a route lie apart between the ends; nothing for less than can be told."""
    low, high = effect.low.routes.get(route), effect.high.routes.get(route)
    if low is None or high is None:
        return 0.0, 0.0
    sums = [math.inf if one.money is None else one.money for one in (low, high)]
    money = 0.0 if sums[0] == sums[1] else abs(sums[0] - sums[1])
    chance = abs(chance_at(low, count) - chance_at(high, count))
    return money if money > MONEY_STEP * min(sums) else 0.0, chance if chance > _SAME_CHANCE else 0.0


def _by_size(sized: tuple[tuple[float, float], Effect]) -> tuple[float, float]:
    return -sized[0][0], -sized[0][1]


def chance_at(figures: Figures, count: int | None) -> float:
    """The chance at a count; the best there is where that count was not tried."""
    return figures.chances.get(count, max(figures.chances.values(), default=0.0))
