"""Money to the goal as it depends on what one kind of animal costs: the exact answer priced anew."""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from core.plan.chances import chance
from core.plan.model import Plan
from core.routes.answer import Answer, untold
from core.routes.assemble import SAME, Counted
from core.routes.problem import Problem
from core.routes.result import Counts, Floats, two_errors

# Sums that differ by less than this share of a step are equal.
_SLACK = 1e-6
_ROUNDING = 1e-12


@dataclass(frozen=True)
class Goals:
    """The chance asked for, and that chance less and more two standard errors where plans are played."""

    usual: float
    low: float
    high: float


def goals_of(plan: Plan) -> Goals:
    """The chances that a plan's sums are asked about."""
    usual = chance(plan.goal.chance)
    noise = float(two_errors(usual, plan.simulation.runs))
    return Goals(usual, max(usual - noise, 1e-9), usual + noise)


@dataclass(frozen=True, eq=False)
class Priced:
    """A route at one set of counts whose money depends on the price of some of the animals it buys.

    many: [seasons], how many of them are paid for where the goal is met in that season; spent: [seasons], what they
    cost then at the prices they have. A price moves all money paid by price times number, and nothing else.
    """

    answer: Answer
    many: Counts
    spent: Floats

    def money(self, price: float, goal: float) -> float | None:
        """The least money in hand that reaches the chance `goal` with each of them at `price`; None where none does.

        In the plan's currency, rounded up to the answer's grid.
        """
        rises = np.diff(self.answer.paid, axis=1, prepend=0.0)
        sums = self.answer.grid.points() + (self.many * price - self.spent)[:, None]
        order = np.argsort(sums, axis=None, kind="stable")
        chance = np.cumsum(rises.ravel()[order])
        if chance[-1] < goal - SAME:
            return None
        return float(sums.ravel()[order[np.searchsorted(chance, goal - SAME)]])

    def as_is(self, goal: float) -> float | None:
        """The same at the prices they have."""
        none = np.zeros_like(self.many), np.zeros_like(self.spent)
        return replace(self, many=none[0], spent=none[1]).money(0.0, goal)

    def chance_with(self, money: float, price: float) -> float:
        """The chance of the goal with no more than `money` in hand, each of them at `price`."""
        return float(self._met(money - self.many * price + self.spent).sum())

    def most(self, money: float, goal: float) -> float | None:
        """The highest price at which `money` in hand still reaches the chance `goal`; None where not even a gift does.

        Infinite where the goal is reached before any of them would be paid for.
        """
        if self.chance_with(money, 0.0) < goal - SAME:
            return None
        if self._free_chance(money) >= goal - SAME:
            return math.inf
        prices = self._steps(money)
        low, high = 0, len(prices)
        while low < high:
            middle = (low + high) // 2
            if self.chance_with(money, float(prices[middle])) >= goal - SAME:
                low = middle + 1
            else:
                high = middle
        return float(prices[low - 1]) if low else 0.0

    def _free_chance(self, money: float) -> float:
        """The chance of the goal before any of them is paid for."""
        return float(self._met(np.full(len(self.many), money))[self.many == 0].sum())

    def _met(self, money: Floats) -> Floats:
        """The chance that the goal is met in each season with no more than so much paid by then: [seasons]."""
        grid = self.answer.grid
        where = np.floor((money - grid.least) / grid.step + _SLACK).astype(np.int64)
        paid = self.answer.paid[np.arange(len(where)), np.clip(where, 0, grid.size - 1)]
        return np.where(where >= 0, paid, 0.0)

    def _steps(self, money: float) -> Floats:
        """The prices at which the chance with this money falls, ascending: right after each of them."""
        paying = self.many > 0
        room = money + self.spent[paying, None] - self.answer.grid.points()
        prices: Floats = np.unique(room / self.many[paying, None])
        return prices[prices >= 0]


@dataclass(frozen=True)
class Even:
    """The same where all of them are paid for whatever happens: a price moves the whole curve.

    needs: the money that each chance asked about takes at the prices they have; None where it is out of reach.
    """

    many: int
    spent: float
    needs: Mapping[float, float | None]

    def as_is(self, goal: float) -> float | None:
        """As `Priced.as_is`, for one of the chances in `needs`."""
        return self.needs[goal]

    def most(self, money: float, goal: float) -> float | None:
        """As `Priced.most`, for one of the chances in `needs`."""
        needed = self.needs[goal]
        if needed is None or needed - self.spent > money * (1 + _ROUNDING):
            return None
        return max(0.0, (money - needed + self.spent) / self.many)


def stake(problem: Problem, counted: Counted, herds: Collection[int], goals: Collection[float]) -> Even | Priced:
    """How an answer depends on the price of these herds, by index; `goals`: the chances that will be asked about.

    Few numbers wherever those will do, so that hundreds of answers need not be kept.
    """
    whole = priced(problem, counted.answer, herds)
    if whole.many.min() < whole.many.max():
        return whole
    return Even(int(whole.many[0]), float(whole.spent[0]), {goal: money_needed(counted, goal) for goal in goals})


def money_needed(counted: Counted, goal: float) -> float | None:
    """The least money that reaches a chance within the plan's seasons; None where none does."""
    money = counted.money(goal, len(counted.answer.chance))
    return None if math.isinf(money) else money


def priced(problem: Problem, answer: Answer, herds: Collection[int]) -> Priced:
    """An answer as it depends on the price of these herds, by index."""
    many, spent = np.zeros(problem.horizon, dtype=np.int64), np.zeros(problem.horizon)
    seasons = np.arange(1, problem.horizon + 1)
    for index in herds:
        herd = problem.herds[index]
        # Who buys the finished animals in a season buys nothing else in it.
        bought = (seasons >= herd.arrives) & ~((seasons == herd.arrives) & (seasons == (problem.outright or 0)))
        many += np.where(bought, herd.count, 0)
        spent += np.where(bought, herd.count * herd.price, 0.0)
    # The eggs of an answer hold on to all that it was worked out with, which is too much for hundreds of them.
    return Priced(replace(answer, eggs=untold), many, spent)


def least(scaled: Sequence[Counted], goal: float) -> tuple[float, int | None]:
    """The least money that reaches a chance, infinite where none does, and the count; of equals the smallest."""
    needs = [(money_needed(counted, goal), counted.count) for counted in scaled]
    return min(((need, count) for need, count in needs if need is not None), key=_first, default=(math.inf, None))


def _first(pair: tuple[float, int | None]) -> float:
    return pair[0]
