"""Exact answers for routes that hold young back for one generation.

Held animals matter through how many there are of each class and how many of them live to breed; given that, and the
true states of the founders, each held animal is what its class may be, apart from all else. So the founders' part is
a chain over the seasons whose state is the nursery, and what the held animals then breed multiplies on at the end.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterator
from functools import cached_property

import numpy as np

from core.routes.calendar import Animal, Mating, fixed_costs, founders, founders_present, matings
from core.routes.exact.algebra import Complex
from core.routes.exact.bounds import eggs_bound, keep_bound
from core.routes.exact.brood import HeldHerds, Nursery
from core.routes.exact.eggs import EXPECTATIONS, Probe
from core.routes.exact.ending import AtEgg, season_sum, started
from core.routes.exact.extras import holding_extras
from core.routes.exact.filling import Filling, Founders, Founding
from core.routes.exact.founding import FounderWorld, founder_worlds
from core.routes.exact.limits import MOST_NURSERIES, OutOfReach
from core.routes.exact.nursing import Begun, Group, Nursing, Raising, Stage, add_to, places_of, summed
from core.routes.exact.plain import Extras, Rows, Totals, Workshop
from core.routes.exact.schedule import founder_schedule
from core.routes.problem import Problem
from core.routes.result import Floats

# Nurseries less likely than this are left out; all of them together stay far below what is promised.
_NEGLIGIBLE = 1e-16


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
        self.problem, self.shop = problem, workshop
        self._seasons = problem.breeding_seasons
        self.held = HeldHerds(problem)
        self._held_indices = frozenset(herd.index for herd in self.held.herds)
        schedule = founder_schedule(problem)
        self._steady = is_steady(problem)
        self.worlds = tuple(founder_worlds(problem, workshop.kinds, schedule, steady=self._steady))
        self._matings: dict[tuple[int, tuple[int, ...]], tuple[Mating, ...]] = {}
        self._chains: dict[tuple[int, Nursing], list[Begun]] = {}
        self._stages: dict[tuple[int, tuple[Nursery, ...], int], Stage] = {}
        self._raisings: dict[tuple[int, Nursery], Raising] = {}
        self.fixed, self.present = fixed_costs(problem), founders_present(problem)
        self.eggs_bound, self.keep_bound = eggs_bound(problem), keep_bound(problem)
        self.signature: Hashable = schedule if self._steady else tuple(herd.count for herd in problem.herds)

    @cached_property
    def most_eggs(self) -> int:
        """The most eggs that can be laid."""
        biology = self.problem.biology
        if biology.lays == 0 or biology.works["female"] == 0:
            return 0
        # The goal is not met while any one row is short, so following each row by itself misses no way of going on.
        looks = (self.nursing((row,), EXPECTATIONS) for row in range(len(self.problem.wanted)))
        most = max(self._most_bred(nursing, world) for nursing in looks for world in range(len(self.worlds)))
        return most * biology.clutches * (len(biology.sizes) - 1)

    def _most_bred(self, nursing: Nursing, world: int) -> int:
        """The most females bred over all seasons that can be reached, followed along the chain of nurseries."""
        most = 0
        bred = {self.held.nobody: 0}
        for season, begun in enumerate(self.chain(nursing, world), start=1):
            after: dict[Nursery, int] = {}
            reached = self._reached(nursing, world, begun, season)
            for ended, times in bred.items():
                nursery = self.held.begun(ended, season)
                if nursery in reached:
                    total = times + len(self.season_matings(nursery, season))
                    most = max(most, total)
                    for joined in self._joined(nursing, world, begun.stage, nursery, season):
                        after[joined] = max(after.get(joined, 0), total)
            bred = after
        return most

    def _reached(self, nursing: Nursing, world: int, begun: Begun, season: int) -> set[Nursery]:
        """The nurseries that a season can begin with, nothing that was bred before having met the goal for sure."""
        reached = set()
        for nursery, weight in zip(begun.stage.nurseries, begun.weights, strict=True):
            raised = nursing.raised(self.raising(world, nursery, season - 1))
            if raised is not None:
                weight = nursing.algebra.multiply(weight, raised.alive[season - 1])
            if nursing.algebra.total(weight)[0].real > _NEGLIGIBLE:
                reached.add(nursery)
        return reached

    def _joined(
        self, nursing: Nursing, world: int, stage: Stage, nursery: Nursery, season: int
    ) -> Iterator[Nursery]:
        """The nurseries that one nursery may end a season as."""
        filling = None
        if any(map(any, stage.vacancies)):
            filling = self.fill(nursing.founding, self.worlds[world], nursery, season)
        if filling is None:
            yield nursery
            return
        for kept, part in filling.parts(nursing.algebra):
            if part[:, 0].real.sum() > _NEGLIGIBLE:
                yield from (joined for joined, _ in self.held.joined(nursery, season, kept))

    def fill(self, founding: Founding, world: FounderWorld, nursery: Nursery, season: int) -> Filling | None:
        """A season's young of the founders and which are held; None where nothing can be."""
        vacancies = self.held.vacancies(nursery, season)
        pairs = tuple(pair for _, pair in self.founder_pairs(world, nursery, season))
        return founding.fill(pairs, vacancies) if any(vacancies) else None

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
        for place in range(len(self.worlds)):
            for season, begun in enumerate(self.chain(nursing, place), start=1):
                starts = summed(begun.stage.group_from, begun.weights)
                for group, start in zip(begun.stage.groups, starts, strict=True):
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

    def chain(self, nursing: Nursing, world: int) -> list[Begun]:
        """Per season from 1, its nurseries once the keep is paid; what held animals breed themselves is left out."""
        key = world, nursing
        if key not in self._chains:
            self._chains[key] = self._chain(nursing, world)
        return self._chains[key]

    def _chain(self, nursing: Nursing, world: int) -> list[Begun]:
        ended: tuple[Nursery, ...] = (self.held.nobody,)
        weights = self.worlds[world].chance * nursing.algebra.one(nursing.probe.points)[None]
        chain: list[Begun] = []
        for season in range(1, self._seasons + 1):
            stage = self._stage(world, ended, season)
            if len(stage.nurseries) > MOST_NURSERIES:
                raise OutOfReach("too many ways in which young can be held over the seasons")
            chain.append(Begun(stage, nursing.kept(stage.there, summed(stage.begun_from, weights))))
            ended, weights = self._ended(nursing, chain[-1], season)
            if not ended:
                # A row is surely full by now: no later season is reached.
                break
        return chain

    def _stage(self, world: int, ended: tuple[Nursery, ...], season: int) -> Stage:
        """The nurseries that those of the season before become, shared by all counts for which they are the same."""
        key = world, ended, season
        if key not in self._stages:
            context = self._contexts[world][season - 1] if self._steady else (self, world, season)
            shared = "stage", context, ended
            self._stages[key] = self.shop.kept(shared, lambda: self._work_out_stage(world, ended, season))
        return self._stages[key]

    @cached_property
    def _contexts(self) -> list[list[Hashable]]:
        """Per world and season, all that a stage depends on besides its nurseries, where held animals are steady."""
        first = min(self.held.first_breeding(), self._seasons + 1)
        sizes = tuple(
            tuple(len(founders(herd, season)) for herd in self.problem.herds if not herd.held)
            for season in range(first, self._seasons + 1)
        )
        counts = tuple(herd.count for herd in self.held.herds)
        met = dict.fromkeys(self._met_late(first))
        contexts: list[list[Hashable]] = []
        for world in self.worlds:
            known = tuple((animal, world.states[animal]) for animal in met if animal in world.states)
            contexts.append(
                [
                    (season, counts, sizes, known, self.founder_pairs(world, self.held.nobody, season))
                    for season in range(1, self._seasons + 1)
                ]
            )
        return contexts

    def _met_late(self, first: int) -> list[Animal]:
        """Founders that may be there when held animals breed."""
        seasons = range(first, self._seasons + 1)
        herds = [herd for herd in self.problem.herds if not herd.held]
        return [animal for herd in herds for season in seasons for animal in founders(herd, season)]

    def _work_out_stage(self, world: int, ended: tuple[Nursery, ...], season: int) -> Stage:
        begun = [self.held.begun(nursery, season) for nursery in ended]
        nurseries = tuple(dict.fromkeys(begun))
        groups = [self._group(world, nursery, season) for nursery in nurseries]
        distinct = tuple(dict.fromkeys(groups))
        return Stage(
            nurseries=nurseries,
            begun_from=places_of(begun, nurseries),
            there=tuple(self.held.there(nursery, season) for nursery in nurseries),
            vacancies=tuple(self.held.vacancies(nursery, season) for nursery in nurseries),
            groups=distinct,
            group_from=places_of(groups, distinct),
        )

    def _group(self, world: int, nursery: Nursery, season: int) -> Group:
        order = tuple(mating.female for mating in self.season_matings(nursery, season))
        pairs = self.founder_pairs(self.worlds[world], nursery, season)
        return Group(self.raising(world, nursery, season), pairs, order)

    def _ended(self, nursing: Nursing, begun: Begun, season: int) -> tuple[tuple[Nursery, ...], Complex]:
        """The nurseries that a season ends with, and their weights."""
        stage, algebra = begun.stage, nursing.algebra
        if not any(any(free) for free in stage.vacancies):
            return stage.nurseries, self._unfilled(nursing, stage, begun.weights)
        ended: dict[Nursery, Complex] = {}
        for place, nursery in enumerate(stage.nurseries):
            weight = begun.weights[place]
            pairs = stage.groups[place if stage.group_from is None else stage.group_from[place]].founders
            filling = nursing.founding.fill(pairs, stage.vacancies[place])
            if filling is None:
                laid = nursing.founding.season(pairs).alive
                add_to(ended, nursery, algebra.multiply(weight, laid))
                continue
            for kept, part in filling.parts(algebra):
                grown = algebra.multiply(weight, part)
                if grown[:, 0].real.sum() > _NEGLIGIBLE:
                    for joined, chance in self.held.joined(nursery, season, kept):
                        add_to(ended, joined, grown * chance)
        if not ended:
            return (), begun.weights[:0]
        return tuple(ended), np.array(list(ended.values()))

    def _unfilled(self, nursing: Nursing, stage: Stage, weights: Complex) -> Complex:
        if not any(group.pairs for group in stage.groups):
            return weights
        laid = np.stack([nursing.founding.season(group.founders).alive for group in stage.groups])
        return nursing.algebra.multiply(weights, laid if stage.group_from is None else laid[stage.group_from])

    def _elements(self, rows: Rows, probe: Probe) -> tuple[Complex, Complex]:
        nursing = self.nursing(rows, probe)
        alive = np.zeros((self._seasons + 1, nursing.algebra.size, probe.points), dtype=complex)
        alive[0, 0] = 1
        unfilled = alive.copy()
        for place, world in enumerate(self.worlds):
            if probe.roots is not None and self.problem.outright is None and world.barren:
                # No egg of this world meets the goal, so it has no part in what is paid on meeting it.
                alive[1:, 0, 0] += world.chance
                unfilled[1:, 0, 0] += world.chance
                continue
            for season, begun in enumerate(self.chain(nursing, place), start=1):
                through, anything = nursing.bred(begun, season)
                alive[season] += through
                unfilled[season] += anything
        return alive, unfilled

    def occupancy(self, nursing: Nursing) -> Iterator[tuple[FounderWorld, int, Nursery, float]]:
        """Chances to begin each season with each nursery, in each world, and none of the rows full."""
        for place, world in enumerate(self.worlds):
            for season, begun in enumerate(self.chain(nursing, place), start=1):
                for nursery, weight in zip(begun.stage.nurseries, begun.weights, strict=True):
                    raised = nursing.raised(self.raising(place, nursery, season - 1))
                    if raised is not None:
                        weight = nursing.algebra.multiply(weight, raised.alive[season - 1])
                    yield world, season, nursery, float(nursing.algebra.total(weight)[0].real)

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
        known = {
            Animal(herd.index, place): member
            for herd, members in zip(self.held.herds, self.held.members(nursery), strict=True)
            for place, member in enumerate(members)
        }
        raised = tuple((animal, known[animal]) for animal in met if animal in known)
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
