"""Brothers of several ages: more than one group of them can breed, where a route as drawn has one group of them all."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import count

from msgspec.structs import replace

from core.plan.model import Group, Held, Pairing, Route


def brothers_too(route: Route, drawn: Route, now: Mapping[str, tuple[Group, ...]]) -> Route:
    """The route with a pairing more for each group of younger brothers, of the females that the older leave over.

    drawn: the route in which they were one group. now: what stands for each of its groups. Only the first of a
    pairing's males that can breed do, so the younger would be idle; who goes to whom is not quite as it was.
    """
    first = {pairing.id: now[pairing.males[0]][1:] for pairing in drawn.pairings}
    names = {pairing.id for pairing in route.pairings}
    every: dict[str, list[Pairing]] = {}
    for pairing in route.pairings:
        every[pairing.id] = [pairing]
        for group in first[pairing.id]:
            name = next(one for number in count(2) if (one := f"{pairing.id}-{number}") not in names)
            names.add(name)
            every[pairing.id].append(replace(pairing, id=name, males=(group.id,)))
    fed = {old: tuple(one.id for one in ones) for old, ones in every.items()}
    groups = tuple(
        replace(group, source=tuple(name for old in group.source for name in fed[old]))
        if isinstance(group, Held)
        else group
        for group in route.groups
    )
    return replace(route, groups=groups, pairings=tuple(one for ones in every.values() for one in ones))
