"""Changes of a route's animals: where they come from, their sex and name, more and fewer of them; no Qt."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal

from msgspec.structs import replace

from core.explain.carrying import with_sex
from core.plan.model import Bought, Carries, Forms, Group, Held, Owned, Plan, Route, Sex
from core.routes.shapes import free_id
from desktop.editor.change import Change, Refused, group_of, moved, never_come, with_group
from desktop.editor.pairings import without_orphans
from desktop.words import editor as words
from desktop.words.names import id_of

Origin = Literal["buy", "own", "named", "hold"]
ORIGINS: tuple[Origin, ...] = ("buy", "own", "named", "hold")


def origin_of(group: Group) -> Origin:
    """Where animals come from, those of mine that are named by themselves."""
    if isinstance(group, Bought):
        return "buy"
    if isinstance(group, Held):
        return "hold"
    return "own" if group.animals is None else "named"


def renamed(route: Route, old: str, typed: str) -> Change:
    """A group under another name, followed wherever it is named."""
    new = id_of(typed)
    if not new:
        return Refused(words.NAME_NEEDED)
    if new == old:
        return route
    if any(group.id == new for group in route.groups):
        return Refused(words.name_taken(typed))

    def swap(names: tuple[str, ...]) -> tuple[str, ...]:
        return tuple(new if name == old else name for name in names)

    pairings = tuple(replace(one, males=swap(one.males), females=swap(one.females)) for one in route.pairings)
    scale = route.scale and replace(route.scale, groups=swap(route.scale.groups))
    groups = tuple(replace(group, id=new) if group.id == old else group for group in route.groups)
    return replace(route, groups=groups, pairings=pairings, scale=scale)


def with_origin(plan: Plan, route: Route, name: str, origin: Origin) -> Change:
    """A group that comes from elsewhere; what it was before is kept as far as it applies."""
    old = group_of(route, name)
    if origin == origin_of(old):
        return route
    season, ready = (1, 0) if isinstance(old, Held) else (old.season, old.ready_in)
    count, carries = size(old), carried(plan, old)
    if origin == "hold":
        held = (
            Held(id=name, sex=old.sex, count=count, source=(one.id,), pick=({},), until=old.until)
            for one in route.pairings
        )
        return _first_that_comes(route, held) or Refused(
            words.from_own_young(name) if route.pairings else words.NO_YOUNG
        )
    new: Group
    if origin == "named":
        free = _free_animals(plan, route, old.sex)
        if not free:
            return Refused(words.none_of_mine(old.sex))
        new = Owned(id=name, sex=old.sex, animals=free[:1], season=season, ready_in=ready, until=old.until)
    elif origin == "own":
        new = Owned(id=name, sex=old.sex, count=count, carries=carries, season=season, ready_in=ready, until=old.until)
    else:
        new = Bought(
            id=name, sex=old.sex, count=count, carries=carries, price=0, season=season, ready_in=ready, until=old.until
        )  # fmt: skip
    route = with_group(route, new)
    return _unscaled(route, name) if origin == "named" else route


def with_group_sex(plan: Plan, route: Route, name: str, sex: Sex) -> Change:
    """A group of the other sex, carrying what fits it; not while it breeds as what it is."""
    group = group_of(route, name)
    if sex == group.sex:
        return route
    if any(name in (*one.males, *one.females) for one in route.pairings):
        return Refused(words.breeds_as(group.sex))
    if isinstance(group, Held):
        return with_group(route, replace(group, sex=sex))
    if isinstance(group, Owned) and group.animals is not None:
        free = _free_animals(plan, route, sex)
        return (
            with_group(route, replace(group, sex=sex, animals=free[:1])) if free else Refused(words.none_of_mine(sex))
        )
    return with_group(route, replace(group, sex=sex, carries=with_sex(plan, group.carries or {}, sex)))


def with_animals(route: Route, name: str, animals: tuple[str, ...]) -> Change:
    """A group of these animals of mine."""
    if not animals:
        return Refused(words.ONE_AT_LEAST)
    return with_group(route, replace(group_of(route, name), animals=animals))


def with_pick(route: Route, name: str, place: int, forms: Forms | None) -> Change:
    """Young held back by another look in that place of preference; None takes the place away."""
    group = group_of(route, name)
    assert isinstance(group, Held)
    pick = [*group.pick]
    if forms is None:
        del pick[place]
    else:
        pick[place : place + 1] = [forms]
    return with_group(route, replace(group, pick=tuple(pick) or ({},)))


def with_sources(route: Route, name: str, sources: tuple[str, ...]) -> Change:
    """Young held back from these pairings."""
    group = group_of(route, name)
    assert isinstance(group, Held)
    changed = with_group(route, replace(group, source=sources))
    return Refused(words.from_own_young(name)) if name in never_come(changed) else changed


def added(route: Route, group: Group) -> Route:
    """One group more, under a name of its own."""
    taken = {one.id for one in route.groups}
    name = group.id if group.id not in taken else free_id(group.id, taken)
    return replace(route, groups=(*route.groups, replace(group, id=name)))


def held_group(route: Route, sex: Sex) -> Held | None:
    """Young to hold back from the last pairing that could give them."""
    if not route.pairings:
        return None
    name = "sons" if sex == "male" else "daughters"
    return Held(id=name, sex=sex, count=1 if sex == "male" else 2, source=(route.pairings[-1].id,), pick=({},))


def without(route: Route, name: str) -> Route:
    """The route without a group, and without what cannot be without it."""
    left = replace(route, groups=tuple(group for group in route.groups if group.id != name))
    return without_orphans(_unscaled(left, name))


def earlier(route: Route, name: str, by: int = -1) -> Route:
    """A group earlier or later; the order decides who holds young back first."""
    place = [one.id for one in route.groups].index(name)
    return replace(route, groups=moved(route.groups, place, by))


def size(group: Group) -> int:
    """How many animals a group has."""
    return len(group.animals) if isinstance(group, Owned) and group.animals else group.count or 1


def carried(plan: Plan, group: Group) -> Carries:
    """What a group carries as far as the plan says it."""
    if isinstance(group, Held):
        return {}
    if isinstance(group, Owned) and group.animals:
        return next((one.carries for one in plan.my_animals if one.id == group.animals[0]), {})
    return group.carries or {}


def _first_that_comes(route: Route, candidates: Iterable[Held]) -> Route | None:
    """The route with the first of these in its place that leaves nobody to come from their own young."""
    before = never_come(route)
    changed = (with_group(route, one) for one in candidates)
    return next((one for one in changed if never_come(one) <= before), None)


def _free_animals(plan: Plan, route: Route, sex: Sex) -> tuple[str, ...]:
    used = {name for group in route.groups if isinstance(group, Owned) for name in group.animals or ()}
    return tuple(one.id for one in plan.my_animals if one.sex == sex and one.id not in used)


def _unscaled(route: Route, name: str) -> Route:
    """The route without trying out the count of a group."""
    if route.scale is None or name not in route.scale.groups:
        return route
    groups = tuple(one for one in route.scale.groups if one != name)
    return replace(route, scale=replace(route.scale, groups=groups) if groups else None)
