"""Changes of who breeds whom, and of what hangs on it; no Qt."""

from __future__ import annotations

from typing import Literal

from msgspec.structs import replace

from core.plan.model import Held, Pairing, Route
from core.routes.shapes import free_id
from desktop.editor.change import Change, Refused, moved, never_come, pairing_of, with_pairing
from desktop.words import editor as words
from desktop.words.names import id_of

Side = Literal["males", "females"]


def renamed(route: Route, old: str, typed: str) -> Change:
    """A pairing under another name, followed by those held back from it."""
    new = id_of(typed)
    if not new:
        return Refused(words.NAME_NEEDED)
    if new == old:
        return route
    if any(pairing.id == new for pairing in route.pairings):
        return Refused(words.name_taken(typed))
    pairings = tuple(replace(one, id=new) if one.id == old else one for one in route.pairings)
    groups = tuple(
        replace(one, source=tuple(new if name == old else name for name in one.source))
        if isinstance(one, Held)
        else one
        for one in route.groups
    )
    return replace(route, groups=groups, pairings=pairings)


def with_side(route: Route, name: str, side: Side, groups: tuple[str, ...]) -> Change:
    """A pairing of other males or other females, in this order."""
    changed = with_pairing(route, replace(pairing_of(route, name), **{side: groups}))
    lost = never_come(changed) - never_come(route)
    return Refused(words.from_own_young(min(lost))) if lost else changed


def with_seasons(route: Route, name: str, first: int | None, last: int | None) -> Change:
    """A pairing in these seasons only; None: open."""
    if first is not None and last is not None and first > last:
        return Refused(words.seasons_upside_down(first, last))
    return with_pairing(route, replace(pairing_of(route, name), seasons=(first, last)))


def added(route: Route) -> tuple[Route, str] | Refused:
    """One more pairing, with its id: of the last males and females that breed with nobody yet, else of the last."""
    used = {name for one in route.pairings for name in (*one.males, *one.females)}
    sides = []
    for sex in ("male", "female"):
        names = [group.id for group in route.groups if group.sex == sex]
        if not names:
            return Refused(words.none_here(sex))
        free = [name for name in names if name not in used]
        sides.append((free or names)[-1])
    taken = {one.id for one in route.pairings}
    new = Pairing(id=free_id("pairing", taken), males=(sides[0],), females=(sides[1],))
    return replace(route, pairings=(*route.pairings, new)), new.id


def without(route: Route, name: str) -> Route:
    """The route without a pairing, and without young that only it gives."""
    return without_orphans(replace(route, pairings=tuple(one for one in route.pairings if one.id != name)))


def earlier(route: Route, name: str, by: int = -1) -> Route:
    """A pairing earlier or later; the order decides who gets the males first."""
    place = [one.id for one in route.pairings].index(name)
    return replace(route, pairings=moved(route.pairings, place, by))


def without_orphans(route: Route) -> Route:
    """The route without pairings that lack a side, held young that lack their pairing, and so on."""
    while (left := _once(route)) != route:
        route = left
    return route


def taken_along(before: Route, after: Route) -> tuple[str, ...]:
    """What is gone, in the order of the route: ids of groups, then of pairings."""
    groups, pairings = {one.id for one in after.groups}, {one.id for one in after.pairings}
    return (
        *(one.id for one in before.groups if one.id not in groups),
        *(one.id for one in before.pairings if one.id not in pairings),
    )


def _once(route: Route) -> Route:
    there = {group.id for group in route.groups}
    pairings = []
    for one in route.pairings:
        males, females = (tuple(name for name in side if name in there) for side in (one.males, one.females))
        if males and females:
            pairings.append(replace(one, males=males, females=females))
    known = {one.id for one in pairings}
    groups = []
    for group in route.groups:
        if isinstance(group, Held):
            sources = tuple(name for name in group.source if name in known)
            if not sources:
                continue
            group = replace(group, source=sources)
        groups.append(group)
    scale = route.scale
    if scale is not None:
        kept = tuple(name for name in scale.groups if name in {group.id for group in groups})
        scale = replace(scale, groups=kept) if kept else None
    return replace(route, groups=tuple(groups), pairings=tuple(pairings), scale=scale)
