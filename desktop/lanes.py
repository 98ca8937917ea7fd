"""A route laid out season by season: who is there, who grows, who breeds; no Qt."""

from __future__ import annotations

import msgspec

from core.plan.model import Bought, Group, Held, Owned, Pairing, Plan, Route


class Stay(msgspec.Struct, frozen=True):
    """When a group is there: from `arrives`, breeder-size from `breeds`, to `leaves` (both may be past the horizon)."""

    group: Group
    arrives: int
    breeds: int
    leaves: int | None


class Breeding(msgspec.Struct, frozen=True):
    """The seasons in which a pairing can lay, and how many females it has."""

    pairing: Pairing
    seasons: tuple[int, ...]
    females: int
    held: tuple[Held, ...]


class Purchase(msgspec.Struct, frozen=True):
    """The season in which the finished animals are bought, where it comes to that."""

    season: int


Lane = Stay | Breeding | Purchase


def lanes(plan: Plan, route: Route) -> tuple[Lane, ...]:
    """Groups in the route's order, each pairing after the last of its groups, then a purchase."""
    calendar = _Calendar(plan, route)
    order = [group.id for group in route.groups]
    result: list[Lane] = []
    for place, group in enumerate(route.groups):
        result.append(calendar.stay(group))
        for pairing in route.pairings:
            known = [order.index(name) for name in (*pairing.males, *pairing.females) if name in order]
            if known and max(known) == place:
                result.append(calendar.breeding(pairing))
    if route.buy_outright is not None:
        result.append(Purchase(route.buy_outright))
    return tuple(result)


def lane_count(route: Route) -> int:
    """How many lanes a route has, without laying them out."""
    order = {group.id for group in route.groups}
    pairings = sum(not order.isdisjoint((*pairing.males, *pairing.females)) for pairing in route.pairings)
    return len(route.groups) + pairings + (route.buy_outright is not None)


def mean_clutch(plan: Plan) -> float:
    """Eggs expected of one clutch."""
    clutch = plan.species.clutch
    if clutch.counts:
        return sum(int(size) * _number(chance) for size, chance in clutch.counts.items())
    return float(clutch.fixed if clutch.fixed is not None else clutch.mean or 0)


def expected_eggs(plan: Plan, breeding: Breeding) -> int:
    """Eggs that a pairing can be expected to lay in one season with all its females."""
    species = plan.species
    per_female = (
        species.clutches_per_season * mean_clutch(plan) * _number(species.lays) * _number(species.breeds.female)
    )
    return round(breeding.females * per_female)


def size(group: Group) -> int:
    """How many animals a group has, or may hold back."""
    if isinstance(group, Owned) and group.animals is not None:
        return len(group.animals)
    return group.count or 0


def _number(chance: float | str) -> float:
    if isinstance(chance, str):
        top, _, bottom = chance.partition("/")
        return float(top) / float(bottom or 1)
    return float(chance)


class _Calendar:
    """Works out stays and breeding seasons; held groups follow from the pairings they come from."""

    def __init__(self, plan: Plan, route: Route) -> None:
        self._plan, self._route = plan, route
        self._groups = {group.id: group for group in route.groups}
        self._pairings = {pairing.id: pairing for pairing in route.pairings}
        self._last = plan.goal.seasons
        self._open: set[str] = set()

    def stay(self, group: Group) -> Stay:
        if isinstance(group, Bought | Owned):
            return Stay(group, group.season, group.season + group.ready_in, group.until)
        hatched = self._hatched(group)
        matures = self._plan.species.matures
        grown = matures.male if group.sex == "male" else matures.female
        return Stay(group, hatched, hatched + grown, group.until)

    def breeding(self, pairing: Pairing) -> Breeding:
        first, last = pairing.seasons
        seasons = tuple(
            season
            for season in range(first or 1, min(last or self._last, self._last) + 1)
            if self._there(pairing.males, season) and self._there(pairing.females, season)
        )
        groups = [self._groups[name] for name in pairing.females if name in self._groups]
        held = [group for group in self._route.groups if isinstance(group, Held) and pairing.id in group.source]
        return Breeding(pairing, seasons, sum(size(group) for group in groups), tuple(held))

    def _hatched(self, group: Held) -> int:
        # A group fed by its own young cannot say when it begins: it never does by itself.
        if group.id in self._open:
            return self._last + 1
        self._open.add(group.id)
        found = [self.breeding(self._pairings[name]).seasons[:1] for name in group.source if name in self._pairings]
        self._open.discard(group.id)
        return min((seasons[0] for seasons in found if seasons), default=self._last + 1)

    def _there(self, names: tuple[str, ...], season: int) -> bool:
        stays = [self.stay(self._groups[name]) for name in names if name in self._groups]
        return any(stay.breeds <= season <= (stay.leaves or self._last) for stay in stays)
