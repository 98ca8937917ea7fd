"""What holding back adds to expectations: keep, animals there, and young that are held instead of sold."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from core.routes.calendar import Animal
from core.routes.exact.algebra import Complex, GoalAlgebra
from core.routes.exact.brood import Nursery, level_of
from core.routes.exact.eggs import CHANCES, EXPECTATIONS, Pair
from core.routes.exact.ending import Standings, filling, in_turn
from core.routes.exact.filling import Founders
from core.routes.exact.founding import FounderWorld
from core.routes.exact.laying import Laying
from core.routes.exact.looks import goal_looks
from core.routes.exact.plain import Extras
from core.routes.problem import Herd, Problem

if TYPE_CHECKING:
    from core.routes.exact.holding import HoldingRoute
    from core.routes.exact.nursing import Nursing


def holding_extras(route: HoldingRoute) -> Extras:
    """Expectations of everything about young being held, by season: [breeding seasons] each."""
    problem = route.problem
    found = np.zeros((4, problem.breeding_seasons))
    taken: dict[tuple[int, int, Nursery], tuple[float, float]] = {}
    for rows, sign in goal_looks(problem):
        nursing = route.nursing(rows, EXPECTATIONS)
        for world, season, nursery, chance in route.occupancy(nursing):
            key = id(world), season, nursery
            if key not in taken:
                taken[key] = _taken(route, world, season, nursery)
            found[:2, season - 1] += sign * chance * np.array(taken[key])
    for row in range(len(problem.wanted)):
        for season, number, worth in _both(route, row):
            found[2:, season - 1] += number, worth
    return Extras(*found)


def _taken(route: HoldingRoute, world: FounderWorld, season: int, nursery: Nursery) -> tuple[float, float]:
    """Expected young held at the end of a season, and what they would have brought."""
    nursing = route.nursing((), CHANCES)
    filling = route.fill(nursing.founding, world, nursery, season)
    if filling is None:
        return 0.0, 0.0
    number, worth = 0.0, 0.0
    for herds, weight in filling.parts(nursing.algebra):
        chance = float(weight[0, 0].real)
        for kind, count in (pair for herd in herds for pair in herd):
            number += chance * count
            worth += chance * count * nursing.founding.classes.kept(kind).price
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
    if not route.shop.both_wanted_and_picked(row):
        return
    nursing = route.nursing((row,), EXPECTATIONS)
    for season, branches in enumerate(route.chain(nursing), start=1):
        for begun in branches:
            for nursery, weight in zip(begun.stage.nurseries, begun.weights, strict=True):
                pairs = route.founder_pairs(route.worlds[begun.world], nursery, season)
                for herd, free in zip(route.held.herds, route.held.vacancies(nursery, season), strict=True):
                    for level in range(len(herd.picks) if free > 0 else 0):
                        eggs = _Eggs(route.problem, nursing, _Place(row, herd, level, free), pairs)
                        if any(eggs.hits):
                            raising = route.raising(begun.world, nursery, season)
                            raised = nursing.standings(raising, filling, slice(0, EXPECTATIONS.points))
                            order = [mating.female for mating in route.season_matings(nursery, season)]
                            number, worth = eggs.counted_and_held(raised, order, season)
                            chance = float(weight[0, 0].real)
                            yield season, chance * number, chance * worth


class _Eggs:
    """Founders' eggs of one season, counted for one place: better or earlier young of the herd's, up to vacancies.

    Before the counted young, one that fits the goal row falls out (it would have counted first) and young of the same
    preference take places; after it only those of better preferences do.
    """

    def __init__(
        self, problem: Problem, nursing: Nursing, place: _Place, pairs: Sequence[tuple[Animal, Founders]]
    ) -> None:
        self._biology, self._nursing, self._place = problem.biology, nursing, place
        self._pairs = pairs
        self._algebra = GoalAlgebra([1, place.free])
        self.hits = [self._hit(pair) for _, pair in pairs]

    def counted_and_held(
        self, raised: Sequence[Standings], order: Sequence[Animal], season: int
    ) -> tuple[float, float]:
        """Expected young that count for the row and are held at this preference, and what they would have brought."""
        number, worth, laid = 0.0, 0.0, 0
        # That held animals' own young fill nothing up to each place in the laying order.
        unfilled = in_turn(self._nursing.algebra, raised, order, season, season)[1] if raised else []
        standing = {one.female for states in raised for _, females in states for one in females}
        for female in order:
            for place, (own, _) in enumerate(self._pairs):
                hit = self.hits[place]
                if own == female and hit is not None:
                    share = self._first_and_held(place) * (float(unfilled[laid].ravel()[0].real) if raised else 1.0)
                    number, worth = number + share * hit[0], worth + share * hit[1]
            laid += female in standing
        return number, worth

    def _hit(self, pair: Founders) -> tuple[float, float] | None:
        """Chance that an egg of this pair counts for the row at this preference, and that times its price."""
        if pair.male is None or pair.pairing not in self._place.herd.sources:
            return None
        young = self._nursing.breeding.pairs[pair.male, pair.female].young
        fitting = [one for one in young if one[0] >> self._place.row & 1 and self._level(one[0]) == 0]
        chance = sum(chance for _, chance, _ in fitting)
        return (chance, sum(chance * price for _, chance, price in fitting)) if chance > 0 else None

    def _first_and_held(self, place: int) -> float:
        """Sum over one female's eggs of the chance that one that counts there is the first to and is held."""
        product = self._middle(self._pairs[place][1])
        for _, earlier in self._pairs[:place]:
            product = self._algebra.multiply(product, self._season(earlier, before=True))
        for _, later in self._pairs[place + 1 :]:
            product = self._algebra.multiply(product, self._season(later, before=False))
        return float(self._algebra.total(product)[0].real)

    def _level(self, mask: int) -> int | None:
        """Below 0 for a better preference than the place's, 0 for the same, above for a worse one."""
        level = level_of(self._place.herd, mask)
        return None if level is None else level - self._place.level

    def _laying(self, pair: Founders, *, before: bool) -> Laying:
        feeds = pair.pairing in self._place.herd.sources

        def step_of(mask: int) -> int | None:
            if before and mask >> self._place.row & 1:
                return 0
            level = self._level(mask) if feeds else None
            return 1 if level is not None and level <= (0 if before else -1) else None

        return Laying(self._biology, self._algebra, step_of, CHANCES)

    def _season(self, pair: Founders, *, before: bool) -> Complex:
        one = self._algebra.one(1)
        if pair.male is None:
            return one
        young = self._nursing.breeding.pairs[pair.male, pair.female]
        season = self._laying(pair, before=before).season(young).alive
        return pair.works * season + (1 - pair.works) * one

    def _middle(self, pair: Founders) -> Complex:
        """A female's season, with one egg of it left out as the one that counts."""
        assert pair.male is not None
        young, biology = self._nursing.breeding.pairs[pair.male, pair.female], self._biology
        first, then = self._laying(pair, before=True), self._laying(pair, before=False)
        within = self._within(young, first, then) * (1 - biology.lost)
        total = np.zeros_like(within)
        for clutch in range(biology.clutches):
            product = within
            for _ in range(clutch):
                product = self._algebra.multiply(product, first.clutch(young))
            for _ in range(biology.clutches - 1 - clutch):
                product = self._algebra.multiply(product, then.clutch(young))
            total = total + product
        return pair.works * biology.lays * total

    def _within(self, young: Pair, first: Laying, then: Laying) -> Complex:
        """A clutch of n eggs, summed over the place of the one left out, those before it and after it weighed apart."""
        before, after = first.weights(young), then.weights(young)
        one = self._algebra.one(1)
        power, split, total = one, np.zeros_like(one), np.zeros_like(one)
        for chance in self._biology.sizes[1:]:
            split = self._algebra.lay(split, after.miss, after.steps) + power
            power = self._algebra.lay(power, before.miss, before.steps)
            total = total + chance * split
        return total
