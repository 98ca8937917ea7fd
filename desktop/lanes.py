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
    """The seasons in which a pairing has both sexes there, and how many females it has in each.

    None are left to it where they are all with other males by then; `laying`: the seasons in which some are.
    """

    pairing: Pairing
    seasons: tuple[int, ...]
    females: tuple[int, ...]
    held: tuple[Held, ...]

    @property
    def laying(self) -> tuple[int, ...]:
        """The seasons in which females are put to a male."""
        return tuple(season for season, many in zip(self.seasons, self.females, strict=True) if many)

    def females_in(self, season: int) -> int:
        """How many females are put to a male in a season."""
        return dict(zip(self.seasons, self.females, strict=True)).get(season, 0)


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


def expected_eggs(plan: Plan, breeding: Breeding, season: int) -> int:
    """Eggs that a pairing can be expected to lay in a season that is reached, with all that may be held by then."""
    species = plan.species
    per_female = (
        species.clutches_per_season * mean_clutch(plan) * _number(species.lays) * _number(species.breeds.female)
    )
    return round(breeding.females_in(season) * per_female)


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
    """Goes through the seasons: who is there, who is put to whom, and from when young can be held."""

    def __init__(self, plan: Plan, route: Route) -> None:
        self._plan, self._route = plan, route
        self._groups = {group.id: group for group in route.groups}
        # In the season that buys nothing is bred any more.
        ends = route.buy_outright if route.buy_outright is not None else plan.goal.seasons + 1
        self._seasons = range(1, min(ends, plan.goal.seasons + 1))
        self._hatched: dict[str, int] = {}
        self._females: dict[str, dict[int, int]] = {pairing.id: {} for pairing in route.pairings}
        for season in self._seasons:
            self._go_through(season)

    def stay(self, group: Group) -> Stay:
        if isinstance(group, Bought | Owned):
            return Stay(group, group.season, group.season + group.ready_in, group.until)
        # What never hatches begins after the last season: a group fed by its own young cannot begin by itself.
        hatched = self._hatched.get(group.id, self._plan.goal.seasons + 1)
        matures = self._plan.species.matures
        grown = matures.male if group.sex == "male" else matures.female
        return Stay(group, hatched, hatched + grown, group.until)

    def breeding(self, pairing: Pairing) -> Breeding:
        known = self._females[pairing.id]
        held = [group for group in self._route.groups if isinstance(group, Held) and pairing.id in group.source]
        return Breeding(pairing, tuple(known), tuple(known.values()), tuple(held))

    def _go_through(self, season: int) -> None:
        """Puts females to males in the order of the pairings, as many as are free and a male takes in a season."""
        given: dict[str, int] = {}
        served: dict[str, int] = {}
        for pairing in self._route.pairings:
            first, last = pairing.seasons
            males, females = (self._there(names, season) for names in (pairing.males, pairing.females))
            if not (males and females) or not (first or 1) <= season <= (last or season):
                continue
            room = size(males[0]) * self._plan.species.females_per_male - served.get(males[0].id, 0)
            many = 0
            for group in females:
                taken = max(min(size(group) - given.get(group.id, 0), room - many), 0)
                given[group.id] = given.get(group.id, 0) + taken
                many += taken
            served[males[0].id] = served.get(males[0].id, 0) + many
            self._females[pairing.id][season] = many
            if many:
                self._hold(pairing, season)

    def _hold(self, pairing: Pairing, season: int) -> None:
        for group in self._route.groups:
            if isinstance(group, Held) and pairing.id in group.source:
                self._hatched.setdefault(group.id, season)

    def _there(self, names: tuple[str, ...], season: int) -> list[Group]:
        """The groups of these that have breeder-size members."""
        found = []
        for name in names:
            stay = self.stay(self._groups[name]) if name in self._groups else None
            if stay is not None and stay.breeds <= season <= (stay.leaves or season):
                found.append(stay.group)
        return found
