"""What every way of answering routes that hold young back for one generation begins with."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from typing import Self

from core.routes.another import another
from core.routes.calendar import Animal, Mating, fixed_costs, founders, founders_present, matings
from core.routes.exact.bounds import eggs_bound, keep_bound
from core.routes.exact.brood import HeldHerds, Nursery
from core.routes.exact.filling import Founders
from core.routes.exact.founding import FounderWorld
from core.routes.exact.looks import goal_looks
from core.routes.exact.nursing import Raising
from core.routes.exact.plain import Workshop
from core.routes.problem import Problem


def is_steady(problem: Problem) -> bool:
    """Whether held animals never change who of the founders breeds with whom."""
    held = {herd.index for herd in problem.herds if herd.held}
    for place, pairing in enumerate(problem.pairings):
        if set(pairing.females) <= held:
            continue
        if held & {*pairing.males, *pairing.females}:
            return False
        earlier = problem.pairings[:place]
        if any(held & set(other.females) and set(other.males) & set(pairing.males) for other in earlier):
            return False
    return True


class HeldRoute:
    """A route that holds young back, at one set of counts: its fixed costs, bounds, and who breeds with whom."""

    def __init__(self, problem: Problem, workshop: Workshop) -> None:
        self.problem, self.shop = problem, workshop
        self.held = HeldHerds(problem)
        self.fixed, self.present = fixed_costs(problem), founders_present(problem)
        self.looks = list(goal_looks(problem))
        self.eggs_bound, self.keep_bound = eggs_bound(problem, workshop.breeders), keep_bound(problem)
        self.seasons = problem.breeding_seasons
        self._held_indices = frozenset(herd.index for herd in self.held.herds)
        self._by_nursery: dict[tuple[int, Nursery], tuple[Mating, ...]] = {}
        self._matings: dict[tuple[Hashable, tuple[int, ...]], tuple[Mating, ...]] = {}
        self._with_held: dict[tuple[Hashable, tuple[int, ...]], tuple[Mating, ...]] = {}

    def afresh(self, shop: Workshop) -> Self:
        """The same route at other points: who breeds with whom is known."""
        other = another(self)
        other.shop = shop
        return other

    def season_matings(self, nursery: Nursery, season: int) -> tuple[Mating, ...]:
        """All matings of a season, in laying order."""
        key = season, nursery
        if key not in self._by_nursery:
            self._by_nursery[key] = self._matings_of(self.held.breeders(nursery, season), season)
        return self._by_nursery[key]

    def _matings_of(self, counts: tuple[int, ...], season: int) -> tuple[Mating, ...]:
        key = self.shop.sorts[season - 1], counts
        found = self._matings.get(key)
        if found is None:
            breeders = [[] if herd.held else founders(herd, season) for herd in self.problem.herds]
            for herd, count in zip(self.held.herds, counts, strict=True):
                breeders[herd.index] = [Animal(herd.index, place) for place in range(count)]
            found = self._matings[key] = tuple(matings(self.problem, breeders, season))
        return found

    def matings_with_held(self, counts: tuple[int, ...], season: int) -> tuple[Mating, ...]:
        """The matings of a season that held animals have a part in, in laying order; `counts`: of breeders, by herd."""
        if season < self.held.first_breeding:
            return ()
        key = self.shop.sorts[season - 1], counts
        if key not in self._with_held:
            every = self._matings_of(counts, season)
            self._with_held[key] = tuple([mating for mating in every if self.with_held(mating)])
        return self._with_held[key]

    def with_held(self, mating: Mating) -> bool:
        """Whether a held animal has a part in it."""
        return mating.male.herd in self._held_indices or mating.female.herd in self._held_indices

    def held_before(self, pairing: int) -> int:
        """How many pairings that held animals may have a part in come before this one."""
        before = self.problem.pairings[:pairing]
        return sum(not self._held_indices.isdisjoint((*other.males, *other.females)) for other in before)

    def founder_pairs(self, world: FounderWorld, nursery: Nursery, season: int) -> tuple[tuple[Animal, Founders], ...]:
        """The matings of a season that no held animal has a part in, by female; those that never lay left out."""
        return self.pairs_of(world, [own for own in self.season_matings(nursery, season) if not self.with_held(own)])

    def pairs_of(self, world: FounderWorld, matings: Sequence[Mating]) -> tuple[tuple[Animal, Founders], ...]:
        """The same for these matings."""
        found = []
        for mating in matings:
            male, female = world.states[mating.male], world.states[mating.female]
            if female:
                pair = Founders(mating.pairing, male[0][0] if male else None, *female[0])
                found.append((mating.female, pair))
        return tuple(found)

    def raising_of(self, world: FounderWorld, nursery: Nursery) -> Raising:
        """What the animals of a nursery, all of them fit, breed when they are breeder-size."""
        breeders = enumerate(self.held.breeders_by_season(nursery), start=1)
        schedule = tuple([self.matings_with_held(counts, season) for season, counts in breeders])
        met: dict[Animal, None] = {}
        # Most seasons are one and the same.
        for pairs in {id(pairs): pairs for pairs in schedule}.values():
            for mating in pairs:
                met[mating.male] = met[mating.female] = None
        founders_met = tuple(
            [(animal, world.states[animal]) for animal in met if animal.herd not in self._held_indices]
        )
        known = {
            Animal(herd.index, place): member
            for herd, members in zip(self.held.herds, self.held.members(nursery), strict=True)
            for place, member in enumerate(members)
        }
        raised = tuple([(animal, member) for animal, member in known.items() if animal in met or member[1] is not None])
        key = "raising", schedule, raised, founders_met
        return self.shop.kept(key, lambda: Raising(schedule, raised, founders_met))
