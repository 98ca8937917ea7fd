"""Worth paying: the most to pay for each animal for sale before the best other plan is cheaper."""

from __future__ import annotations

import math
from collections.abc import Collection, Generator, Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import chain, islice
from typing import Literal

import msgspec

from core.advice.worth_lots import Lot, Market
from core.advice.worth_money import Goals
from core.advice.worth_options import Option, options, swaps, takes_long, unlike
from core.advice.worth_pairs import pairs
from core.advice.worth_trying import Tried, Trying
from core.plan.model import ForSale, Plan, Route
from core.progress import part_of
from core.routes.lists import Lists

# More plans than this take longer than anybody waits; that some were left out is told.
MOST_MORE = 200
# Prices closer than this are equal.
_CENT = 0.005

# priced: there is a most; budget: no other plan gets there, so that the budget bounds it; only: nor is there a budget;
# late: the goal is met before it would be paid for; dearer: not even as a gift; never: no plan with it gets there;
# untried: there was no plan with it.
Reason = Literal["priced", "budget", "only", "late", "dearer", "never", "untried"]


@dataclass(frozen=True, eq=False)
class Worth:
    """What one lot is worth: the most to pay for each, None where there is no such sum (`reason` says why).

    span: the most within the noise, where simulated; plan, many, money: the plan that bears that price, how many it
    buys, and what it takes with so many at the prices as they are; other, limit: the best plan without it and what
    that takes, or else the budget; useless: it carries nothing that is wanted.
    """

    lot: Lot
    most: float | None
    reason: Reason
    span: tuple[float, float] | None = None
    plan: Option | None = None
    many: int = 1
    money: float | None = None
    other: Option | None = None
    limit: float | None = None
    useless: bool = False

    @property
    def margin(self) -> float | None:
        """How much less is asked than it is worth; below zero where it is too dear."""
        return None if self.most is None else self.most - self.lot.asked

    @property
    def verdict(self) -> Literal["yes", "close", "no"]:
        """Whether to buy it at what is asked; close: within the noise."""
        if self.most is None:
            return "yes" if self.reason in ("only", "late") else "no"
        low, high = self.span or (self.most, self.most)
        if low >= self.lot.asked - _CENT:
            return "yes"
        return "no" if high < self.lot.asked - _CENT else "close"


@dataclass(frozen=True, eq=False)
class WorthPaying:
    """What every lot is worth, the best buys first, and by what it was found.

    lots: of the plan's market, by place; tried: the plans compared; left_out: whether there were too many; failed:
    those that cannot be worked out.
    """

    rows: tuple[Worth, ...]
    lots: tuple[Lot, ...]
    tried: tuple[Option, ...]
    left_out: bool
    failed: tuple[Option, ...]


def worth_steps(
    plan: Plan, found: Iterable[Route] = (), *, most_more: int = MOST_MORE, work: Trying | None = None
) -> Generator[float, None, WorthPaying]:
    """What every animal for sale, and every other bought group, is worth; yields the share of the work done.

    Money set aside at the goal's chance, within its seasons, is the measure. The plans compared are the listed routes,
    `found` (such as proposals of the search) and buying the finished animals; then, `most_more` at most, plain pairs of
    what is for sale and mine, and listed routes with one animal for sale in another's place. work: what was tried
    before.
    """
    work = work or Trying(plan, Market(plan))
    market = work.market
    first = list(options(plan, found))
    for done, option in enumerate(first):
        yield from part_of(work.attempt(option), done, 2 * len(first))
    # What is played takes too long to be played with every animal there is.
    bred = sorted((one for one in work.tried if one.option.origin == "listed" and not one.span), key=_rank)
    more = chain(pairs(plan), swaps([one.option.route for one in bred], market)) if most_more else iter(())
    more = unlike(more, first)
    first_few = list(islice(more, most_more))
    chosen = [option for option in first_few if not takes_long(option.route)]
    for done, option in enumerate(chosen):
        yield from part_of(work.attempt(option), len(chosen) + done, 2 * len(chosen))
    useful = of_use(plan, market.lots)
    rows = [
        replace(
            worth(lot, market.stands_for(place), work.tried, work.goals, plan.goal.budget), useless=place not in useful
        )
        for place, lot in enumerate(market.lots)
        if lot.groups or (lot.offer and lot.offer.quantity)
    ]
    tried = tuple(one.option for one in work.tried)
    left_out = len(chosen) < len(first_few) or next(more, None) is not None
    return WorthPaying(tuple(sorted(rows, key=_order)), market.lots, tried, left_out, tuple(work.failed))


def worth(lot: Lot, place: int, tried: Sequence[Tried], goals: Goals, budget: float | None) -> Worth:
    """What one lot is worth, by all plans that were tried; `place`: that of the lot in its market."""
    buying = [one for one in tried if place in one.stakes]
    other = min((one for one in tried if place not in one.stakes and one.money is not None), key=_rank, default=None)
    best = min(buying, key=_rank, default=None)
    if best is None or best.money is None:
        return Worth(
            lot,
            None,
            "never" if buying else "untried",
            other=other.option if other else None,
            limit=other.money if other else None,
        )
    limit = other.money if other else budget
    if limit is None:
        return Worth(lot, None, "only", None, best.option, best.many(place, best.count), best.money)
    prices = [(one.most(place, limit, goals.usual), one) for one in buying]
    (most, count), bearer = max(prices, key=_price)
    if math.isinf(most):
        bearer, count = best, best.count
    return Worth(
        lot,
        None if math.isinf(most) else most,
        "dearer" if most < 0 else "late" if math.isinf(most) else "priced" if other else "budget",
        _span(place, buying, [one for one in tried if place not in one.stakes], goals, budget),
        bearer.option,
        bearer.many(place, count),
        bearer.takes(place, count, goals.usual),
        other.option if other else None,
        limit,
    )


def _span(
    place: int, buying: Sequence[Tried], others: Sequence[Tried], goals: Goals, budget: float | None
) -> tuple[float, float] | None:
    """The most within the noise; None where nothing played has a say."""
    if not any(one.span for one in (*buying, *others)):
        return None
    ends = []
    for end, goal in ((0, goals.high), (1, goals.low)):
        limit = min((one.span[end] if one.span else one.rank for one in others), default=math.inf)
        limit = (budget or 0.0) if math.isinf(limit) else limit
        ends.append(max(one.most(place, limit, goal if one.span else goals.usual)[0] for one in buying))
    low, high = (max(end, 0.0) for end in ends)
    return (low, high) if high - low > _CENT else None


def of_use(plan: Plan, lots: Sequence[Lot]) -> Collection[int]:
    """The places of the lots that carry something of what a row of the goal wants, if only possibly."""
    offers = tuple(ForSale(id=str(place), sex=lot.sex, carries=lot.carries, price=0) for place, lot in enumerate(lots))
    useful: set[int] = set()
    for row in plan.goal.want:
        goal = msgspec.structs.replace(plan.goal, want=(row,))
        lists = Lists(msgspec.structs.replace(plan, goal=goal, for_sale=offers, my_animals=(), clutch_records=()))
        useful.update(i for i, one in enumerate(lists.candidates) if one.may_carry or not lists.genes)
    return useful


def _rank(one: Tried) -> float:
    return one.rank


def _price(priced: tuple[tuple[float, int | None], Tried]) -> float:
    return priced[0][0]


def _order(row: Worth) -> tuple[int, float, float]:
    """The best buys first; then what has no price: worth any, of no use, out of reach."""
    group = {"only": 0, "late": 0, "priced": 1, "budget": 1, "dearer": 2, "never": 3, "untried": 4}[row.reason]
    return group, -(row.margin or 0.0), row.lot.asked
