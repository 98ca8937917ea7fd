"""Exact answers for held daughters, whatever their preferences: only how many are held is followed season by season.

What becomes of a held animal through a season is known, on average, once its rank and its first season are: so its
whole contribution through that season is taken in at once when it is held, and nothing else of it is remembered.
Each season looked at has a chain of its own; the chains go together as an axis of `variants`.
"""

from __future__ import annotations

import math
from collections.abc import Generator, Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from core.routes.calendar import Animal, Mating, fixed_costs, founders, founders_present, matings
from core.routes.exact.algebra import Complex, CountAlgebra, GoalAlgebra
from core.routes.exact.bounds import eggs_bound, keep_bound
from core.routes.exact.chain.chain import ALIVE, ANYTHING, AT, Chain, Variant
from core.routes.exact.chain.goal import goal_counts, in_any_order
from core.routes.exact.chain.herds import influences
from core.routes.exact.eggs import CHANCES, EXPECTATIONS, Joined, Probe
from core.routes.exact.ending import AtEgg, selling
from core.routes.exact.founding import count_worlds, founder_worlds
from core.routes.exact.limits import MOST_HELD, MOST_ROWS, MOST_WORLDS, OutOfReach
from core.routes.exact.looks import Rows
from core.routes.exact.plain import Extras, Totals, Workshop
from core.routes.exact.reach import check_one_generation
from core.routes.exact.schedule import founder_schedule
from core.routes.problem import Problem
from core.routes.result import Floats

_CHUNK = 1024
# Counts short of the goal that are told apart.
_MOST_GOAL_STATES = 30


@dataclass(frozen=True)
class _Part(Probe):
    """Some of the points of a probe, of all probes together from `at` on."""

    at: int = 0


def parts_of(probe: Probe) -> list[_Part]:
    """A probe in parts that fit a processor's cache."""
    found, at = [], 0
    for whole in probe.parts if isinstance(probe, Joined) else (probe,):
        for first in range(0, whole.points, _CHUNK):
            cut = slice(first, first + _CHUNK)
            keep = None if whole.keep is None else (whole.keep[0][cut], whole.keep[1][cut])
            weights = whole.egg[cut], whole.young[cut], whole.sale[cut]
            found.append(_Part(*weights, whole.roots, whole.step, whole.first + first, keep, at=at + first))
        at += whole.points
    return found


class ChainRoute:
    """One route at one set of counts."""

    def __init__(self, problem: Problem, workshop: Workshop) -> None:
        self.problem, self.shop = problem, workshop
        wanted = problem.conditions[: len(problem.wanted)]
        check_one_generation(problem)
        if max(herd.count for herd in problem.herds if herd.held) > MOST_HELD:
            raise OutOfReach("more young are held back than can be told apart")
        if problem.crowded:
            raise OutOfReach("named animals may carry too much together")
        if math.prod(problem.wanted) > _MOST_GOAL_STATES or len(wanted) > MOST_ROWS:
            raise OutOfReach("the goal has too many states")
        if not in_any_order(wanted):
            raise OutOfReach("goal rows overlap")
        self.herds = tuple(herd for herd in problem.herds if herd.held)
        if any(influences(problem, herd) for herd in self.herds):
            raise OutOfReach("held animals change who else breeds with whom")
        schedule = founder_schedule(problem, workshop.sorts)
        if count_worlds(problem, workshop.kinds, schedule, steady=True) > MOST_WORLDS:
            raise OutOfReach("the founders can be in too many states together")
        self.worlds = tuple(founder_worlds(problem, workshop.kinds, schedule, steady=True))
        self.seasons = problem.breeding_seasons
        self.rows = tuple(range(len(problem.wanted)))
        self.looks: list[tuple[Rows, int]] = [(self.rows, 1)]
        self.fixed, self.present = fixed_costs(problem), founders_present(problem)
        self.eggs_bound, self.keep_bound = eggs_bound(problem, workshop.breeders), keep_bound(problem)
        self.signature = "chain", tuple(herd.count for herd in problem.herds)
        self.goal: CountAlgebra = workshop.kept("chain goal", lambda: goal_counts(wanted, problem.wanted))
        self._known: dict[Probe, Totals] = {}
        self._check_counted_and_held()

    def _check_counted_and_held(self) -> None:
        part = Chain(self, self.rows, self.goal, parts_of(CHANCES)[0])
        for world in self.worlds:
            for season in range(1, self.seasons + 1):
                for run in part.runs(world, season):
                    if run.eggs.counted_and_held:
                        raise OutOfReach("young that count for the goal may be held too")

    @cached_property
    def order(self) -> list[tuple[Mating, ...]]:
        """Per season, its matings in laying order where all are held that can be; fewer change nobody's mate."""
        found = []
        for season in range(1, self.seasons + 1):
            breeders = [self._most(herd.index, season) for herd in self.problem.herds]
            found.append(tuple(matings(self.problem, breeders, season)))
        return found

    def _most(self, index: int, season: int) -> list[Animal]:
        herd = self.problem.herds[index]
        if not herd.held:
            return founders(herd, season)
        first = max(1, min(self.problem.pairings[source].first for source in herd.sources))
        grown = first + self.problem.biology.matures[herd.sex]
        there = herd.there(season) and season >= grown
        return [Animal(index, place) for place in range(herd.count)] if there else []

    def totals(self, _rows: Rows, probe: Probe) -> Totals:
        """The generating functions season by season, with the goal not met."""
        for _ in self.steps(probe):
            pass
        return self._known[probe]

    def steps(self, probe: Probe) -> Iterator[float]:
        """Works out the totals step by step; yields the share done."""
        if probe not in self._known:
            self._known[probe] = yield from self._steps(probe)

    def _steps(self, probe: Probe) -> Generator[float, None, Totals]:
        every = range(1, self.seasons + 1)
        variants = [Variant(season, kind) for season in every for kind in (ALIVE, ANYTHING)]
        found = np.zeros((2 * self.seasons, probe.points), dtype=complex)
        parts = parts_of(probe)
        for place, part in enumerate(parts):
            chain = Chain(self, self.rows, self.goal, part)
            for number, world in enumerate(self.worlds):
                yield (place + number / len(self.worlds)) / len(parts)
                found[:, part.at : part.at + part.points] += self.goal.total(chain.through(world, variants))
        one = np.ones((1, probe.points), dtype=complex)
        return Totals(np.concatenate([one, found[::2]]), np.concatenate([one, found[1::2]]))

    def lacking(self, row: int, _probe: Joined) -> Floats:
        """Expected number of young that a row still lacks at the end of each season, 0 once the goal is met."""
        short = np.array([self.problem.wanted[row] - state[row] for state in self.goal.states])
        variants = [Variant(season, ALIVE) for season in range(1, self.seasons + 1)]
        chain = Chain(self, self.rows, self.goal, parts_of(CHANCES)[0])
        left = [float(self.problem.wanted[row])]
        total = sum(chain.through(world, variants)[:, :, 0].real for world in self.worlds)
        return np.array([*left, *(np.asarray(total) @ short)])

    def endings(self, _rows: Rows, _probe: Joined, probe: Probe, at_egg: AtEgg) -> Complex:
        """What happens at the egg that meets the goal, by season: [breeding seasons, points]."""
        found = np.zeros((self.seasons, probe.points), dtype=complex)
        for part in parts_of(probe):
            chain = Chain(self, self.rows, self.goal, part, at_egg)
            for season, order in enumerate(self.order, start=1):
                variants = [Variant(season, AT, mating.female) for mating in order]
                for world in self.worlds if variants else ():
                    each = self.goal.total(chain.through(world, variants))
                    found[season - 1, part.at : part.at + part.points] += each.sum(axis=0)
        return found

    def counted_worth(self, row: int, probe: Joined) -> Floats:
        """What the young that count for a row would have brought, by season: [breeding seasons]."""
        if len(self.rows) > 1:
            raise OutOfReach("young that count for one of several rows differ in price")
        return self.endings(self.rows, probe, EXPECTATIONS, selling(row))[:, 0].real

    def extras(self, _probe: Joined) -> Extras:
        """Young held, and what those would have brought; none of them counted for the goal."""
        found = np.zeros((2, self.seasons))
        chain, free = (Chain(self, rows, goal, parts_of(CHANCES)[0]) for rows, goal in self._ways_to_look())
        for world in self.worlds:
            for season in range(1, self.seasons + 1):
                reached = chain.before(world, Variant(season, ANYTHING))
                for state, weight in reached.items():
                    found[:, season - 1] += weight * np.array(free.taken(world, season, state))
        nothing = np.zeros(self.seasons)
        return Extras(found[0], found[1], nothing, nothing)

    def _ways_to_look(self) -> tuple[tuple[Rows, CountAlgebra], tuple[Rows, CountAlgebra]]:
        return (self.rows, self.goal), ((), GoalAlgebra(()))

    def most_eggs(self, _probe: Joined) -> int:
        """The most eggs that can be laid: those of all seasons that are not surely left out, the goal being met."""
        biology = self.problem.biology
        if biology.lays == 0 or biology.works["female"] == 0:
            return 0
        chain = Chain(self, self.rows, self.goal, parts_of(CHANCES)[0])
        most = max(chain.most_bred(world) for world in self.worlds)
        return most * biology.clutches * (len(biology.sizes) - 1)
