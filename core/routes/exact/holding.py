"""Exact answers for routes that hold young back for one generation.

Held animals matter through how many there are of each class and how many of them live to breed; given that, and the
true states of the founders, each held animal is what its class may be, apart from all else. So the founders' part is
a chain over the seasons whose state is the nursery, and what the held animals then breed multiplies on at the end.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property

import numpy as np

from core.routes.calendar import Animal, Mating, fixed_cost, founders, founders_present, matings
from core.routes.exact.algebra import Complex
from core.routes.exact.brood import Classes, HeldHerds, HoldClass, Nursery
from core.routes.exact.clusters import Cluster, Seasons, States
from core.routes.exact.eggs import CHANCES, Probe, SeasonWeights
from core.routes.exact.ending import AtEgg, Standing, season_sum, standings
from core.routes.exact.extras import holding_extras
from core.routes.exact.filling import Filling, Look, fill
from core.routes.exact.founding import FounderWorld, founder_worlds
from core.routes.exact.limits import MOST_NURSERIES, OutOfReach
from core.routes.exact.plain import Extras, Rows, Totals, Workshop
from core.routes.exact.schedule import clusters_of, founder_schedule
from core.routes.problem import Problem
from core.routes.result import Floats

# Nurseries less likely than this are left out; all of them together stay far below what is promised.
_NEGLIGIBLE = 1e-16

# Per nursery at the end of a season, its weight with no row filled so far: [states, points].
Weights = dict[Nursery, Complex]


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


class HoldingRoute:
    """One route that holds young back for one generation, at one set of counts."""

    def __init__(self, problem: Problem, workshop: Workshop) -> None:
        self.problem, self._shop = problem, workshop
        self._seasons = problem.breeding_seasons
        self._held = HeldHerds(problem)
        self.held_herds = self._held.herds
        self.vacancies, self.keep, self.there = self._held.vacancies, self._held.keep, self._held.present
        schedule = founder_schedule(problem)
        self.worlds = tuple(founder_worlds(problem, workshop.kinds, schedule, steady=is_steady(problem)))
        self._matings: dict[tuple[int, tuple[int, ...]], tuple[Mating, ...]] = {}
        self._classes: dict[Rows, Classes] = {}
        seasons = range(1, problem.horizon + 1)
        self.fixed: Floats = np.array([fixed_cost(problem, season) for season in seasons])
        self.present: Floats = np.array([founders_present(problem, season) for season in seasons], dtype=float)

    @cached_property
    def _bounds(self) -> tuple[int, float]:
        """The most eggs that can be laid, and the most that held animals can cost to keep."""
        biology, eggs, keep, nurseries = self.problem.biology, 0, 0.0, 0
        per_female = biology.clutches * (len(biology.sizes) - 1)
        for world in self.worlds:
            last = self.chain(self.look(world, (0,), CHANCES))[-1]
            nurseries += len(last)
            if nurseries > MOST_NURSERIES:
                raise OutOfReach("too many ways in which young can be held over the seasons")
            for nursery in last:
                laid = sum(len(self.season_matings(nursery, season)) for season in range(1, self._seasons + 1))
                eggs = max(eggs, laid * per_female)
                keep = max(keep, sum(self._held.keep(nursery, season) for season in range(1, self._seasons + 1)))
        return eggs, keep

    @property
    def most_eggs(self) -> int:
        """The most eggs that can be laid."""
        return self._bounds[0]

    @property
    def most_keep(self) -> float:
        """The most that held animals can cost to keep."""
        return self._bounds[1]

    def totals(self, rows: Rows, probe: Probe) -> Totals:
        """The generating functions season by season, with none of `rows` full."""
        alive, unfilled = self._elements(rows, probe)
        total = self._shop.breeding(self.problem, rows, probe).algebra.total
        return Totals(total(alive), total(unfilled))

    def lacking(self, row: int) -> float:
        """Expected number of young that this row still lacks at the end."""
        short = np.arange(self.problem.wanted[row], 0, -1)
        return float(short @ self._elements((row,), CHANCES)[0][-1, :, 0].real)

    def endings(self, rows: Rows, probe: Probe, at_egg: AtEgg) -> Complex:
        """What happens at the egg that fills one of `rows`, by season: [breeding seasons, points]."""
        found = np.zeros((self._seasons, probe.points), dtype=complex)
        for world in self.worlds:
            look = self.look(world, rows, probe)
            chain = self.chain(look)
            for season in range(1, self._seasons + 1):
                for nursery, weight in chain[season - 1].items():
                    at = self._ending(look, nursery, season, weight, at_egg)
                    found[season - 1] += world.chance * at
        return found

    def occupancy(self, rows: Rows) -> Iterator[tuple[FounderWorld, int, Nursery, float]]:
        """Chances to start each season with each nursery, in each world, and none of `rows` full."""
        for world in self.worlds:
            look = self.look(world, rows, CHANCES)
            chain = self.chain(look)
            for season in range(1, self._seasons + 1):
                for nursery, weight in chain[season - 1].items():
                    raised = self._raised(look, nursery, season - 1).alive[season - 1]
                    chance = look.breeding.algebra.total(look.breeding.algebra.multiply(weight, raised))
                    yield world, season, nursery, world.chance * float(chance[0].real)

    def _elements(self, rows: Rows, probe: Probe) -> tuple[Complex, Complex]:
        states = self._shop.breeding(self.problem, rows, probe).algebra.size
        alive = np.zeros((self._seasons + 1, states, probe.points), dtype=complex)
        alive[0, 0] = 1
        unfilled = alive.copy()
        for world in self.worlds:
            look = self.look(world, rows, probe)
            algebra, chain = look.breeding.algebra, self.chain(look)
            for season in range(1, self._seasons + 1):
                for nursery, weight in chain[season - 1].items():
                    raised = self._raised(look, nursery, season)
                    laid = self._founders_season(look, nursery, season)
                    start = world.chance * weight
                    start = start * probe.paying(self._kept_so_far(nursery, season))
                    alive[season] += algebra.multiply(algebra.multiply(start, laid.alive), raised.alive[season])
                    unfilled[season] += algebra.multiply(start * laid.allowed, raised.open[season])
        return alive, unfilled

    def _kept_so_far(self, nursery: Nursery, season: int) -> float:
        return sum(self._held.keep(nursery, past) for past in range(1, season + 1))

    def look(self, world: FounderWorld, rows: Rows, probe: Probe) -> Look:
        classes = self._classes.get(rows)
        if classes is None:
            classes = self._classes[rows] = Classes(self.problem, self._shop.kinds, rows)
        return Look(self._shop.breeding(self.problem, rows, probe), classes, world, rows)

    def extras(self) -> Extras:
        """What held animals add to expectations."""
        return holding_extras(self)

    def fill(self, look: Look, nursery: Nursery, season: int) -> Filling | None:
        """A season's young of the founders and which are held; None where nothing can be."""
        pairs = self.founder_matings(nursery, season)
        return fill(look, self.problem, self.held_herds, pairs, self.vacancies(nursery, season))

    # The founders' part.

    def chain(self, look: Look) -> list[Weights]:
        """Per season 0.., the weight of every nursery at its end, held animals' own breeding left out."""
        chain: list[Weights] = [{self._held.empty: look.breeding.algebra.one(look.probe.points)}]
        for season in range(1, self._seasons + 1):
            after: Weights = {}
            for nursery, weight in chain[-1].items():
                for joined, factor in self._season(look, nursery, season):
                    grown = look.breeding.algebra.multiply(weight, factor)
                    after[joined] = after[joined] + grown if joined in after else grown
            if len(after) > MOST_NURSERIES:
                raise OutOfReach("too many ways in which young can be held over the seasons")
            chain.append({n: w for n, w in after.items() if w[:, 0].real.sum() > _NEGLIGIBLE})
        return chain

    def _season(self, look: Look, nursery: Nursery, season: int) -> Iterator[tuple[Nursery, Complex]]:
        """The nurseries that a season leads to, each with its weight."""
        filling = self.fill(look, nursery, season)
        if filling is None:
            yield nursery, self._founders_season(look, nursery, season).alive
            return
        for kept, part in filling.parts(look.breeding.algebra):
            if part[:, 0].real.sum() > _NEGLIGIBLE:
                for joined, chance in self._held.joined(nursery, season, kept):
                    yield joined, part * chance

    def _founders_season(self, look: Look, nursery: Nursery, season: int) -> SeasonWeights:
        """All founders' clutches of a season, whoever is held from them."""
        algebra = look.breeding.algebra
        alive = algebra.one(look.probe.points)
        allowed: Complex = np.ones(look.probe.points, dtype=complex)
        for mating in self.founder_matings(nursery, season):
            weights = look.mating(mating)
            if weights is not None:
                alive, allowed = algebra.multiply(alive, weights.alive), allowed * weights.allowed
        return SeasonWeights(alive, allowed)

    # What held animals breed.

    def _raised(self, look: Look, nursery: Nursery, season: int) -> Seasons:
        """Everything bred with held animals through a season, by animals that are breeder-size by then."""
        return look.breeding.together(self.clusters(look, nursery, season))

    def clusters(self, look: Look, nursery: Nursery, season: int) -> list[Cluster]:
        """The clusters of all matings with held animals through a season."""
        held = {herd.index for herd in self.held_herds}
        schedule = tuple(
            tuple(m for m in self.season_matings(nursery, s) if m.male.herd in held or m.female.herd in held)
            if s <= season
            else ()
            for s in range(1, self._seasons + 1)
        )
        members = self._members(nursery)

        def states(animal: Animal) -> States:
            return look.classes.kept(members[animal]).states if animal in members else look.world.states[animal]

        return clusters_of(schedule, states)

    def _members(self, nursery: Nursery) -> dict[Animal, HoldClass]:
        return {
            Animal(herd.index, place): kind
            for herd, entries in zip(self.held_herds, nursery, strict=True)
            for place, kind in enumerate(entry.kind for entry in entries for _ in range(entry.fit))
        }

    # The calendar.

    def season_matings(self, nursery: Nursery, season: int) -> tuple[Mating, ...]:
        """All matings of a season, in laying order."""
        counts = self._held.breeders(nursery, season)
        key = season, counts
        found = self._matings.get(key)
        if found is None:
            breeders = [[] if herd.held else founders(herd, season) for herd in self.problem.herds]
            for herd, count in zip(self.held_herds, counts, strict=True):
                breeders[herd.index] = [Animal(herd.index, place) for place in range(count)]
            found = self._matings[key] = tuple(matings(self.problem, breeders, season))
        return found

    def founder_matings(self, nursery: Nursery, season: int) -> list[Mating]:
        held = {herd.index for herd in self.held_herds}
        pairs = self.season_matings(nursery, season)
        return [mating for mating in pairs if mating.male.herd not in held and mating.female.herd not in held]

    def _ending(self, look: Look, nursery: Nursery, season: int, start: Complex, at_egg: AtEgg) -> Complex:
        """What happens at the egg that fills a row in this season, for this nursery at its start: [points]."""
        algebra = look.breeding.algebra
        each = [standings(look.breeding, cluster, at_egg) for cluster in self.clusters(look, nursery, season)]
        each += [look.standing(mating, season, at_egg) for mating in self.founder_matings(nursery, season)]
        each.append([(1.0, [Standing(None, np.broadcast_to(start, (season + 1, *start.shape)), start)])])
        order = [mating.female for mating in self.season_matings(nursery, season)]
        return season_sum(algebra, each, order, season)
