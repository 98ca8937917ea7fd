"""Exact answers where held young never change who of the founders breeds with whom.

Then each founder's life is one element over the young that can be held and the goal, all founders multiply, and what
is held decides, apart from all else, what held animals breed and cost: a sum over all ways of holding puts the two
together.
"""

from __future__ import annotations

import weakref
from collections.abc import Generator, Hashable
from typing import Self

import numpy as np

from core.progress import finished
from core.routes.another import another
from core.routes.calendar import Animal
from core.routes.exact.algebra import Complex
from core.routes.exact.brood import level_of
from core.routes.exact.clusters import Seasons
from core.routes.exact.eggs import EXPECTATIONS, Joined, Probe
from core.routes.exact.ending import AtEgg, filling, selling
from core.routes.exact.founding import Telling, founder_worlds
from core.routes.exact.held_route import HeldRoute
from core.routes.exact.lifetimes import Dam, FounderPairs, layout_and_dams
from core.routes.exact.limits import MOST_COUNTS
from core.routes.exact.looks import Rows
from core.routes.exact.nursing import Nursing
from core.routes.exact.places import Layout
from core.routes.exact.plain import Extras, Totals, Workshop, told_in_full
from core.routes.exact.schedule import Schedule
from core.routes.exact.steady_part import Part
from core.routes.problem import Problem
from core.routes.result import Floats


def followed_herds(problem: Problem) -> frozenset[int]:
    """Herds of founders whose females held males are never put to."""
    males = {herd.index for herd in problem.herds if herd.held and herd.sex == "male"}
    met = {female for pairing in problem.pairings if males & set(pairing.males) for female in pairing.females}
    return frozenset(herd.index for herd in problem.herds if not herd.held and herd.index not in met)


class _Shared:
    """What is the same for counts that breed alike."""

    def __init__(self, problem: Problem, workshop: Workshop, schedule: Schedule) -> None:
        followed = followed_herds(problem)
        self.worlds = tuple(founder_worlds(problem, workshop.kinds, schedule, Telling(True, followed)))
        self.pairs: dict[int, list[FounderPairs]] = {}
        self.layouts: dict[tuple[int, Rows], tuple[Layout, dict[Animal, Dam]]] = {}
        self.parts: dict[tuple[int, Rows, Probe], Part] = {}


class SteadyRoute(HeldRoute):
    """One route that holds young back and is steady, at one set of counts."""

    def __init__(self, problem: Problem, workshop: Workshop, schedule: Schedule) -> None:
        """`schedule`: the founders' matings."""
        super().__init__(problem, workshop)
        # A male that no founder is put to may be left for held females.
        counts = tuple(herd.count for herd in problem.herds if herd.held or herd.sex == "male")
        self.signature: Hashable = counts, schedule
        self.schedule = schedule
        shared = workshop.kept(("steady", self.signature), lambda: _Shared(problem, workshop, schedule))
        self.worlds = shared.worlds
        self._pairs, self._layouts, self._parts = shared.pairs, shared.layouts, shared.parts

    def afresh(self, shop: Workshop) -> Self:
        """The same route at other points: the founders' lots are known."""
        other = super().afresh(shop)
        other._parts = {}
        return other

    def is_small(self) -> bool:
        """Whether this way is quick, and no young can count for the goal and be held too."""
        return self.shop.kept(("small", self.signature), self._is_small)

    def _is_small(self) -> bool:
        if any(map(self._both, self._all())):
            return False
        looks = [rows for rows, _ in self.looks]
        return all(self.layout(world, rows)[0].size <= MOST_COUNTS for world in self._all() for rows in looks)

    def layout(self, world: int, rows: Rows) -> tuple[Layout, dict[Animal, Dam]]:
        """The lots of young that can be held for a later season, and the founders of a world."""
        key = world, rows
        if key not in self._layouts:
            pairs = self.pairs(world)
            self._layouts[key] = layout_and_dams(self.held, self.shop.classes(rows), pairs, self.seasons - 1)
        return self._layouts[key]

    def most_eggs(self, probe: Joined) -> int:
        """The most eggs that can be laid."""
        biology = self.problem.biology
        if biology.lays == 0 or biology.works["female"] == 0:
            return 0
        rows = range(len(self.problem.wanted))
        most = max(self.part(world, (row,), probe).most_bred() for world in self._all() for row in rows)
        return most * biology.clutches * (len(biology.sizes) - 1)

    def totals(self, rows: Rows, probe: Probe) -> Totals:
        """The generating functions season by season, with none of `rows` full."""
        seasons = self._elements(rows, probe)
        total = self.nursing(rows, probe).algebra.total
        return Totals(total(seasons.alive), total(seasons.open))

    def lacking(self, row: int, probe: Joined) -> Floats:
        """Expected number of young that this row still lacks at the end of each season: [breeding seasons + 1]."""
        short = np.arange(self.problem.wanted[row], 0, -1)
        return short @ self._elements((row,), probe).alive[:, :, 0].real.T

    def endings(self, rows: Rows, probe: Joined, part: Probe, at_egg: AtEgg) -> Complex:
        """What happens at the egg that fills one of `rows`, by season: [breeding seasons, points]."""
        return finished(self._ended(rows, probe, part, at_egg))

    def steps(self, probe: Joined) -> Generator[None, None, None]:
        """Works the totals out step by step."""
        for rows, _ in self.looks:
            yield from self._added(rows, probe)

    def egg_steps(self, probe: Joined) -> Generator[None, None, None]:
        """Works out step by step what happens at every egg."""
        for rows, _ in self.looks:
            yield from self._ended(rows, probe, probe.eggs, filling)

    def _ended(self, rows: Rows, probe: Joined, part: Probe, at_egg: AtEgg) -> Generator[None, None, Complex]:
        key = "endings", self.signature, rows, probe, part, at_egg
        return self.shop.kept_in_steps(key, lambda: self._end(rows, probe, part, at_egg))

    def _end(self, rows: Rows, probe: Joined, part: Probe, at_egg: AtEgg) -> Generator[None, None, Complex]:
        found = np.zeros((self.seasons, part.points), dtype=complex)
        for place, world in enumerate(self.worlds):
            if not world.barren:
                own = yield from self.part(place, rows, probe).endings(at_egg, probe.where(part))
                found += world.chance * own
        return found

    def counted_worth(self, row: int, probe: Joined) -> Floats:
        """What the young that count for a row would have brought, by season: [breeding seasons]."""
        return self.endings((row,), probe, EXPECTATIONS, selling(row))[:, 0].real

    def extras(self, probe: Joined) -> Extras:
        """What held animals add to expectations; none of them counts for the goal too."""
        found = np.zeros((2, self.seasons))
        for rows, sign in self.looks:
            for place, world in enumerate(self.worlds):
                if not world.barren:
                    found += sign * world.chance * self.part(place, rows, probe).taken()
        return Extras(*found, *np.zeros((2, self.seasons)))

    def nursing(self, rows: Rows, probe: Probe) -> Nursing:
        """What all counts share for these goal rows at these points."""
        return self.shop.kept(("nursing", rows, probe), lambda: Nursing(self.problem, self.shop, rows, probe))

    def part(self, world: int, rows: Rows, probe: Probe) -> Part:
        """One world for these goal rows at these points."""
        key = world, rows, probe
        if key not in self._parts:
            self._parts[key] = Part(self._inner(), world, rows, probe)
        return self._parts[key]

    def _inner(self) -> SteadyRoute:
        """This route for what the workshop keeps: what holds the workshop in turn stays until garbage is looked for."""
        inner = another(self)
        inner.shop, inner._parts = weakref.proxy(self.shop), {}
        return inner

    def pairs(self, world: int) -> list[FounderPairs]:
        """The founders' matings, season by season, up to the last in which any breeds."""
        if world not in self._pairs:
            # Held animals change nothing between founders.
            every = [self.pairs_of(self.worlds[world], matings) for matings in self.schedule]
            while every and not every[-1]:
                every.pop()
            self._pairs[world] = every
        return self._pairs[world]

    def _all(self) -> range:
        return range(len(self.worlds))

    def _elements(self, rows: Rows, probe: Probe) -> Seasons:
        return finished(self._added(rows, probe))

    def _added(self, rows: Rows, probe: Probe) -> Generator[None, None, Seasons]:
        key = "elements", self.signature, rows, probe
        return self.shop.kept_in_steps(key, lambda: self._summed(rows, probe))

    def _summed(self, rows: Rows, probe: Probe) -> Generator[None, None, Seasons]:
        algebra = self.nursing(rows, probe).algebra
        # Beyond what is told in full only the difference of the two is, as the second.
        told, shape = told_in_full(self.problem, probe), (self.seasons + 1, algebra.size)
        alive = np.zeros((*shape, told), dtype=complex)
        sums = Seasons(alive, np.zeros((*shape, probe.points), dtype=complex))
        for world in self._all():
            yield from self.part(world, rows, probe).add_seasons(sums)
        self.shop.room.keep(sums.alive.size + sums.open.size)
        return sums

    def _both(self, world: int) -> bool:
        wanted = (1 << len(self.problem.wanted)) - 1
        fertile = {pair for mated in self.pairs(world) for _, pair in mated if pair.male is not None}
        return any(
            mask & wanted and level_of(herd, mask) is not None
            for herd in self.held.herds
            for pair in fertile
            if pair.pairing in herd.sources
            for mask, _, _ in self.shop.kinds.pairs[pair.male or 0, pair.female].young
        )
