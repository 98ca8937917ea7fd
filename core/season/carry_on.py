"""Going on from today: what a route bought and held so far becomes mine, and the plan begins anew."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import count as numbers

import msgspec

from core.explain.naming import id_words
from core.plan.model import Animal, Bought, Carries, Forms, Group, Held, Owned, Pairing, Plan, Route, Sex

# By hold group of the route: the young kept so far.
Kept = Mapping[str, tuple["KeptYoung", ...]]


@dataclass(frozen=True)
class KeptYoung:
    """A young held back: its parents among my animals where they are known, what it looks like, when it hatched."""

    forms: Forms
    season: int
    sire: str | None = None
    dam: str | None = None
    name: str = ""


def carry_on(plan: Plan, route_id: str, seasons: int, spent: float, kept: Kept | None = None) -> Plan:
    """The plan as it stands after some seasons of a route; other routes begin today.

    seasons: how many have passed, fewer than the goal's horizon. spent: money gone in them, added to `already_spent`.
    kept: the young held back, by hold group; those of a group that are not yet breeder-size grow up as before.
    Errors: ValueError where the horizon is over, or where more young are kept than the route holds.
    """
    if not 0 < seasons < plan.goal.seasons:
        raise ValueError("there must be seasons left to carry on in")
    route = next(one for one in plan.routes if one.id == route_id)
    moved = _Moved(plan, route, seasons, kept or {})
    goal = plan.goal
    price = None if goal.outright_price is None else goal.outright_price * (1 + goal.outright_change) ** seasons
    records = tuple(msgspec.structs.replace(record, season=record.season - seasons) for record in plan.clutch_records)
    return msgspec.structs.replace(
        plan,
        goal=msgspec.structs.replace(goal, seasons=goal.seasons - seasons, outright_price=price),
        costs=msgspec.structs.replace(plan.costs, setup=0),
        my_animals=(*plan.my_animals, *moved.animals),
        clutch_records=records,
        routes=tuple(
            moved.route if one.id == route_id else _shortened(one, goal.seasons - seasons) for one in plan.routes
        ),
        already_spent=plan.already_spent + spent,
    )


class _Moved:
    """One route moved to today."""

    def __init__(self, plan: Plan, route: Route, seasons: int, kept: Kept) -> None:
        self._plan, self._seasons, self._kept = plan, seasons, kept
        self._taken = {animal.id for animal in plan.my_animals}
        self.animals: list[Animal] = []
        # What stands for each group of the route from today on; none for one that is gone.
        self._now: dict[str, tuple[Group, ...]] = {}
        for group in route.groups:
            self._now[group.id] = tuple(self._group(group))
        pairings = self._open_pairings(route)
        buys = route.buy_outright
        self.route = msgspec.structs.replace(
            route,
            setup=0,
            buy_outright=None if buys is None else max(1, buys - seasons),
            groups=tuple(group for now in self._now.values() for group in now),
            pairings=tuple(pairings),
            scale=None,
        )

    def _group(self, group: Group) -> list[Group]:
        until = None if group.until is None else group.until - self._seasons
        if until is not None and until < 1:
            return []
        if isinstance(group, Held):
            return self._held(group, until)
        if _joins(group, self._seasons):
            mine = _as_animals(group.id, group.sex, group.count or 0, group.carries or {}, self._taken)
            self.animals += mine
            return [self._owned(group.id, group, tuple(animal.id for animal in mine), until)]
        if isinstance(group, Owned) and group.animals is not None and group.season <= self._seasons:
            return [self._owned(group.id, group, group.animals, until)]
        return [msgspec.structs.replace(group, season=group.season - self._seasons, until=until)]

    def _owned(self, name: str, group: Bought | Owned, animals: tuple[str, ...], until: int | None) -> Owned:
        ready = max(0, group.season + group.ready_in - 1 - self._seasons)
        kept_anyway = isinstance(group, Owned) and group.kept_anyway
        return Owned(id=name, sex=group.sex, animals=animals, kept_anyway=kept_anyway, ready_in=ready, until=until)

    def _held(self, group: Held, until: int | None) -> list[Group]:
        young = self._kept.get(group.id, ())
        if len(young) > group.count:
            raise ValueError(f"more young are kept than {group.id} has places")
        matures = getattr(self._plan.species.matures, group.sex)
        found: list[Group] = []
        for season in sorted({one.season for one in young}):
            of_season = [one for one in young if one.season == season]
            mine = [self._kept_animal(group, one) for one in of_season]
            self.animals += mine
            name = group.id if not found else self._free(group.id)
            ready = max(0, season + matures - 1 - self._seasons)
            found.append(
                Owned(id=name, sex=group.sex, animals=tuple(one.id for one in mine), kept_anyway=False, ready_in=ready,
                      until=until)
            )  # fmt: skip
        left = group.count - len(young)
        if left and (until is None or until > 1):
            name = group.id if not found else self._free(group.id)
            found.append(msgspec.structs.replace(group, id=name, count=left, until=until))
        return found

    def _kept_animal(self, group: Held, young: KeptYoung) -> Animal:
        name = self._free(group.id)
        known = young.sire is not None and young.dam is not None
        return Animal(
            id=name,
            sex=group.sex,
            name=young.name or _called(name),
            forms=young.forms,
            sire=young.sire if known else None,
            dam=young.dam if known else None,
        )

    def _free(self, stem: str) -> str:
        return _free_id(stem, self._taken)

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


def _joins(group: Group, seasons: int) -> bool:
    """Whether the group has arrived and is not listed by name yet."""
    if isinstance(group, Held) or group.season > seasons:
        return False
    gone = group.until is not None and group.until <= seasons
    return not gone and not (isinstance(group, Owned) and group.animals is not None)


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
