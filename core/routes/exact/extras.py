"""What holding back adds to expectations: keep, animals there, and young that are held instead of sold."""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from core.routes.calendar import Mating
from core.routes.exact.algebra import Complex, CountAlgebra, GoalAlgebra
from core.routes.exact.brood import Nursery
from core.routes.exact.eggs import CHANCES, Laying, Pair
from core.routes.exact.ending import Standings, filling, mixed, standings
from core.routes.exact.filling import Look
from core.routes.exact.founding import FounderWorld
from core.routes.exact.looks import goal_looks
from core.routes.exact.plain import Extras
from core.routes.problem import Herd, Problem

if TYPE_CHECKING:
    from core.routes.exact.holding import HoldingRoute


def holding_extras(route: HoldingRoute) -> Extras:
    """Expectations of everything about held animals, by season: [breeding seasons] each."""
    found = np.zeros((6, route.problem.breeding_seasons))
    taken: dict[tuple[int, int, Nursery], tuple[float, float]] = {}
    for rows, sign in goal_looks(route.problem):
        for world, season, nursery, chance in route.occupancy(rows):
            key = id(world), season, nursery
            if key not in taken:
                taken[key] = _taken(route, world, season, nursery)
            known = route.keep(nursery, season), route.there(nursery, season), *taken[key]
            found[:4, season - 1] += sign * chance * np.array(known)
    for row in range(len(route.problem.wanted)):
        for season, number, worth in _both(route, row):
            found[4:, season - 1] += number, worth
    return Extras(*found)


def _taken(route: HoldingRoute, world: FounderWorld, season: int, nursery: Nursery) -> tuple[float, float]:
    """Expected young held at the end of a season, and what they would have brought."""
    look = route.look(world, (), CHANCES)
    kept = route.fill(look, nursery, season)
    if kept is None:
        return 0.0, 0.0
    number, worth = 0.0, 0.0
    for herds, weight in kept.parts(look.breeding.algebra):
        chance = float(weight[0, 0].real)
        for kind, count in (pair for herd in herds for pair in herd):
            number += chance * count
            worth += chance * count * look.classes.kept(kind).price
    return number, worth


@dataclass(frozen=True)
class _Place:
    """A goal row, and a preference of a held herd: young that count for the one may be held by the other."""

    row: int
    herd: Herd
    level: int
    free: int


def _both(route: HoldingRoute, row: int) -> Iterator[tuple[int, float, float]]:
    """(season, number, worth) of young that count for a goal row and are held too."""
    problem = route.problem
    for world in route.worlds:
        look = route.look(world, (row,), CHANCES)
        chain = route.chain(look)
        for season in range(1, problem.breeding_seasons + 1):
            for nursery, weight in chain[season - 1].items():
                for herd, free in zip(route.held_herds, route.vacancies(nursery, season), strict=True):
                    for level in range(len(herd.picks) if free > 0 else 0):
                        place = _Place(row, herd, level, free)
                        number, worth = _counted_and_held(route, look, place, nursery, season)
                        chance = world.chance * float(weight[0, 0].real)
                        yield season, chance * number, chance * worth


def _counted_and_held(
    route: HoldingRoute, look: Look, place: _Place, nursery: Nursery, season: int
) -> tuple[float, float]:
    """Of one preference in one season, given the nursery at its start."""
    pairs = route.season_matings(nursery, season)
    eggs = _Eggs(route.problem, look, place)
    if not any(eggs.hit(mating) for mating in route.founder_matings(nursery, season)):
        return 0.0, 0.0
    founders = route.founder_matings(nursery, season)
    raised = [standings(look.breeding, cluster, filling) for cluster in route.clusters(look, nursery, season)]
    number, worth, laid = 0.0, 0.0, set[Hashable]()
    for mating in pairs:
        chance, price = eggs.hit(mating) if mating in founders else None, 0.0
        if chance is not None:
            share = _not_yet(look.breeding.algebra, raised, laid, season) * eggs.first_and_held(mating, founders)
            number, worth = number + share * chance[0], worth + share * chance[1]
        laid.add(mating.female)
    return number, worth


def _not_yet(algebra: CountAlgebra, raised: Sequence[Standings], laid: set[Hashable], season: int) -> float:
    """Chance that held animals' own young fill nothing up to this place in the laying order."""
    product = 1.0
    for states in raised:
        factor = sum(weight * mixed(algebra, females, laid, None, season) for weight, females in states)
        product *= float(np.asarray(factor).ravel()[0].real)
    return product


class _Eggs:
    """Founders' eggs of one season, counted for one place: better or earlier young of the herd's, up to vacancies.

    Before the counted young, one that fits the goal row falls out (it would have counted first) and young of the same
    preference take places; after it only those of better preferences do.
    """

    def __init__(self, problem: Problem, look: Look, place: _Place) -> None:
        self._problem, self._look, self._place = problem, look, place
        self._algebra = GoalAlgebra([1, place.free])

    def hit(self, mating: Mating) -> tuple[float, float] | None:
        """Chance that an egg of this mating counts for the row at this preference, and that times its price."""
        found = self._look.states(mating)
        if found is None or found[0] is None or mating.pairing not in self._place.herd.sources:
            return None
        pair = self._look.breeding.pairs[found[0], found[1]]
        fitting = [young for young in pair.young if young[0] >> self._place.row & 1 and self._level(young[0]) == 0]
        chance = sum(chance for _, chance, _ in fitting)
        return (chance, sum(chance * price for _, chance, price in fitting)) if chance > 0 else None

    def first_and_held(self, mating: Mating, founders: Sequence[Mating]) -> float:
        """Sum over this mating's eggs of the chance that one that counts there is the first to and is held."""
        place = founders.index(mating)
        product = self._middle(mating)
        for earlier in founders[:place]:
            product = self._algebra.multiply(product, self._season(earlier, before=True))
        for later in founders[place + 1 :]:
            product = self._algebra.multiply(product, self._season(later, before=False))
        return float(self._algebra.total(product)[0].real)

    def _level(self, mask: int) -> int | None:
        """Below 0 for a better preference than the place's, 0 for the same, above for a worse one."""
        level = self._look.classes.level(self._place.herd, mask)
        return None if level is None else level - self._place.level

    def _laying(self, mating: Mating, *, before: bool) -> Laying:
        feeds = mating.pairing in self._place.herd.sources

        def step_of(mask: int) -> int | None:
            if before and mask >> self._place.row & 1:
                return 0
            level = self._level(mask) if feeds else None
            return 1 if level is not None and level <= (0 if before else -1) else None

        return Laying(self._problem.biology, self._algebra, step_of, CHANCES)

    def _season(self, mating: Mating, *, before: bool) -> Complex:
        found, one = self._look.states(mating), self._algebra.one(1)
        if found is None or found[0] is None:
            return one
        male, female, works = found
        season = self._laying(mating, before=before).season(self._look.breeding.pairs[male, female]).alive
        return works * season + (1 - works) * one

    def _middle(self, mating: Mating) -> Complex:
        """This mating's season, with one egg of it left out as the one that counts."""
        found = self._look.states(mating)
        assert found is not None
        male, female, works = found
        assert male is not None
        pair, biology = self._look.breeding.pairs[male, female], self._problem.biology
        first, then = self._laying(mating, before=True), self._laying(mating, before=False)
        within = self._within(pair, first, then) * (1 - biology.lost)
        total = np.zeros_like(within)
        for clutch in range(biology.clutches):
            product = within
            for _ in range(clutch):
                product = self._algebra.multiply(product, first.clutch(pair))
            for _ in range(biology.clutches - 1 - clutch):
                product = self._algebra.multiply(product, then.clutch(pair))
            total = total + product
        return works * biology.lays * total

    def _within(self, pair: Pair, first: Laying, then: Laying) -> Complex:
        """A clutch of n eggs, summed over the place of the one left out, those before it and after it weighed apart."""
        before, after = first.weights(pair), then.weights(pair)
        one = self._algebra.one(1)
        power, split, total = one, np.zeros_like(one), np.zeros_like(one)
        for chance in self._problem.biology.sizes[1:]:
            split = self._algebra.lay(split, after.miss, after.steps) + power
            power = self._algebra.lay(power, before.miss, before.steps)
            total = total + chance * split
        return total
