"""What animals are worth against the best plans that the search finds, and not only against what is listed."""

from __future__ import annotations

from collections.abc import Generator
from dataclasses import replace as changed

from msgspec.structs import replace

from core.advice.worth import Worth, WorthPaying, of_use, worth_steps
from core.advice.worth_lots import Market
from core.plan.model import Bought, Plan, Route
from core.progress import part_of
from core.search.find import MOST, find
from core.search.found import Found, best_routes

# Every animal takes a search; more than this takes minutes. That some were left out is told.
MOST_SEARCHED = 12
# Plans that each of these searches is asked for: the best of them decides, and others may bear a higher price.
_KEPT = 3


def searched_worth_steps(plan: Plan) -> Generator[float, None, WorthPaying]:
    """As `worth_steps`, with what the search finds among the plans; yields the share of the work done.

    Searched are the cheapest plans as things are; for every animal for sale that the best plan buys, the cheapest
    without it; for every other, the cheapest with it as a gift: one of them bears the highest price, as what is best
    without it is known.
    """
    market = Market(plan)
    useful = of_use(plan, market.lots)
    many = min(MOST_SEARCHED, len(useful)) + 4.0
    routes = list((yield from part_of(_found(plan), 0, many)))
    answered = yield from part_of(worth_steps(plan, routes), 1, many)
    rows = [row for row in answered.rows if row.lot.offer is not None and not row.useless]
    for done, row in enumerate(rows[:MOST_SEARCHED], start=2):
        turned, gift = _turned(plan, market, row)
        found = yield from part_of(_found(turned, _KEPT), done, many)
        routes += [_at_its_price(route, Market(turned), market, gift) for route in found]
    answered = yield from part_of(worth_steps(plan, routes), many - 1, many)
    return changed(answered, left_out=answered.left_out or len(rows) > MOST_SEARCHED)


def _turned(plan: Plan, market: Market, row: Worth) -> tuple[Plan, int | None]:
    """The plan without an animal for sale where the best plan buys it; else with it as a gift, and its place."""
    offer = row.lot.offer
    if row.money is not None and (row.limit is None or row.money <= row.limit):
        return replace(plan, for_sale=tuple(one for one in plan.for_sale if one is not offer)), None
    given = tuple(replace(one, price=0) if one is offer else one for one in plan.for_sale)
    return replace(plan, for_sale=given), market.lots.index(row.lot)


def _found(plan: Plan, most: int = MOST) -> Generator[float, None, tuple[Route, ...]]:
    """What the search finds; nothing where it cannot search."""
    share, last = 0.0, Found()
    steps = find(plan, most=most)
    while True:
        try:
            last = next(steps)
        except StopIteration as end:
            last = end.value
            break
        except ValueError:
            return ()
        # The more it finds to look at, the smaller a share is done.
        share = max(share, last.share)
        yield share
    return best_routes(last)


def _at_its_price(route: Route, turned: Market, market: Market, gift: int | None) -> Route:
    """The route with what was a gift at the price that is asked for it."""
    if gift is None:
        return route
    lot = market.lots[gift]
    groups = tuple(
        replace(group, price=lot.asked) if isinstance(group, Bought) and turned.place(group) == gift else group
        for group in route.groups
    )
    return replace(route, groups=groups)
