"""One plan after another worked out: the money it takes, and how that hangs on what each lot costs."""

from __future__ import annotations

import math
from collections.abc import Generator
from dataclasses import dataclass

import numpy as np

from core.advice.worth_lots import Market, bought
from core.advice.worth_money import Even, Priced, goals_of, least, stake
from core.advice.worth_options import Option
from core.plan.alike import alike_to
from core.plan.model import Plan
from core.routes.evaluate import Engined, engine_steps
from core.routes.unanswerable import UNANSWERABLE

# Count, and how the money hangs on the price there.
Stakes = tuple[tuple[int | None, Even | Priced], ...]


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

    def many(self, place: int, count: int | None) -> int:
        """How many animals of a lot are bought at a count of the scale."""
        return int(np.max(self._stake(place, count).many))

    def takes(self, place: int, count: int | None, goal: float) -> float | None:
        """The money that reaches the chance at a count of the scale, at the prices as they are."""
        return self._stake(place, count).as_is(goal)

    def _stake(self, place: int, count: int | None) -> Even | Priced:
        return next(stake for its, stake in self.stakes[place] if its == count)


_NO_PRICE: tuple[float, int | None] = (-math.inf, None)


class Trying:
    """Works plans out for one market."""

    def __init__(self, plan: Plan, market: Market) -> None:
        self._plan, self.market = plan, market
        self.goals = goals_of(plan)
        self.tried: list[Tried] = []
        self.failed: list[Option] = []
        self._known: set[bytes] = set()

    def attempt(self, option: Option) -> Generator[float, None, None]:
        """One plan more; one that cannot be worked out is put aside, and one that does what another did is left."""
        alike = alike_to(option.route)
        if alike in self._known:
            return
        self._known.add(alike)
        try:
            said = yield from engine_steps(self._plan, option.route, self.market.genetics, bare=True)
        except UNANSWERABLE:
            self.failed.append(option)
        else:
            self.tried.append(self._tried(option, said))

    def take(self, option: Option, said: Engined) -> None:
        """One plan more, that was worked out elsewhere."""
        alike = alike_to(option.route)
        if alike not in self._known:
            self._known.add(alike)
            self.tried.append(self._tried(option, said))

    def _tried(self, option: Option, said: Engined) -> Tried:
        goals, scaled = self.goals, said.scaled
        money, count = least(scaled, goals.usual)
        span = None if said.played is None else (least(scaled, goals.low)[0], least(scaled, goals.high)[0])
        asked = (goals.usual,) if span is None else (goals.low, goals.usual, goals.high)
        herds: dict[int, list[int]] = {}
        for group in bought(option.route):
            place = self.market.place(group)
            if place is not None:
                herds.setdefault(place, []).append(option.route.groups.index(group))
        stakes: dict[int, Stakes] = {}
        for place, which in herds.items():
            pairs = zip(said.problems, scaled, strict=False)
            found = tuple((one.count, stake(problem, one, which, asked)) for problem, one in pairs)
            # What would be bought only after the goal is met, or after the horizon, is not bought.
            if np.max(found[0][1].many) > 0:
                stakes[place] = found
        return Tried(option, None if math.isinf(money) else money, count, span, stakes)


def _first(pair: tuple[float, int | None]) -> float:
    return pair[0]
