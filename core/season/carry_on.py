"""Going on from today: what a route bought and held so far becomes mine, and the plan begins anew."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import count as numbers

import msgspec

from core.explain.naming import id_words
from core.plan.model import Animal, Bought, Carries, Forms, Group, Held, Owned, Pairing, Plan, Route, Sex
from core.season.brothers import brothers_too

# By hold group of the route: the young kept so far.
Kept = Mapping[str, tuple["KeptYoung", ...]]


@dataclass(frozen=True)
class KeptYoung:
    """A young held back: its parents where they are known, what it looks like, when it hatched."""

    forms: Forms
    season: int
    sire: str | None = None
    dam: str | None = None
    name: str = ""


def carry_on(plan: Plan, route_id: str, seasons: int, spent: float, kept: Kept | None = None) -> Plan:
    """The plan as it stands after some seasons of a route; other routes begin today.

    seasons: how many have passed, fewer than the goal's horizon. spent: money gone in them, added to `already_spent`.
    kept: the young held back, by hold group; those of a group that are not yet breeder-size grow up as before. Parents
    that have left are listed with what they carried, as what their young carry hangs on it.
    Errors: ValueError where the horizon is over, where more young are kept than the route holds, or where nobody could
    be their parents.
    """
    if not 0 < seasons < plan.goal.seasons:
        raise ValueError("there must be seasons left to carry on in")
    route = _named(plan, route_id)
    moved = _Moved(plan, route, seasons, kept or {})
    goal = plan.goal
    price = None if goal.outright_price is None else goal.outright_price * (1 + goal.outright_change) ** seasons
    budget = None if goal.budget is None else max(0, goal.budget - spent)
    records = tuple(msgspec.structs.replace(record, season=record.season - seasons) for record in plan.clutch_records)
    return msgspec.structs.replace(
        plan,
        goal=msgspec.structs.replace(goal, seasons=goal.seasons - seasons, outright_price=price, budget=budget),
        costs=msgspec.structs.replace(plan.costs, setup=0),
        my_animals=(*plan.my_animals, *moved.animals()),
        clutch_records=records,
        routes=tuple(
            moved.route if one.id == route_id else _shortened(one, goal.seasons - seasons) for one in plan.routes
        ),
        already_spent=plan.already_spent + spent,
    )


def possible_parents(plan: Plan, route_id: str, seasons: int, kept: Kept, held: str) -> tuple[Animal, ...]:
    """Who the parents of a hold group's young may be: those that were in the pairings it comes from, then all others.

    Errors: as for `carry_on`.
    """
    moved = _Moved(plan, _named(plan, route_id), seasons, kept)
    likely = moved.parents(held, "male") + moved.parents(held, "female")
    bare = _Moved(plan, _named(plan, route_id), seasons, {})
    return likely + tuple(one for one in (*plan.my_animals, *bare.animals()) if one not in likely)


def _named(plan: Plan, route_id: str) -> Route:
    return next(one for one in plan.routes if one.id == route_id)


class _Moved:
    """One route moved to today."""

    def __init__(self, plan: Plan, route: Route, seasons: int, kept: Kept) -> None:
        self._plan, self._route, self._seasons, self._kept = plan, route, seasons, kept
        self._taken = {animal.id for animal in plan.my_animals}
        self._names = {group.id for group in route.groups}
        self._kept_ids: set[str] = set()
        # By group of the route: the animals that were in it up to now, also where they have left.
        self._were: dict[str, tuple[Animal, ...]] = {}
        # What stands for each group of the route from today on; none for one that is gone.
        self._now: dict[str, tuple[Group, ...]] = {}
        # Founders first: young held back are theirs.
        for group in sorted(route.groups, key=_is_held):
            self._were[group.id] = self._arrived(group)
        for group in route.groups:
            self._now[group.id] = tuple(self._group(group))
        pairings = self._open_pairings(route)
        buys = route.buy_outright
        moved = msgspec.structs.replace(
            route,
            setup=0,
            buy_outright=None if buys is None else max(1, buys - seasons),
            groups=tuple(group for now in self._now.values() for group in now),
            pairings=tuple(pairings),
            scale=None,
        )
        self.route = brothers_too(moved, route, self._now)

    def animals(self) -> list[Animal]:
        """Who becomes mine, and of those that have left who is a parent of one of them."""
        new = [one for group in self._route.groups for one in self._were[group.id] if one not in self._plan.my_animals]
        asked = {name for now in self._now.values() for group in now for name in _animals(group)}
        while more := {name for one in new if one.id in asked for name in (one.sire, one.dam) if name} - asked:
            asked |= more
        mine = [one for one in new if one.id in asked]
        if any(one.id in self._kept_ids and None in (one.sire, one.dam) for one in mine):
            raise ValueError("the parents of young held back must be named")
        return mine

    def parents(self, held: str, sex: Sex) -> tuple[Animal, ...]:
        """The animals of a sex in the pairings that a hold group's young come from."""
        group = next(one for one in self._route.groups if one.id == held)
        source = group.source if isinstance(group, Held) else ()
        fed = [pairing for pairing in self._route.pairings if pairing.id in source]
        names = [name for pairing in fed for name in (pairing.males if sex == "male" else pairing.females)]
        return tuple(one for name in dict.fromkeys(names) if name != held for one in self._were.get(name, ()))

    def _group(self, group: Group) -> list[Group]:
        until = None if group.until is None else group.until - self._seasons
        if until is not None and until < 1:
            return []
        if isinstance(group, Held):
            return self._held(group, until)
        if group.season <= self._seasons:
            return [self._owned(group.id, group, tuple(one.id for one in self._were[group.id]), until)]
        return [msgspec.structs.replace(group, season=group.season - self._seasons, until=until)]

    def _arrived(self, group: Group) -> tuple[Animal, ...]:
        if isinstance(group, Held):
            return tuple(self._kept_animal(group, one) for one in self._kept.get(group.id, ()))
        if group.season > self._seasons:
            return ()
        if isinstance(group, Owned) and group.animals is not None:
            by_id = {one.id: one for one in self._plan.my_animals}
            return tuple(by_id[name] for name in group.animals)
        return tuple(_as_animals(group.id, group.sex, group.count or 0, group.carries or {}, self._taken))

    def _owned(self, name: str, group: Bought | Owned, animals: tuple[str, ...], until: int | None) -> Owned:
        ready = max(0, group.season + group.ready_in - 1 - self._seasons)
        kept_anyway = isinstance(group, Owned) and group.kept_anyway
        return Owned(id=name, sex=group.sex, animals=animals, kept_anyway=kept_anyway, ready_in=ready, until=until)

    def _held(self, group: Held, until: int | None) -> list[Group]:
        young = self._kept.get(group.id, ())
        if len(young) > group.count:
            raise ValueError(f"more young are kept than {group.id} has places")
        matures = getattr(self._plan.species.matures, group.sex)
        by_ready: dict[int, list[str]] = {}
        for one, animal in zip(young, self._were[group.id], strict=True):
            by_ready.setdefault(max(0, one.season + matures - 1 - self._seasons), []).append(animal.id)
        found: list[Group] = []
        # Those that can breed already stay together: the first group of males that can is the one that does.
        for ready, mine in sorted(by_ready.items()):
            name = group.id if not found else self._free_group(group.id)
            found.append(
                Owned(id=name, sex=group.sex, animals=tuple(mine), kept_anyway=False, ready_in=ready, until=until)
            )
        left = group.count - len(young)
        if left and (until is None or until > 1):
            name = group.id if not found else self._free_group(group.id)
            found.append(msgspec.structs.replace(group, id=name, count=left, until=until))
        return found

    def _free_group(self, stem: str) -> str:
        return _free_id(stem, self._names)

    def _kept_animal(self, group: Held, young: KeptYoung) -> Animal:
        name = _free_id(group.id, self._taken)
        self._kept_ids.add(name)
        sire, dam = young.sire or self._parent(group.id, "male"), young.dam or self._parent(group.id, "female")
        return Animal(id=name, sex=group.sex, name=young.name or _called(name), forms=young.forms, sire=sire, dam=dam)

    def _parent(self, held: str, sex: Sex) -> str | None:
        """Who stands for a parent that is not named: the animals of a group are alike."""
        return next((one.id for one in self.parents(held, sex)), None)

    def _pairing(self, pairing: Pairing) -> Pairing | None:
        first, last = (None if season is None else season - self._seasons for season in pairing.seasons)
        males = tuple(group.id for name in pairing.males for group in self._now[name])
        females = tuple(group.id for name in pairing.females for group in self._now[name])
        if (last is not None and last < 1) or not males or not females:
            return None
        return msgspec.structs.replace(
            pairing, males=males, females=females, seasons=(None if first is None else max(1, first), last)
        )

    def _open_pairings(self, route: Route) -> list[Pairing]:
        """The pairings that can still be; places that none of them can fill any more are given up."""
        while True:
            pairings = [pairing for old in route.pairings if (pairing := self._pairing(old)) is not None]
            open_still = {pairing.id for pairing in pairings}
            fed = {name: tuple(_fed(now, open_still)) for name, now in self._now.items()}
            if fed == self._now:
                return pairings
            self._now = fed


def _is_held(group: Group) -> bool:
    return isinstance(group, Held)


def _animals(group: Group) -> tuple[str, ...]:
    return group.animals or () if isinstance(group, Owned) else ()


def _fed(groups: tuple[Group, ...], pairings: set[str]) -> Iterator[Group]:
    """Held groups only from pairings that are open still."""
    for group in groups:
        if not isinstance(group, Held):
            yield group
        elif source := tuple(one for one in group.source if one in pairings):
            yield msgspec.structs.replace(group, source=source)


def _as_animals(stem: str, sex: Sex, many: int, carries: Carries, taken: set[str]) -> list[Animal]:
    ids = [_free_id(stem, taken) for _ in range(many)]
    return [Animal(id=id_, sex=sex, name=_called(id_), carries=carries) for id_ in ids]


def _called(id_: str) -> str:
    """What an animal is called until its owner gives it a name: `Dams 2` for `dams-2`."""
    name = id_words(id_)
    return name[:1].upper() + name[1:]


def _free_id(stem: str, taken: set[str]) -> str:
    name = next(one for number in numbers(1) if (one := f"{stem}-{number}") not in taken)
    taken.add(name)
    return name


def _shortened(route: Route, seasons: int) -> Route:
    """Another route, begun today with fewer seasons left."""
    buys = None if route.buy_outright is None else min(route.buy_outright, seasons)
    return msgspec.structs.replace(route, buy_outright=buys)
