"""One plan after another worked out: the money it takes, and how that hangs on what each lot costs."""

from __future__ import annotations

import math
from collections.abc import Generator, Sequence
from dataclasses import dataclass

from core.advice.worth_lots import Market, bought
from core.advice.worth_money import Even, Priced, money_needed, stake
from core.advice.worth_options import Option
from core.plan.chances import chance
from core.plan.model import Plan
from core.routes.assemble import Counted
from core.routes.evaluate import Engined, engine_steps

# Count, and how the money hangs on the price there.
Stakes = tuple[tuple[int | None, Even | Priced], ...]


@dataclass(frozen=True)
class Goals:
    """The chance asked for, and that chance less and more two standard errors where plans are played."""

    usual: float
    low: float
    high: float


def goals_of(plan: Plan) -> Goals:
    """The chances that a plan's sums are asked about."""
    usual = chance(plan.goal.chance)
    noise = 2 * math.sqrt(usual * (1 - usual) / plan.simulation.runs)
    return Goals(usual, max(usual - noise, 1e-9), usual + noise)


@dataclass(frozen=True, eq=False)
class Tried:
    """One plan worked out: the least money that reaches the goal, at which count; None where it is out of reach.

    span: that money within the noise, where simulated; stakes: by the place of each lot that it buys, an entry a count.
    """

    option: Option
    money: float | None
    count: int | None
    span: tuple[float, float] | None
    stakes: dict[int, Stakes]

    @property
    def rank(self) -> float:
        """Its money, infinite where the goal is out of reach."""
        return math.inf if self.money is None else self.money

    def most(self, place: int, money: float, goal: float) -> tuple[float, int | None]:
        """The highest price of a lot at which `money` reaches the chance, and at which count; -inf where none does."""
        found = [(stake.most(money, goal), count) for count, stake in self.stakes[place]]
        return max(((price, count) for price, count in found if price is not None), key=_first, default=_NO_PRICE)


_NO_PRICE: tuple[float, int | None] = (-math.inf, None)


class Trying:
    """Works plans out for one market."""

    def __init__(self, plan: Plan, market: Market) -> None:
        self._plan, self._market = plan, market
        self.goals = goals_of(plan)
        self.tried: list[Tried] = []
        self.failed: list[Option] = []

    def attempt(self, option: Option) -> Generator[float, None, None]:
        """One plan more; one that cannot be worked out is put aside."""
        try:
            said = yield from engine_steps(self._plan, option.route, self._market.genetics)
        except ValueError:
            self.failed.append(option)
        else:
            self.tried.append(self._tried(option, said))

    def _tried(self, option: Option, said: Engined) -> Tried:
        goals, scaled = self.goals, said.scaled
        money, count = _least(scaled, goals.usual)
        span = None if said.played is None else (_least(scaled, goals.low)[0], _least(scaled, goals.high)[0])
        asked = (goals.usual,) if span is None else (goals.low, goals.usual, goals.high)
        herds: dict[int, list[int]] = {}
        for group in bought(option.route):
            place = self._market.place(group)
            if place is not None:
                herds.setdefault(place, []).append(option.route.groups.index(group))
        stakes = {
            place: tuple(
                (counted.count, stake(problem, counted, which, asked))
                for problem, counted in zip(said.problems, scaled, strict=False)
            )
            for place, which in herds.items()
        }
        return Tried(option, None if math.isinf(money) else money, count, span, stakes)


def _least(scaled: Sequence[Counted], goal: float) -> tuple[float, int | None]:
    """The least money that reaches a chance, infinite where none does, and the count; of equals the smallest."""
    needs = [(money_needed(counted, goal), counted.count) for counted in scaled]
    return min(((need, count) for need, count in needs if need is not None), key=_first, default=(math.inf, None))


def _first(pair: tuple[float, int | None]) -> float:
    return pair[0]
