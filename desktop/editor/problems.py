"""What keeps a route, or a part of it, from doing anything: allowed, but to be said; no Qt."""

from __future__ import annotations

from core.plan.model import Group, Held, Plan, Route
from desktop.editor.change import never_come
from desktop.lanes import Breeding, Lane, Stay, lanes
from desktop.words import editor as words


def route_problem(plan: Plan, route: Route) -> str:
    """Why a route as a whole cannot reach the goal; empty where it may."""
    if route.buy_outright is not None:
        return ""
    if not route.pairings:
        return words.NOBODY_BREEDS
    return "" if any(isinstance(one, Breeding) and one.laying for one in lanes(plan, route)) else words.NEVER_BREEDS


def line_problem(plan: Plan, route: Route, lane: Lane) -> str:
    """What is wrong with a group or a pairing; empty where nothing is."""
    if isinstance(lane, Breeding):
        if not lane.seasons:
            return words.never_paired(plan.goal.seasons)
        return "" if lane.laying else words.TAKEN_UP
    return _group_problem(plan, route, lane.group, lane) if isinstance(lane, Stay) else ""


def _group_problem(plan: Plan, route: Route, group: Group, stay: Stay) -> str:
    if group.id in never_come(route):
        return words.from_own_young(group.id)
    if isinstance(group, Held) and stay.arrives > plan.goal.seasons:
        return words.NOTHING_TO_HOLD
    if stay.leaves is not None and stay.leaves < stay.breeds:
        return words.leaves_too_soon(stay.leaves, stay.breeds)
    if not any(group.id in (*one.males, *one.females) for one in route.pairings):
        return words.WITH_NOBODY
    return words.too_young(stay.breeds) if stay.breeds > plan.goal.seasons else ""
