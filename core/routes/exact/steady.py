"""Exact answers where held young never change who of the founders breeds with whom.

Then each founder's life is one element over the young that can be held and the goal, all founders multiply, and what
is held decides, apart from all else, what held animals breed and cost: a sum over all ways of holding puts the two
together.
"""

from __future__ import annotations

import copy
import weakref
from collections.abc import Hashable, Iterator
from functools import cached_property
from typing import Literal

import numpy as np

from core.routes.calendar import Animal, founders
from core.routes.exact.algebra import Complex
from core.routes.exact.brood import level_of
from core.routes.exact.clusters import Breeding, Seasons
from core.routes.exact.eggs import CHANCES, EXPECTATIONS, Joined, Probe
from core.routes.exact.ending import AtEgg, alike, selling
from core.routes.exact.founding import founder_worlds
from core.routes.exact.held_route import HeldRoute
from core.routes.exact.lifetimes import Dam, FounderPairs, Lifetimes, Lives, layout_and_dams
from core.routes.exact.limits import MOST_COUNTS
from core.routes.exact.looks import Rows
from core.routes.exact.nursing import Nursing
from core.routes.exact.places import HerdCounts, Layout
from core.routes.exact.plain import NEGLIGIBLE, Extras, Totals, Workshop
from core.routes.exact.rearing import Rearing, Weights
from core.routes.exact.schedule import Schedule
from core.routes.exact.steady_endings import part_endings
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
        self.worlds = tuple(founder_worlds(problem, workshop.kinds, schedule, steady=True, followed=followed))
        self.pairs: dict[int, list[FounderPairs]] = {}
        self.layouts: dict[tuple[int, Rows], tuple[Layout, dict[Animal, Dam]]] = {}
        self.parts: dict[tuple[int, Rows, Probe], Part] = {}
        self.known: dict[tuple[Rows, Probe], Seasons] = {}


class SteadyRoute(HeldRoute):
    """One route that holds young back and is steady, at one set of counts."""

    def __init__(self, problem: Problem, workshop: Workshop, schedule: Schedule) -> None:
        """`schedule`: the founders' matings."""
        super().__init__(problem, workshop)
        self.signature: Hashable = tuple(herd.count for herd in self.held.herds), schedule
        shared = workshop.kept(("steady", self.signature), lambda: _Shared(problem, workshop, schedule))
        self.worlds = shared.worlds
        self._pairs, self._layouts, self._parts, self._known = shared.pairs, shared.layouts, shared.parts, shared.known

    def is_small(self) -> bool:
        """Whether this way is quick, and no young can count for the goal and be held too."""
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
        found = np.zeros((self.seasons, part.points), dtype=complex)
        for world in self._all():
            found += self.worlds[world].chance * self.part(world, rows, probe).endings(at_egg, probe.where(part))
        return found

    def counted_worth(self, row: int, probe: Joined) -> Floats:
        """What the young that count for a row would have brought, by season: [breeding seasons]."""
        return self.endings((row,), probe, EXPECTATIONS, selling(row))[:, 0].real

    def extras(self, probe: Joined) -> Extras:
        """What held animals add to expectations; none of them counts for the goal too."""
        found = np.zeros((2, self.seasons))
        for rows, sign in self.looks:
            for world in self._all():
                found += sign * self.worlds[world].chance * self.part(world, rows, probe).taken()
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
        inner = copy.copy(self)
        inner.shop, inner._parts = weakref.proxy(self.shop), {}
        return inner

    def pairs(self, world: int) -> list[FounderPairs]:
        """The founders' matings, season by season, up to the last in which any breeds."""
        if world not in self._pairs:
            seasons = range(1, self.seasons + 1)
            every = [self.founder_pairs(self.worlds[world], self.held.nobody, season) for season in seasons]
            while every and not every[-1]:
                every.pop()
            self._pairs[world] = every
        return self._pairs[world]

    def _all(self) -> range:
        return range(len(self.worlds))

    def _elements(self, rows: Rows, probe: Probe) -> Seasons:
        if (rows, probe) not in self._known:
            self._known[rows, probe] = self._summed(rows, probe)
        return self._known[rows, probe]

    def _summed(self, rows: Rows, probe: Probe) -> Seasons:
        algebra = self.nursing(rows, probe).algebra
        alive = np.zeros((self.seasons + 1, algebra.size, probe.points), dtype=complex)
        unfilled = np.zeros_like(alive)
        for place, world in enumerate(self.worlds):
            seasons = self.part(place, rows, probe).seasons()
            alive += world.chance * seasons.alive
            unfilled += world.chance * seasons.open
        return Seasons(alive, unfilled)

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


def _cut(ways: Weights, points: slice) -> Weights:
    return {fit: weight[:, points] for fit, weight in ways.items()}


# The point at which every weight is 1.
_CHANCE = slice(0, 1)


class Part:
    """One world of a route, for one way of looking at the goal at one set of points."""

    def __init__(self, route: SteadyRoute, world: int, rows: Rows, probe: Probe) -> None:
        self.route, self.rows, self.probe, self.nursing = route, rows, probe, route.nursing(rows, probe)
        self.world, self.pairs = route.worlds[world], route.pairs(world)
        # The last season in which founders breed.
        self.last = len(self.pairs)
        self.layout, self.dams = route.layout(world, rows)
        self._bred: dict[tuple[HerdCounts, int], int] = {}

    @cached_property
    def lives(self) -> Lifetimes:
        """The founders' lives."""
        return self.lives_for(self.nursing.breeding, self.layout)

    def lives_for(self, breeding: Breeding, layout: Layout) -> Lifetimes:
        """Founders' lives for a layout, shared by all counts."""
        route = self.route
        return route.shop.kept(
            ("lives", self.rows, breeding, layout),
            lambda: Lifetimes(route.problem, route.held, breeding, self.rows, layout),
        )

    @cached_property
    def rearing(self) -> Rearing:
        """What is held, shared by all counts for which the same founders are there when held animals breed."""
        route, world = self.route, self.world
        late = range(min(route.held.first_breeding, route.seasons + 1), route.seasons + 1)
        herds = [herd for herd in route.problem.herds if not herd.held]
        there = tuple(tuple(founders(herd, season)) for herd in herds for season in late)
        known = tuple((animal, world.states.get(animal)) for animal in dict.fromkeys(a for some in there for a in some))
        key = "rearing", self.rows, self.nursing.probe, self.layout, tuple(map(len, there)), known
        return route.shop.kept(key, lambda: Rearing(route, self.nursing, world, self.layout))

    @cached_property
    def founders(self) -> Lives:
        """What all founders breed, up to the last season in which they do."""
        found = self.lives.together(list(self.dams.values()))
        self.nursing.breeding.room.keep(sum(own.size for own in (*found.alive, *found.open, found.end)))
        return found

    def seasons(self) -> Seasons:
        """What everyone breeds: [seasons + 1, goal, points]; asked for once."""
        algebra, points, every = self.nursing.algebra, self.nursing.probe.points, self.route.seasons
        self.nursing.breeding.room.take(2 * (every + 1) * algebra.size * points)
        alive = np.zeros((every + 1, algebra.size, points), dtype=complex)
        unfilled = np.zeros_like(alive)
        alive[0] = unfilled[0] = algebra.one(points)
        everything, few = slice(0, points), slice(0, self.probe.before_money)
        for season in range(1, self.last + 1):
            through = self.ways(self.founders.alive[season], season, everything)
            self._add(alive, through, season, season, "alive", everything)
            anything = self.ways(self.founders.open[season], season, everything)
            self._add(unfilled, anything, season, season, "open", everything)
        for first, last in self._held_alone():
            # Of money only that on meeting the goal is told, unless the route buys outright.
            short = self.route.problem.outright is None
            own = few if short and self._is_quiet(last) else everything
            ways = self.ways(self.founders.end[..., own], first, own)
            self._add(alive, _cut(ways, few) if short else ways, first, last, "alive", few if short else own)
            self._add(unfilled, _cut(ways, few) if short else ways, first, last, "open", few if short else own)
            if own.stop > few.stop and short:
                self._add_met(unfilled, ways, first, last, slice(few.stop, points))
        return Seasons(alive, unfilled)

    def _held_alone(self) -> list[tuple[int, int]]:
        """Seasons after the founders' last, in runs in which the same has been paid for those not fit to breed."""
        late = range(self.last + 1, self.route.seasons + 1)
        runs = alike([(self.rearing.unfit_paid(season), self._is_quiet(season)) for season in late])
        return [(self.last + first, self.last + last) for _, first, last in runs]

    def _is_quiet(self, season: int) -> bool:
        """Whether nobody can breed in a season after the founders' last, so that the goal is not met."""
        return season < self.route.held.first_breeding

    def _add(
        self, out: Complex, ways: Weights, first: int, last: int, which: Literal["alive", "open"], points: slice
    ) -> None:
        """Add what everyone has bred by the end of each season, first to last, at these points."""
        seasons = slice(first, last + 1)
        for fit, weight in ways.items():
            reared = self.rearing.of(fit)
            bred = None if reared is None else getattr(reared, which)[seasons, :, points]
            out[seasons, :, points] += weight if bred is None else self.nursing.algebra.multiply(weight, bred)

    def _add_met(self, out: Complex, ways: Weights, first: int, last: int, points: slice) -> None:
        """Add what is paid where the goal is met in each season, first to last."""
        algebra = self.nursing.algebra
        product = np.empty_like(out[0, :, points])
        for fit, weight in ways.items():
            met = self.rearing.met(fit, points)
            if met is None:
                continue
            for season in range(first, last + 1):
                if algebra.size > 1:
                    out[season, :, points] += algebra.multiply(weight[:, points], met[season])
                else:
                    np.multiply(weight[:, points], met[season], out=product)
                    out[season, :, points] += product

    def ways(self, element: Complex, season: int, points: slice) -> Weights:
        """Weights of what founders bred by who has been held before a season and is fit to breed.

        points: those of the element.
        """
        held = self.lives.places.held(element, self.layout.before(season))
        likely = ((counts, weight) for counts, weight in held if abs(weight[:, 0]).sum() > NEGLIGIBLE)
        return self.rearing.thinned(likely, season, points)

    def most_bred(self) -> int:
        """The most females bred over all seasons that can be reached."""
        most = 0
        for season in range(self.route.seasons, 0, -1):
            reached = [(fit, chance > NEGLIGIBLE) for fit, chance in self._reached(season)]
            most = max([most, *(self._bred_through(fit, season) for fit, likely in reached if likely)])
            if all(likely for _, likely in reached):
                # Earlier seasons lead to these.
                break
        return most

    def _reached(self, season: int) -> Iterator[tuple[HerdCounts, float]]:
        """Which animals may have been held before a season and be fit, and the chance that it is reached so."""
        algebra = self.nursing.algebra
        founders = self.founders
        # As chances, a season in which anything may happen only tells what was before it.
        before = (founders.end if season > self.last else founders.open[season])[..., _CHANCE]
        for fit, weight in self.ways(before, season, _CHANCE).items():
            reared = self.rearing.of(fit)
            own = weight if reared is None else algebra.multiply(weight, reared.alive[season - 1, :, _CHANCE])
            yield fit, float(algebra.total(own)[0].real)

    def _bred_through(self, fit: HerdCounts, season: int) -> int:
        if not season:
            return 0
        if (fit, season) not in self._bred:
            now = len(self.route.season_matings(self.rearing.nursery(fit), season))
            self._bred[fit, season] = self._bred_through(fit, season - 1) + now
        return self._bred[fit, season]

    def taken(self) -> Floats:
        """Expected young held in each season, and what they would have brought: [2, breeding seasons]."""
        found = np.zeros((2, self.route.seasons))
        classes = self.nursing.founding.classes
        layout, dams = layout_and_dams(self.route.held, classes, self.pairs, self.last)
        lives = self.lives_for(self.route.nursing(self.rows, CHANCES).breeding, layout)
        for season, taking in enumerate(lives.taking(list(dams.values())), start=1):
            before = layout.before(season)
            for held, weight in lives.places.held(taking, layout.before(season + 1)):
                earlier = tuple(own[:n] for own, n in zip(held, before, strict=True))
                chance = self._still_open(earlier, weight, season)
                for own, lots, first in zip(held, layout.lots, before, strict=True):
                    for lot, n in zip(lots[first:], own[first:], strict=False):
                        found[:, season - 1] += chance * n, chance * n * classes.kept(lot.kind).price
        return found

    def _still_open(self, held: HerdCounts, weight: Complex, season: int) -> float:
        """The chance of a weight of the founders' where those held before leave the goal open until a season."""
        algebra, total = self.nursing.algebra, 0.0
        for fit, part in self.rearing.thinned([(held, weight)], season, _CHANCE).items():
            reared = self.rearing.of(fit)
            own = part if reared is None else algebra.multiply(part, reared.alive[season - 1, :, _CHANCE])
            total += float(algebra.total(own)[0].real)
        return total

    def endings(self, at_egg: AtEgg, points: slice) -> Complex:
        """What happens at the egg that fills one of the rows, by season, at some points: [breeding seasons, points]."""
        return part_endings(self, at_egg, points)
