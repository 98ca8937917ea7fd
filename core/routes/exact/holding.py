"""Exact answers for routes that hold young back for one generation.

Held animals matter through how many there are of each class and how many of them live to breed; given that, and the
true states of the founders, each held animal is what its class may be, apart from all else. So the founders' part is
a chain over the seasons whose state is the nursery, and what the held animals then breed multiplies on at the end.
"""

from __future__ import annotations

from collections.abc import Generator, Hashable, Iterator
from functools import cached_property, partial

import numpy as np

from core.progress import finished
from core.routes.calendar import Animal, founders
from core.routes.exact.algebra import Complex
from core.routes.exact.brood import Nursery
from core.routes.exact.eggs import CHANCES, EXPECTATIONS, Joined, Probe
from core.routes.exact.ending import AtEgg, filling, season_sum, selling, started
from core.routes.exact.extras import holding_extras
from core.routes.exact.filling import Filling, Founding
from core.routes.exact.founding import FounderWorld, Telling, founder_worlds
from core.routes.exact.held_route import HeldRoute, is_steady
from core.routes.exact.limits import MOST_NURSERIES, OutOfReach
from core.routes.exact.looks import Rows
from core.routes.exact.nursing import Begun, Branch, Group, Nursing, Raising, Stage, add_to, places_of, summed
from core.routes.exact.plain import Extras, Totals, Workshop
from core.routes.exact.schedule import founder_schedule
from core.routes.problem import Problem
from core.routes.result import Floats

# How many times more nurseries there may be at the end of a season than at the start of the next.
_JOINED = 4
# Nurseries looked at in one step.
_A_STEP = 40
# Nurseries less likely than this are left out; all of them together stay far below what is promised.
_NEGLIGIBLE = 1e-16


class HoldingRoute(HeldRoute):
    """One route that holds young back for one generation, at one set of counts."""

    def __init__(self, problem: Problem, workshop: Workshop) -> None:
        super().__init__(problem, workshop)
        schedule = founder_schedule(problem, workshop.sorts)
        self._steady = is_steady(problem)
        self.worlds = tuple(founder_worlds(problem, workshop.kinds, schedule, Telling(self._steady)))
        self._stages: dict[tuple[int, tuple[Nursery, ...], int], Stage] = {}
        self._raisings: dict[tuple[int, Nursery], Raising] = {}
        # A male that no founder is put to may be left for held females.
        told = (herd.held or herd.sex == "male" or not self._steady for herd in problem.herds)
        counts = tuple(herd.count for herd, tells in zip(problem.herds, told, strict=True) if tells)
        self.signature: Hashable = counts, schedule

    def most_eggs(self, _probe: Joined) -> int:
        """The most eggs that can be laid."""
        biology = self.problem.biology
        if biology.lays == 0 or biology.works["female"] == 0:
            return 0
        # The goal is not met while any one row is short, so following each row by itself misses no way of going on.
        looks = (self.nursing((row,), EXPECTATIONS) for row in range(len(self.problem.wanted)))
        return max(self._most_bred(nursing) for nursing in looks) * biology.clutches * (len(biology.sizes) - 1)

    def _most_bred(self, nursing: Nursing) -> int:
        """The most females bred over all seasons that can be reached, followed along the chain of nurseries."""
        most = 0
        bred: dict[tuple[Hashable, Nursery], int] = {}
        for season, branches in enumerate(self.chain(nursing), start=1):
            after: dict[tuple[Hashable, Nursery], int] = {}
            for begun in branches:
                now, later = self._future(begun.world, season), self._future(begun.world, season + 1)
                reached = self._reached(nursing, begun, season)
                for nursery in begun.stage.nurseries:
                    if nursery not in reached:
                        continue
                    total = bred.get((now, nursery), 0) + len(self.season_matings(nursery, season))
                    most = max(most, total)
                    for joined in begun.leads.get(nursery, [nursery]):
                        key = later, self.held.begun(joined, season + 1)
                        after[key] = max(after.get(key, 0), total)
            bred = after
        return most

    def _reached(self, nursing: Nursing, begun: Begun, season: int) -> set[Nursery]:
        """The nurseries that a season can begin with, nothing that was bred before having met the goal for sure."""
        reached = set()
        for nursery, weight in zip(begun.stage.nurseries, begun.weights, strict=True):
            raised = nursing.raised(self.raising(begun.world, nursery, season - 1))
            if raised is not None:
                weight = nursing.algebra.multiply(weight, raised.alive[season - 1])
            if nursing.algebra.total(weight)[0].real > _NEGLIGIBLE:
                reached.add(nursery)
        return reached

    def fill(self, founding: Founding, world: FounderWorld, nursery: Nursery, season: int) -> Filling | None:
        """A season's young of the founders and which are held; None where nothing can be."""
        vacancies = self.held.vacancies(nursery, season)
        pairs = tuple(pair for _, pair in self.founder_pairs(world, nursery, season))
        return founding.fill(pairs, vacancies) if any(vacancies) else None

    # What the engine is asked for.

    def check(self) -> Generator[None, None, None]:
        """Raises OutOfReach where there are too many nurseries, before anything large is worked out."""
        yield from self._linked(self.nursing((0,), EXPECTATIONS))

    def check_held(self) -> Generator[None, None, None]:
        """Raises OutOfReach where a season's young can be held in too many ways to tell what that leaves to sell.

        Those of the last season, and those that meet the goal, change no chance: nothing else may find it out.
        """
        founding = self.nursing((), CHANCES).founding
        for row in range(len(self.problem.wanted)):
            for branches in (yield from self._linked(self.nursing((row,), EXPECTATIONS))):
                for begun in branches:
                    yield
                    stage = begun.stage
                    groups = stage.groups if stage.group_from is None else [stage.groups[i] for i in stage.group_from]
                    for pairs, free in dict.fromkeys(
                        zip([one.founders for one in groups], stage.vacancies, strict=True)
                    ):
                        founding.check(pairs, free)

    def steps(self, probe: Joined) -> Generator[None, None, None]:
        """Works the totals out step by step."""
        for rows, _ in self.looks:
            yield from self._added(rows, probe)

    def egg_steps(self, probe: Joined) -> Generator[None, None, None]:
        """Works out step by step what happens at every egg."""
        for rows, _ in self.looks:
            yield from self._ended_in_steps(rows, probe, filling, probe.where(probe.eggs))

    def totals(self, rows: Rows, probe: Probe) -> Totals:
        """The generating functions season by season, with none of `rows` full."""
        alive, unfilled = self._elements(rows, probe)
        total = self.nursing(rows, probe).algebra.total
        return Totals(total(alive), total(unfilled))

    def lacking(self, row: int, _probe: Joined) -> Floats:
        """Expected number of young that this row still lacks at the end of each season: [breeding seasons + 1]."""
        short = np.arange(self.problem.wanted[row], 0, -1)
        return short @ self._elements((row,), EXPECTATIONS)[0][:, :, 0].real.T

    def endings(self, rows: Rows, probe: Joined, part: Probe, at_egg: AtEgg) -> Complex:
        """What happens at the egg that fills one of `rows`, by season: [breeding seasons, points]."""
        if part is EXPECTATIONS:
            return finished(self._ended_in_steps(rows, part, at_egg, slice(0, part.points)))
        return finished(self._ended_in_steps(rows, probe, at_egg, probe.where(part)))

    def _ended_in_steps(self, rows: Rows, probe: Probe, at_egg: AtEgg, points: slice) -> Generator[None, None, Complex]:
        key = "endings", self.signature, rows, probe, at_egg, points.start
        return self.shop.kept_in_steps(key, lambda: self._endings(rows, probe, at_egg, points))

    def _endings(self, rows: Rows, probe: Probe, at_egg: AtEgg, points: slice) -> Generator[None, None, Complex]:
        found = np.zeros((self.seasons, points.stop - points.start), dtype=complex)
        nursing = self.nursing(rows, probe)
        for season, branches in enumerate((yield from self._linked(nursing)), start=1):
            for begun in branches:
                starts = summed(begun.stage.group_from, begun.weights[..., points])
                for group, start in zip(begun.stage.groups, starts, strict=True):
                    yield
                    each = [*nursing.standings(group.raising, at_egg, points), started(start, season)]
                    founding = nursing.founding
                    each += [founding.standing(*pair, season, at_egg, points) for pair in group.pairs]
                    found[season - 1] += season_sum(nursing.algebra, each, group.order, season, season)[0]
        return found

    def counted_worth(self, row: int, probe: Joined) -> Floats:
        """What the young that count for a row would have brought, by season: [breeding seasons]."""
        return self.endings((row,), probe, EXPECTATIONS, selling(row))[:, 0].real

    def extras(self, _probe: Joined) -> Extras:
        """What held animals add to expectations."""
        return holding_extras(self)

    def nursing(self, rows: Rows, probe: Probe) -> Nursing:
        """What all counts share for these goal rows at these points."""
        return self.shop.kept(("nursing", rows, probe), lambda: Nursing(self.problem, self.shop, rows, probe))

    def chain(self, nursing: Nursing) -> list[list[Begun]]:
        """Per season from 1, its nurseries once the keep is paid; what held animals breed themselves is left out.

        A season has an entry for each set of worlds that differ in nothing from then on.
        """
        return finished(self._linked(nursing))

    def _linked(self, nursing: Nursing) -> Generator[None, None, list[list[Begun]]]:
        return self.shop.kept_in_steps(("chain", self.signature, nursing), lambda: self._chain(nursing))

    def _chain(self, nursing: Nursing) -> Generator[None, None, list[list[Begun]]]:
        one = nursing.algebra.one(nursing.probe.points)[None]
        ended: dict[Hashable, Branch] = {}
        for world in range(len(self.worlds)):
            _join(ended, self._future(world, 1), Branch(world, (self.held.nobody,), self.worlds[world].chance * one))
        chain: list[list[Begun]] = []
        for season in range(1, self.seasons + 1):
            chain.append([])
            for branch in ended.values():
                chain[-1].append((yield from self._begun(nursing, branch, season)))
            _check(sum(len(begun.stage.nurseries) for begun in chain[-1]))
            ended = {}
            for begun in chain[-1] if season < self.seasons else ():
                # Where none is left a row is surely full by now, and no later season is reached.
                branch = yield from self._ended(nursing, begun, season)
                if branch.nurseries:
                    _join(ended, self._future(begun.world, season + 1), branch)
        return chain

    def _begun(self, nursing: Nursing, branch: Branch, season: int) -> Generator[None, None, Begun]:
        stage = yield from self._stage(branch.world, branch.nurseries, season)
        weights = nursing.kept(stage.there, summed(stage.begun_from, branch.weights))
        nursing.breeding.room.keep(weights.size)
        return Begun(branch.world, stage, weights)

    def _future(self, world: int, season: int) -> Hashable:
        """Worlds with the same future are alike from this season on."""
        return self._context_numbers[world][season - 1 :] if self._steady else world

    @cached_property
    def _context_numbers(self) -> list[tuple[int, ...]]:
        numbers: dict[Hashable, int] = {}
        return [tuple(numbers.setdefault(context, len(numbers)) for context in contexts) for contexts in self._contexts]

    def _stage(self, world: int, ended: tuple[Nursery, ...], season: int) -> Generator[None, None, Stage]:
        """The nurseries that those of the season before become, shared by all counts where they are steady."""
        key = world, ended, season
        if key not in self._stages:
            work_out = partial(self._work_out_stage, world, ended, season)
            if self._steady:
                shared = "stage", self._contexts[world][season - 1], ended
                self._stages[key] = yield from self.shop.kept_in_steps(shared, work_out)
            else:
                self._stages[key] = yield from work_out()
        return self._stages[key]

    @cached_property
    def _contexts(self) -> list[list[Hashable]]:
        """Per world and season, all that a stage depends on besides its nurseries, where held animals are steady."""
        first = min(self.held.first_breeding, self.seasons + 1)
        sizes = tuple(
            tuple(len(founders(herd, season)) for herd in self.problem.herds if not herd.held)
            for season in range(first, self.seasons + 1)
        )
        # Herds whose members are followed alone have nurseries of another kind.
        counts = tuple((herd.count, alone) for herd, alone in zip(self.held.herds, self.held.alone, strict=True))
        met = dict.fromkeys(self._met_late(first))
        contexts: list[list[Hashable]] = []
        for world in self.worlds:
            known = tuple((animal, world.states[animal]) for animal in met if animal in world.states)
            contexts.append(
                [
                    (season, counts, sizes, known, self.founder_pairs(world, self.held.nobody, season))
                    for season in range(1, self.seasons + 1)
                ]
            )
        return contexts

    def _met_late(self, first: int) -> list[Animal]:
        """Founders that may be there when held animals breed."""
        seasons = range(first, self.seasons + 1)
        herds = [herd for herd in self.problem.herds if not herd.held]
        return [animal for herd in herds for season in seasons for animal in founders(herd, season)]

    def _work_out_stage(self, world: int, ended: tuple[Nursery, ...], season: int) -> Generator[None, None, Stage]:
        begun = [self.held.begun(nursery, season) for nursery in ended]
        nurseries = tuple(dict.fromkeys(begun))
        groups = []
        for place, nursery in enumerate(nurseries):
            if place % _A_STEP == 0:
                yield
            groups.append(self._group(world, nursery, season))
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

    def _ended(self, nursing: Nursing, begun: Begun, season: int) -> Generator[None, None, Branch]:
        """The nurseries that a season ends with, and their weights."""
        stage, algebra, room = begun.stage, nursing.algebra, nursing.breeding.room
        if not any(any(free) for free in stage.vacancies):
            return Branch(begun.world, stage.nurseries, self._unfilled(nursing, stage, begun.weights))
        ended: dict[Nursery, Complex] = {}
        for place, nursery in enumerate(stage.nurseries):
            if place % _A_STEP == 0:
                yield
            weight, leads = begun.weights[place], begun.leads.setdefault(nursery, [])
            pairs = stage.groups[place if stage.group_from is None else stage.group_from[place]].founders
            filling = nursing.founding.fill(pairs, stage.vacancies[place])
            if filling is None:
                leads.append(nursery)
                add_to(ended, nursery, algebra.multiply(weight, nursing.founding.season(pairs).alive))
                continue
            for kept, part in filling.parts(algebra):
                room.take(part.size * (algebra.effort + 1))
                grown = algebra.multiply(weight, part)
                if grown[:, 0].real.sum() > _NEGLIGIBLE:
                    for joined, chance in self.held.joined(nursery, season, kept):
                        leads.append(joined)
                        room.keep(0 if joined in ended else grown.size)
                        add_to(ended, joined, grown * chance)
            # Many of these are one and the same as soon as the next season begins.
            _check(len(ended) // _JOINED)
        weights = np.array(list(ended.values())) if ended else begun.weights[:0]
        return Branch(begun.world, tuple(ended), weights)

    def _unfilled(self, nursing: Nursing, stage: Stage, weights: Complex) -> Complex:
        if not any(group.pairs for group in stage.groups):
            return weights
        laid = np.stack([nursing.founding.season(group.founders).alive for group in stage.groups])
        return nursing.algebra.multiply(weights, laid if stage.group_from is None else laid[stage.group_from])

    def _elements(self, rows: Rows, probe: Probe) -> tuple[Complex, Complex]:
        return finished(self._added(rows, probe))

    def _added(self, rows: Rows, probe: Probe) -> Generator[None, None, tuple[Complex, Complex]]:
        return self.shop.kept_in_steps(("elements", self.signature, rows, probe), lambda: self._add(rows, probe))

    def _add(self, rows: Rows, probe: Probe) -> Generator[None, None, tuple[Complex, Complex]]:
        nursing = self.nursing(rows, probe)
        alive = np.zeros((self.seasons + 1, nursing.algebra.size, probe.points), dtype=complex)
        alive[0, 0] = 1
        unfilled = alive.copy()
        for season, branches in enumerate((yield from self._linked(nursing)), start=1):
            for begun in branches:
                yield
                through, anything = nursing.bred(begun, season)
                alive[season] += through
                unfilled[season] += anything
        return alive, unfilled

    def occupancy(self, nursing: Nursing) -> Iterator[tuple[FounderWorld, int, Nursery, float]]:
        """Chances to begin each season with each nursery, in each world, and none of the rows full."""
        for season, branches in enumerate(self.chain(nursing), start=1):
            for begun in branches:
                for nursery, weight in zip(begun.stage.nurseries, begun.weights, strict=True):
                    raised = nursing.raised(self.raising(begun.world, nursery, season - 1))
                    if raised is not None:
                        weight = nursing.algebra.multiply(weight, raised.alive[season - 1])
                    yield self.worlds[begun.world], season, nursery, float(nursing.algebra.total(weight)[0].real)

    def raising(self, world: int, nursery: Nursery, season: int) -> Raising:
        """What held animals that are breeder-size by a season breed; what is after that season must be left aside."""
        due = self.held.grown(nursery, season)
        found = self._raisings.get((world, due))
        if found is None:
            found = self._raisings[world, due] = self.raising_of(self.worlds[world], due)
        return found


def _check(nurseries: int) -> None:
    if nurseries > MOST_NURSERIES:
        raise OutOfReach("too many ways in which young can be held over the seasons")


def _join(branches: dict[Hashable, Branch], key: Hashable, branch: Branch) -> None:
    """Add a branch to one that goes on alike."""
    other = branches.get(key)
    if other is None:
        branches[key] = branch
    elif other.nurseries == branch.nurseries:
        branches[key] = Branch(other.world, other.nurseries, other.weights + branch.weights)
    else:
        weights = dict(zip(other.nurseries, other.weights, strict=True))
        for nursery, weight in zip(branch.nurseries, branch.weights, strict=True):
            add_to(weights, nursery, weight)
        branches[key] = Branch(other.world, tuple(weights), np.array(list(weights.values())))
