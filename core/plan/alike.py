"""Routes that do the same under other names."""

from __future__ import annotations

import msgspec

from core.plan.model import Group, Held, Route, Scale
from core.plan.scale import scale_of


def alike_to(route: Route) -> bytes:
    """Equal for routes that do the same, whatever they and their parts are called and however many are drawn."""
    scale = scale_of(route)
    scaled = scale.groups if scale else ()
    groups = {group.id: f"g{place}" for place, group in enumerate(route.groups)}
    pairings = {pairing.id: f"p{place}" for place, pairing in enumerate(route.pairings)}
    counts = tuple(sorted(scale.counts)) if scale else ()
    same = msgspec.structs.replace(
        route,
        id="",
        name="",
        groups=tuple(_renamed(group, groups, pairings, scaled=group.id in scaled) for group in route.groups),
        pairings=tuple(
            msgspec.structs.replace(
                one,
                id=pairings[one.id],
                males=tuple(groups[name] for name in one.males),
                females=tuple(groups[name] for name in one.females),
            )
            for one in route.pairings
        ),
        scale=Scale(groups=tuple(groups[name] for name in scaled), counts=counts) if scale else None,
    )
    return msgspec.json.encode(same)


def _renamed(group: Group, groups: dict[str, str], pairings: dict[str, str], *, scaled: bool) -> Group:
    new = msgspec.structs.replace(group, id=groups[group.id])
    if isinstance(new, Held):
        new = msgspec.structs.replace(new, source=tuple(pairings[name] for name in new.source))
    return msgspec.structs.replace(new, count=1) if scaled else new
