"""Plans with other routes: every change to the list of routes, as a new plan; no Qt."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from core.plan.limits import LONGEST_NAME, MOST_ROUTES
from core.plan.model import Plan, Route
from desktop.words import route_actions as words


def has_room(plan: Plan) -> bool:
    """Whether the plan can hold another route."""
    return len(plan.routes) < MOST_ROUTES


def added(plan: Plan, route: Route, name: str) -> tuple[Plan, str]:
    """The plan with one more route, at the end, under an id and a name of its own; and its id."""
    new = replace(route, id=free_id(plan), name=free_name(plan, name))
    return replace(plan, routes=(*plan.routes, new)), new.id


def duplicated(plan: Plan, id_: str) -> tuple[Plan, str]:
    """The plan with a copy right after the route of that id, and the copy's id."""
    at = _at(plan, id_)
    copy = replace(plan.routes[at], id=free_id(plan), name=free_name(plan, words.copy_of(plan.routes[at].name)))
    return replace(plan, routes=(*plan.routes[: at + 1], copy, *plan.routes[at + 1 :])), copy.id


def renamed(plan: Plan, id_: str, name: str) -> Plan:
    """The plan with another name for a route."""
    return replace(plan, routes=tuple(replace(one, name=name) if one.id == id_ else one for one in plan.routes))


def deleted(plan: Plan, id_: str) -> Plan:
    """The plan without a route."""
    return replace(plan, routes=tuple(one for one in plan.routes if one.id != id_))


def arranged(plan: Plan, order: Sequence[str]) -> Plan:
    """The plan with these routes in this order; those not named keep their places."""
    by_id = {one.id: one for one in plan.routes}
    named = iter(by_id[id_] for id_ in order)
    wanted = set(order)
    return replace(plan, routes=tuple(next(named) if one.id in wanted else one for one in plan.routes))


def free_id(plan: Plan) -> str:
    """The first of `route-1`, `route-2`, … that no route has."""
    taken = {route.id for route in plan.routes}
    return next(name for number in range(1, len(taken) + 2) if (name := f"route-{number}") not in taken)


def free_name(plan: Plan, name: str) -> str:
    """The name, with a number behind it where another route has it already; never longer than a name may be."""
    taken = {route.name for route in plan.routes}
    names = (_numbered(name, number) for number in range(1, len(taken) + 2))
    return next(one for one in names if one not in taken)


def _numbered(name: str, number: int) -> str:
    tail = "" if number == 1 else f" {number}"
    return name[: LONGEST_NAME - len(tail)] + tail


def _at(plan: Plan, id_: str) -> int:
    return next(place for place, one in enumerate(plan.routes) if one.id == id_)
