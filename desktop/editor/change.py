"""What a change of a route comes to: another route, or why not; no Qt."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TypeVar

import msgspec
from msgspec.structs import replace

from core.plan.model import Group, Held, Pairing, Plan, Route

T = TypeVar("T")


class Refused(msgspec.Struct, frozen=True):
    """Why a change cannot be made, as a sentence for beside the field."""

    sentence: str


Change = Route | Refused
Make = Callable[[], Change]


def with_route(plan: Plan, route: Route) -> Plan:
    """The plan with this route in the place of the one with its id."""
    return replace(plan, routes=tuple(route if one.id == route.id else one for one in plan.routes))


def route_of(plan: Plan, name: str) -> Route | None:
    """The route with this id."""
    return next((route for route in plan.routes if route.id == name), None)


def group_of(route: Route, name: str) -> Group:
    """The group with this id."""
    return next(group for group in route.groups if group.id == name)


def pairing_of(route: Route, name: str) -> Pairing:
    """The pairing with this id."""
    return next(pairing for pairing in route.pairings if pairing.id == name)


def with_group(route: Route, group: Group) -> Route:
    """The route with this group in the place of the one with its id."""
    return replace(route, groups=tuple(group if one.id == group.id else one for one in route.groups))


def with_pairing(route: Route, pairing: Pairing) -> Route:
    """The route with this pairing in the place of the one with its id."""
    return replace(route, pairings=tuple(pairing if one.id == pairing.id else one for one in route.pairings))


def moved(items: Sequence[T], place: int, by: int) -> tuple[T, ...]:
    """The items with one of them `by` places later (negative: earlier), as far as there is room."""
    left = [*items]
    item = left.pop(place)
    left.insert(min(max(place + by, 0), len(left)), item)
    return tuple(left)


def never_come(route: Route) -> frozenset[str]:
    """Held-back groups that could only come from their own young, by id."""
    pairings = {one.id: one for one in route.pairings}
    come = {group.id for group in route.groups if not isinstance(group, Held)}
    waiting = [group for group in route.groups if isinstance(group, Held)]
    while ready := [one for one in waiting if any(_breeds(pairings.get(name), come) for name in one.source)]:
        come.update(one.id for one in ready)
        waiting = [one for one in waiting if one.id not in come]
    return frozenset(one.id for one in waiting)


def _breeds(pairing: Pairing | None, come: set[str]) -> bool:
    return pairing is not None and not come.isdisjoint(pairing.males) and not come.isdisjoint(pairing.females)
