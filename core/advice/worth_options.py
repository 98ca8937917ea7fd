"""The plans a person could follow: listed routes, the same with another animal for sale in them, buying outright."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

import msgspec

from core.advice.worth_lots import Market, bought
from core.plan.alike import alike_to
from core.plan.model import Bought, ForSale, Held, Plan, Route, Scale
from core.plan.scale import scale_of

Origin = Literal["listed", "paired", "swapped", "outright", "found"]
OUTRIGHT = "buying-outright"


@dataclass(frozen=True)
class Option:
    """One plan, and where it comes from; `swap`: the group of the listed route that is another lot now, by place."""

    route: Route
    origin: Origin
    swap: tuple[str, int] | None = None


def options(plan: Plan, found: Iterable[Route] = ()) -> Iterator[Option]:
    """The listed routes, buying outright where nothing listed does, and what was found elsewhere."""
    listed = [Option(route, "listed") for route in plan.routes]
    yield from listed
    if plan.goal.outright_price is not None and all(route.buy_outright != 1 for route in plan.routes):
        yield Option(Route(id=OUTRIGHT, name="", buy_outright=1), "outright")
    yield from unlike((Option(route, "found") for route in found), listed)


def unlike(options: Iterable[Option], others: Iterable[Option]) -> Iterator[Option]:
    """The options that do what none of the others does, each once."""
    seen = {alike_to(option.route) for option in others}
    for option in options:
        alike = alike_to(option.route)
        if alike not in seen:
            seen.add(alike)
            yield option


def swaps(routes: Sequence[Route], market: Market) -> Iterator[Option]:
    """These routes with one bought group each replaced by another animal for sale, as many as there are of it.

    In turn: every animal in the first route first.
    """
    for route in routes:
        here = {market.place(group) for group in bought(route)}
        for group in bought(route):
            for place, lot in enumerate(market.lots):
                # Of one that is bought already there may not be enough for another group.
                if lot.offer is None or lot.sex != group.sex or place in here:
                    continue
                swapped = _swapped(route, group, lot.offer)
                if swapped is not None:
                    yield Option(swapped, "swapped", (group.id, place))


def takes_long(route: Route) -> bool:
    """Whether young are held back from bought animals that may be one thing or another, which are many to follow."""
    holds = any(isinstance(group, Held) for group in route.groups)
    return holds and any(not isinstance(value, str) for group in bought(route) for value in group.carries.values())


def _swapped(route: Route, group: Bought, offer: ForSale) -> Route | None:
    if not offer.quantity:
        return None
    count = min(group.count, offer.quantity)
    new = msgspec.structs.replace(group, count=count, carries=offer.carries, price=offer.price, ready_in=offer.ready_in)
    groups = tuple(new if one.id == group.id else one for one in route.groups)
    changed = msgspec.structs.replace(route, groups=groups)
    scale = scale_of(changed)
    if scale is None or group.id not in scale.groups:
        return changed
    counts = tuple(one for one in scale.counts if one <= offer.quantity) or (count,)
    return msgspec.structs.replace(changed, scale=Scale(groups=scale.groups, counts=counts))
