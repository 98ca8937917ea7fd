"""Routes that do the same under other names."""

from __future__ import annotations

from collections.abc import Collection, Iterable

import msgspec

from core.plan.model import Group, Held, Route, Scale
from core.plan.scale import scale_of

# How many animals a route draws in each of its groups.
_Counts = tuple[int | None, ...]


def alike_to(route: Route) -> bytes:
    """Equal for routes that do the same, whatever they and their parts are called and however many are drawn."""
    scale = scale_of(route)
    scaled = scale.groups if scale else ()
    groups = _places(route)
    counts = tuple(sorted(scale.counts)) if scale else ()
    same = msgspec.structs.replace(
        _unnamed(route, scaled),
        scale=Scale(groups=tuple(groups[name] for name in scaled), counts=counts) if scale else None,
    )
    return msgspec.json.encode(same)


class Tried:
    """What some routes try: who breeds with whom, and with how many of each."""

    def __init__(self, routes: Iterable[Route]) -> None:
        self._counts: dict[bytes, list[frozenset[_Counts]]] = {}
        for route in routes:
            self._counts.setdefault(_bare(route), []).append(_counts(route))

    def covers(self, route: Route) -> bool:
        """Whether one of them does the same, under whatever names, with all numbers that the route is tried with."""
        wanted = _counts(route)
        return any(wanted <= counts for counts in self._counts.get(_bare(route), ()))


def _bare(route: Route) -> bytes:
    counted = [group.id for group in route.groups if group.count is not None]
    return msgspec.json.encode(msgspec.structs.replace(_unnamed(route, counted), scale=None))


def _counts(route: Route) -> frozenset[_Counts]:
    scale = scale_of(route)
    drawn = tuple(group.count for group in route.groups)
    scaled = [group.id in scale.groups for group in route.groups] if scale else []
    tried = [
        tuple(many if here else one for here, one in zip(scaled, drawn, strict=True))
        for many in (scale.counts if scale else ())
    ]
    return frozenset((drawn, *tried))


def _unnamed(route: Route, uncounted: Collection[str]) -> Route:
    """The route with places for names, and one animal in groups whose number does not matter."""
    groups = _places(route)
    pairings = {pairing.id: f"p{place}" for place, pairing in enumerate(route.pairings)}
    return msgspec.structs.replace(
        route,
        id="",
        name="",
        groups=tuple(_renamed(group, groups, pairings, uncounted) for group in route.groups),
        pairings=tuple(
            msgspec.structs.replace(
                one,
                id=pairings[one.id],
                males=tuple(groups[name] for name in one.males),
                females=tuple(groups[name] for name in one.females),
            )
            for one in route.pairings
        ),
    )


def _places(route: Route) -> dict[str, str]:
    return {group.id: f"g{place}" for place, group in enumerate(route.groups)}


def _renamed(group: Group, groups: dict[str, str], pairings: dict[str, str], uncounted: Collection[str]) -> Group:
    new = msgspec.structs.replace(group, id=groups[group.id])
    if isinstance(new, Held):
        new = msgspec.structs.replace(new, source=tuple(pairings[name] for name in new.source))
    return msgspec.structs.replace(new, count=1) if group.id in uncounted else new
