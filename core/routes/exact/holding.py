"""Exact answers for routes that hold young back for one generation.

Held animals matter through how many there are of each class and how many of them live to breed; given that, and the
true states of the founders, each held animal is what its class may be, apart from all else. So the founders' part is
a chain over the seasons whose state is the nursery, and what the held animals then breed multiplies on at the end.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple, TypeVar

import numpy as np

from core.routes.calendar import Animal, Mating, fixed_costs, founders, founders_present, matings
from core.routes.exact.algebra import Complex, CountAlgebra
from core.routes.exact.brood import Classes, HeldHerds, HoldClass, Nursery
from core.routes.exact.clusters import Breeding, Cluster, Seasons, States
from core.routes.exact.eggs import EXPECTATIONS, Probe
from core.routes.exact.ending import AtEgg, Standings, season_sum, standings, started
from core.routes.exact.extras import holding_extras
from core.routes.exact.filling import Filling, Founders, Founding
from core.routes.exact.founding import FounderWorld, founder_worlds
from core.routes.exact.limits import MOST_NURSERIES, OutOfReach
from core.routes.exact.plain import Extras, Rows, Totals, Workshop
from core.routes.exact.schedule import Schedule, clusters_of, founder_schedule
from core.routes.problem import Problem
from core.routes.result import Floats

# Nurseries less likely than this are left out; all of them together stay far below what is promised.
_NEGLIGIBLE = 1e-16

_Key = TypeVar("_Key", bound=Hashable)

# Per nursery, its weight with no row filled so far: [states, points].
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


@dataclass(frozen=True, eq=False)
class Raising:
    """What decides what held animals breed: their matings by season, their classes, and the founders they meet."""

    schedule: Schedule
    held: tuple[tuple[Animal, HoldClass], ...]
    founders: tuple[tuple[Animal, States], ...]


class _Group(NamedTuple):
    """What nurseries of one season have in common that breed alike: what is raised, the founders, the laying order."""

    raising: Raising
    pairs: tuple[tuple[Animal, Founders], ...]
    order: tuple[Animal, ...]


class Nursing:
    """What the counts of a route that holds young share, for one way of looking at the goal at one set of points."""

    def __init__(self, problem: Problem, shop: Workshop, rows: Rows, probe: Probe) -> None:
        self.breeding: Breeding = shop.breeding(problem, rows, probe)
        self.algebra: CountAlgebra = self.breeding.algebra
        self.probe = probe
        self.founding = Founding(problem, self.breeding, rows, Classes(problem, shop.kinds, rows))
        self._prices = problem.prices
        self._keep: dict[tuple[int, int], Complex | float] = {}
        self._raised: dict[Raising, Seasons | None] = {}
        self._standings: dict[tuple[Raising, AtEgg], list[Standings]] = {}

    def keep(self, adult: int, growing: int) -> Complex | float:
        """The weight of a season's keep for so many held animals."""
        found = self._keep.get((adult, growing))
        if found is None:
            money = adult * self._prices.keep_adult + growing * self._prices.keep_young
            found = self._keep[adult, growing] = self.probe.paying(money)
        return found

    def raised(self, raising: Raising) -> Seasons | None:
        """Everything bred with held animals, season by season; None where nothing is."""
        if raising not in self._raised:
            clusters = self.clusters(raising)
            self._raised[raising] = self.breeding.together(clusters) if clusters else None
        return self._raised[raising]

    def standings(self, raising: Raising, at_egg: AtEgg) -> list[Standings]:
        """The same, female by female."""
        key = raising, at_egg
        if key not in self._standings:
            self._standings[key] = [standings(self.breeding, cluster, at_egg) for cluster in self.clusters(raising)]
        return self._standings[key]

    def clusters(self, raising: Raising) -> list[Cluster]:
        """The clusters of all matings with held animals."""
        held, known = dict(raising.held), dict(raising.founders)

        def states(animal: Animal) -> States:
            return self.founding.classes.kept(held[animal]).states if animal in held else known[animal]

        return clusters_of(raising.schedule, states)


class HoldingRoute:
    """One route that holds young back for one generation, at one set of counts."""

    def __init__(self, problem: Problem, workshop: Workshop) -> None:
        self.problem, self.shop = problem, workshop
        self._seasons = problem.breeding_seasons
        self.held = HeldHerds(problem)
        self._held_indices = frozenset(herd.index for herd in self.held.herds)
        schedule = founder_schedule(problem)
        self.worlds = tuple(founder_worlds(problem, workshop.kinds, schedule, steady=is_steady(problem)))
        self._matings: dict[tuple[int, tuple[int, ...]], tuple[Mating, ...]] = {}
        self._chains: dict[tuple[int, Nursing], list[Weights]] = {}
        self._raisings: dict[tuple[int, Nursery], Raising] = {}
        self.fixed, self.present = fixed_costs(problem), founders_present(problem)
        self.signature = schedule if is_steady(problem) else tuple(herd.count for herd in problem.herds)

    # Bounds.

    @cached_property
    def eggs_bound(self) -> int:
        """No more eggs than this can be laid: every female that may be there lays all she can in every season."""
        biology = self.problem.biology
        females = sum(
            herd.count
            for season in range(1, self._seasons + 1)
            for herd in self.problem.herds
            if herd.sex == "female" and self._may_breed(herd.index, season)
        )
        return females * biology.clutches * (len(biology.sizes) - 1)

    @cached_property
    def keep_bound(self) -> float:
        """No more than this can be paid for the keep of held animals."""
        dearest = max(self.problem.prices.keep_adult, self.problem.prices.keep_young)
        first = min(self.problem.pairings[source].first for herd in self.held.herds for source in herd.sources)
        seasons = max(0, self._seasons - max(first, 1))
        return dearest * seasons * sum(herd.count for herd in self.held.herds)

    @cached_property
    def most_eggs(self) -> int:
        """The most eggs that can be laid."""
        biology, nursing = self.problem.biology, self.nursing((0,), EXPECTATIONS)
        if biology.lays == 0 or biology.works["female"] == 0:
            return 0
        most = max(max(self._most_laid(nursing, world).values()) for world in self.worlds)
        return most * biology.clutches * (len(biology.sizes) - 1)

    def _most_laid(self, nursing: Nursing, world: FounderWorld) -> dict[Nursery, int]:
        """The most females bred over all seasons, per nursery at the end."""
        bred = {self.held.nobody: 0}
        for season in range(1, self._seasons + 1):
            after: dict[Nursery, int] = {}
            for nursery, times in bred.items():
                begun = self.held.begun(nursery, season)
                total = times + len(self.season_matings(begun, season))
                for joined, _ in self._season(nursing, world, begun, season):
                    after[joined] = max(after.get(joined, 0), total)
            bred = after
        return bred

    def _may_breed(self, herd: int, season: int) -> bool:
        pairings = self.problem.pairings
        there = self.problem.herds[herd]
        ready = 1 + self.problem.biology.matures[there.sex] if there.ready is None else there.ready
        open_pairings = (pairing for pairing in pairings if pairing.first <= season <= pairing.last)
        return there.there(season) and season >= ready and any(herd in pairing.females for pairing in open_pairings)

    # What the engine is asked for.

    def totals(self, rows: Rows, probe: Probe) -> Totals:
        """The generating functions season by season, with none of `rows` full."""
        alive, unfilled = self._elements(rows, probe)
        total = self.nursing(rows, probe).algebra.total
        return Totals(total(alive), total(unfilled))

    def lacking(self, row: int) -> Floats:
        """Expected number of young that this row still lacks at the end of each season: [breeding seasons + 1]."""
        short = np.arange(self.problem.wanted[row], 0, -1)
        return short @ self._elements((row,), EXPECTATIONS)[0][:, :, 0].real.T

    def endings(self, rows: Rows, probe: Probe, at_egg: AtEgg) -> Complex:
        """What happens at the egg that fills one of `rows`, by season: [breeding seasons, points]."""
        found = np.zeros((self._seasons, probe.points), dtype=complex)
        nursing = self.nursing(rows, probe)
        for season in range(1, self._seasons + 1):
            for group, start in self._grouped(nursing, season).items():
                each = [*nursing.standings(group.raising, at_egg), started(start, season)]
                each += [nursing.founding.standing(female, pair, season, at_egg) for female, pair in group.pairs]
                found[season - 1] += season_sum(nursing.algebra, each, group.order, season)
        return found

    def extras(self) -> Extras:
        """What held animals add to expectations."""
        return holding_extras(self)

    def nursing(self, rows: Rows, probe: Probe) -> Nursing:
        """What all counts share for these goal rows at these points."""
        return self.shop.kept(("nursing", rows, probe), lambda: Nursing(self.problem, self.shop, rows, probe))

    def chain(self, nursing: Nursing, world: int) -> list[Weights]:
        """Per season 0.., the weights of the nurseries in it after the keep is paid; held animals' young left out."""
        key = world, nursing
        if key not in self._chains:
            self._chains[key] = self._chain(nursing, self.worlds[world])
        return self._chains[key]

    def _chain(self, nursing: Nursing, world: FounderWorld) -> list[Weights]:
        ended: Weights = {self.held.nobody: world.chance * nursing.algebra.one(nursing.probe.points)}
        chain: list[Weights] = [ended]
        for season in range(1, self._seasons + 1):
            begun: Weights = {}
            for nursery, weight in ended.items():
                _add(begun, self.held.begun(nursery, season), weight)
            chain.append({n: w * nursing.keep(*self.held.there(n, season)) for n, w in begun.items()})
            if len(begun) > MOST_NURSERIES:
                raise OutOfReach("too many ways in which young can be held over the seasons")
            ended = {}
            for nursery, weight in chain[-1].items():
                for joined, factor in self._season(nursing, world, nursery, season):
                    _add(ended, joined, nursing.algebra.multiply(weight, factor))
            ended = {n: w for n, w in ended.items() if w[:, 0].real.sum() > _NEGLIGIBLE}
        return chain

    def _season(
        self, nursing: Nursing, world: FounderWorld, nursery: Nursery, season: int
    ) -> Iterator[tuple[Nursery, Complex]]:
        """The nurseries that a season leads to, each with its weight."""
        filling = self.fill(nursing.founding, world, nursery, season)
        if filling is None:
            yield nursery, nursing.founding.season(tuple(pair for _, pair in self.founder_pairs(world, nursery, season))).alive
            return
        for kept, part in filling.parts(nursing.algebra):
            if part[:, 0].real.sum() > _NEGLIGIBLE:
                for joined, chance in self.held.joined(nursery, season, kept):
                    yield joined, part * chance

    def fill(self, founding: Founding, world: FounderWorld, nursery: Nursery, season: int) -> Filling | None:
        """A season's young of the founders and which are held; None where nothing can be."""
        vacancies = self.held.vacancies(nursery, season)
        return founding.fill(tuple(pair for _, pair in self.founder_pairs(world, nursery, season)), vacancies) if any(vacancies) else None

    def _elements(self, rows: Rows, probe: Probe) -> tuple[Complex, Complex]:
        nursing = self.nursing(rows, probe)
        alive = np.zeros((self._seasons + 1, nursing.algebra.size, probe.points), dtype=complex)
        alive[0, 0] = 1
        unfilled = alive.copy()
        for season in range(1, self._seasons + 1):
            for group, start in self._grouped(nursing, season).items():
                through, anything = start, start
                if group.pairs:
                    laid = nursing.founding.season(tuple(pair for _, pair in group.pairs))
                    through, anything = nursing.algebra.multiply(start, laid.alive), start * laid.allowed
                raised = nursing.raised(group.raising)
                if raised is not None:
                    through = nursing.algebra.multiply(through, raised.alive[season])
                    anything = nursing.algebra.multiply(anything, raised.open[season])
                alive[season] += through
                unfilled[season] += anything
        return alive, unfilled

    def occupancy(self, nursing: Nursing) -> Iterator[tuple[FounderWorld, int, Nursery, float]]:
        """Chances to begin each season with each nursery, in each world, and none of the rows full."""
        for place, world in enumerate(self.worlds):
            for season in range(1, self._seasons + 1):
                for nursery, weight in self.chain(nursing, place)[season].items():
                    raised = nursing.raised(self.raising(place, nursery, season - 1))
                    if raised is not None:
                        weight = nursing.algebra.multiply(weight, raised.alive[season - 1])
                    yield world, season, nursery, float(nursing.algebra.total(weight)[0].real)

    def _grouped(self, nursing: Nursing, season: int) -> dict[_Group, Complex]:
        """The season's nurseries in all worlds, those joined that breed alike in it and before."""
        groups: dict[_Group, Complex] = {}
        for place, world in enumerate(self.worlds):
            for nursery, weight in self.chain(nursing, place)[season].items():
                order = tuple(mating.female for mating in self.season_matings(nursery, season))
                pairs = self.founder_pairs(world, nursery, season)
                _add(groups, _Group(self.raising(place, nursery, season), pairs, order), weight)
        return groups

    def raising(self, world: int, nursery: Nursery, season: int) -> Raising:
        """What held animals that are breeder-size by a season breed; what is after that season must be left aside."""
        due = self.held.grown(nursery, season)
        found = self._raisings.get((world, due))
        if found is None:
            found = self._raisings[world, due] = self._raising(self.worlds[world], due)
        return found

    def _raising(self, world: FounderWorld, nursery: Nursery) -> Raising:
        held = self._held_indices
        schedule = tuple(
            tuple(m for m in self.season_matings(nursery, season) if m.male.herd in held or m.female.herd in held)
            for season in range(1, self._seasons + 1)
        )
        met = dict.fromkeys(animal for pairs in schedule for m in pairs for animal in (m.male, m.female))
        founders_met = tuple((animal, world.states[animal]) for animal in met if animal.herd not in held)
        members = {
            Animal(herd.index, place): kind
            for herd, kinds in zip(self.held.herds, self.held.members(nursery), strict=True)
            for place, kind in enumerate(kinds)
        }
        raised = tuple((animal, members[animal]) for animal in met if animal in members)
        key = "raising", schedule, raised, founders_met
        return self.shop.kept(key, lambda: Raising(schedule, raised, founders_met))

    # The calendar.

    def season_matings(self, nursery: Nursery, season: int) -> tuple[Mating, ...]:
        """All matings of a season, in laying order."""
        counts = self.held.breeders(nursery, season)
        found = self._matings.get((season, counts))
        if found is None:
            breeders = [[] if herd.held else founders(herd, season) for herd in self.problem.herds]
            for herd, count in zip(self.held.herds, counts, strict=True):
                breeders[herd.index] = [Animal(herd.index, place) for place in range(count)]
            found = self._matings[season, counts] = tuple(matings(self.problem, breeders, season))
        return found

    def founder_pairs(
        self, world: FounderWorld, nursery: Nursery, season: int
    ) -> tuple[tuple[Animal, Founders], ...]:
        """The matings of a season that no held animal has a part in, by female; those that never lay left out."""
        found = []
        for mating in self.season_matings(nursery, season):
            if mating.male.herd in self._held_indices or mating.female.herd in self._held_indices:
                continue
            male, female = world.states[mating.male], world.states[mating.female]
            if female:
                pair = Founders(mating.pairing, male[0][0] if male else None, *female[0])
                found.append((mating.female, pair))
        return tuple(found)


def _add(weights: dict[_Key, Complex], key: _Key, weight: Complex) -> None:
    weights[key] = weights[key] + weight if key in weights else weight
