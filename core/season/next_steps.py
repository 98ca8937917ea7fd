"""What to do next: ways on from today, each worked out as a route of its own, ranked by money still to set aside."""

from __future__ import annotations

import math
from collections.abc import Generator, Iterator
from dataclasses import dataclass
from typing import Literal

import msgspec

from core.plan.model import Bought, ForSale, Group, Held, Owned, Pairing, Plan, Route
from core.progress import part_of
from core.routes.evaluate import evaluate_steps
from core.routes.result import RouteResult, ToGoal

Way = Literal["carry on", "drop", "other male", "buy"]
# More ways than this are a list nobody reads; what is for sale is tried cheapest first.
MOST_MALES = 12


@dataclass(frozen=True, eq=False)
class NextStep:
    """One way on: what it is, about whom (an animal of mine, or one for sale), as a route with its evaluation."""

    way: Way
    about: str
    route: Route
    result: RouteResult

    @property
    def to_goal(self) -> ToGoal | None:
        """The least money from today that reaches the goal's chance, with its season; None where nothing does."""
        return self.result.as_drawn

    @property
    def money(self) -> float:
        """That money, or infinity."""
        return self.to_goal.money if self.to_goal else math.inf

    @property
    def chance(self) -> float:
        """The chance of the goal by the horizon."""
        return float(self.result.chance_by_season[-1])


def next_steps(plan: Plan, route: Route) -> Generator[float, None, tuple[NextStep, ...]]:
    """Every way on from today for a route, best first; yields the share of the work done.

    Best is least money still to set aside; where the goal's chance is out of reach, the greatest chance.
    """
    ways = list(ways_on(plan, route))
    found = []
    for done, (way, about, changed) in enumerate(ways):
        yield done / len(ways)
        result = yield from part_of(evaluate_steps(plan, changed), done, len(ways))
        found.append(NextStep(way, about, changed, result))
    return tuple(sorted(found, key=_rank))


def ways_on(plan: Plan, route: Route) -> Iterator[tuple[Way, str, Route]]:
    """The ways on: carry on, drop one of my animals, put another male first, buy the finished animals."""
    yield "carry on", "", msgspec.structs.replace(route, scale=None)
    if route.groups:
        yield from _drops(route)
        yield from _other_males(plan, route)
    if plan.goal.outright_price is not None and route.buy_outright != 1:
        yield "buy", "", msgspec.structs.replace(route, groups=(), pairings=(), scale=None, setup=0, buy_outright=1)


def without(route: Route, animal: str) -> Route | None:
    """The route without one of my animals; None where nothing would be bred any more."""
    gone = set()
    groups: list[Group] = []
    for group in route.groups:
        if isinstance(group, Owned) and group.animals is not None and animal in group.animals:
            left = tuple(one for one in group.animals if one != animal)
            if not left:
                gone.add(group.id)
                continue
            groups.append(msgspec.structs.replace(group, animals=left))
        else:
            groups.append(group)
    pairings = tuple(one for old in route.pairings if (one := _pairing_without(old, gone)) is not None)
    kept = {pairing.id for pairing in pairings}
    fed = [group for group in groups if not isinstance(group, Held) or kept.issuperset(group.source)]
    if not pairings or len(fed) != len(groups):
        return None
    return msgspec.structs.replace(route, groups=tuple(fed), pairings=pairings, scale=None)


def _pairing_without(pairing: Pairing, gone: set[str]) -> Pairing | None:
    males = tuple(name for name in pairing.males if name not in gone)
    females = tuple(name for name in pairing.females if name not in gone)
    return msgspec.structs.replace(pairing, males=males, females=females) if males and females else None


def _drops(route: Route) -> Iterator[tuple[Way, str, Route]]:
    named = [one for group in route.groups if isinstance(group, Owned) for one in group.animals or ()]
    for animal in dict.fromkeys(named):
        changed = without(route, animal)
        if changed is not None:
            yield "drop", animal, changed


def _other_males(plan: Plan, route: Route) -> Iterator[tuple[Way, str, Route]]:
    """A male for sale goes before those there are, in every pairing: before held sons, too."""
    offers = [offer for offer in plan.for_sale if offer.sex == "male" and offer.quantity > 0]
    for offer in sorted(offers, key=_price)[:MOST_MALES]:
        name = _free_name(route)
        bought = Bought(id=name, sex="male", count=1, carries=offer.carries, price=offer.price, ready_in=offer.ready_in)
        pairings = tuple(msgspec.structs.replace(one, males=(name, *one.males)) for one in route.pairings)
        yield (
            "other male",
            offer.id,
            msgspec.structs.replace(route, groups=(bought, *route.groups), pairings=pairings, scale=None),
        )


def _price(offer: ForSale) -> float:
    return offer.price


def _free_name(route: Route) -> str:
    taken = {group.id for group in route.groups}
    name, number = "new-male", 2
    while name in taken:
        name, number = f"new-male-{number}", number + 1
    return name


def _rank(step: NextStep) -> tuple[float, float, float]:
    season = step.to_goal.season if step.to_goal else 0
    return step.money, season, -step.chance
