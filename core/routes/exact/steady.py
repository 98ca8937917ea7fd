"""Exact answers where held young never change who of the founders breeds with whom.

Then each founder's life is one element over the young that can be held and the goal, all founders multiply, and what
is held decides, apart from all else, what held animals breed and cost: a sum over all ways of holding puts the two
together.
"""

from __future__ import annotations

import copy
import weakref
from collections.abc import Hashable, Iterable
from functools import cache, cached_property, partial

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
from core.routes.exact.places import Layout, Places
from core.routes.exact.plain import NEGLIGIBLE, ROUNDING, Extras, Totals, Workshop
from core.routes.exact.rearing import Rearing, Which
from core.routes.exact.schedule import Schedule
from core.routes.exact.steady_endings import part_endings
from core.routes.exact.ways import HerdCounts, Weights, fit_chances
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
        found = np.zeros((self.seasons, part.points), dtype=complex)
        for place, world in enumerate(self.worlds):
            if not world.barren:
                found += world.chance * self.part(place, rows, probe).endings(at_egg, probe.where(part))
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
        sums = Seasons(alive, unfilled)
        for world in self._all():
            self.part(world, rows, probe).add_seasons(sums)
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


# The point at which every weight is 1.
_CHANCE = slice(0, 1)
# Up to so many points what animals may be held as is taken side by side.
_FEW = 400


class Part:
    """One world of a route, for one way of looking at the goal at one set of points."""

    def __init__(self, route: SteadyRoute, world: int, rows: Rows, probe: Probe) -> None:
        self.route, self.rows, self.probe, self.nursing = route, rows, probe, route.nursing(rows, probe)
        self.world, self.pairs = route.worlds[world], route.pairs(world)
        # The last season in which founders breed.
        self.last = len(self.pairs)
        self.layout, self.dams = route.layout(world, rows)
        self._bred: dict[HerdCounts, tuple[int, ...]] = {}

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

    def add_seasons(self, sums: Seasons) -> None:
        """Add what everyone breeds, [seasons + 1, goal, points], as often as the world is so; asked for once."""
        points = self.nursing.probe.points
        self.nursing.breeding.room.take(2 * sums.alive.size)
        sums.alive[0, 0] += self.world.chance
        sums.open[0, 0] += self.world.chance
        everything, few = slice(0, points), slice(0, self.probe.before_money)
        # Of money only that on meeting the goal is told, unless the route buys outright.
        short = self.route.problem.outright is None
        if short and self.world.barren:
            self._add_barren(sums, few)
            return
        for season in range(1, self.last + 1):
            self._add_season(sums, season, few if short else everything)
            if short:
                self._add_met(sums.open, season, slice(few.stop, points))
        for first, last in self._held_alone():
            some, seasons = few if short else everything, slice(first, last + 1)
            weights = self._weighed(self.founders.end[..., some], first, some)
            self._add(sums.alive, weights, seasons, "alive")
            self._add(sums.open, weights, seasons, "open")
            if short and not self._is_quiet(last):
                self._add_met_by_held(sums.open, seasons, slice(few.stop, points))

    def _add_barren(self, sums: Seasons, points: slice) -> None:
        """The same where every egg is a slug: nothing can be held, and no goal met."""
        lives, last = self.founders, self.last
        for out in (sums.alive, sums.open):
            for season in range(1, last + 1):
                out[season, :, points] += self.world.chance * lives.alive[season][0, :, points]
            out[last + 1 :, :, points] += self.world.chance * lives.end[0, :, points]

    def _add_season(self, sums: Seasons, season: int, points: slice) -> None:
        """Add a season in which founders breed, at the first points."""
        own, lives = slice(season, season + 1), self.founders
        self._add(sums.alive, self._weighed(lives.alive[season][..., points], season, points), own, "alive")
        self._add(sums.open, self._weighed(lives.open[season][..., points], season, points), own, "open")

    def _add_met(self, out: Complex, season: int, points: slice) -> None:
        """Add that a row is filled in such a season, where that may be."""
        own, lives = slice(season, season + 1), self.founders
        alive, unfilled = lives.alive[season], lives.open[season]
        if np.abs(unfilled[..., 0] - alive[..., 0]).sum() > ROUNDING or season >= self.route.held.first_breeding:
            self._add_one_by_one(out, self._weighed(unfilled[..., points], season, points), own, "open", points)
            less = self._weighed(alive[..., points], season, points)
            np.negative(less.weights, out=less.weights)
            self._add_one_by_one(out, less, own, "alive", points)

    def _add_met_by_held(self, out: Complex, seasons: slice, points: slice) -> None:
        """The same where only held animals breed."""
        season, ways = seasons.start, self.lives.places.ways(self.layout.before(seasons.start))
        if any(self.rearing.of(fit, "met", seasons, points) is not None for fit in ways.counts):
            weights = self._weighed(self.founders.end[..., points], season, points)
            self._add_one_by_one(out, weights, seasons, "met", points)

    def _weighed(self, element: Complex, season: int, points: slice) -> Weights:
        """Ways with their weights, as often as the world is so; before the founders' last season as lives tell them."""
        places = self.lives.told(season) if season <= self.last else None
        found = self.ways(element, season, points, places)
        np.multiply(found.weights, self.world.chance, out=found.weights)
        return found

    def _held_alone(self) -> list[tuple[int, int]]:
        """Seasons after the founders' last, in runs in which the same has been paid for those not fit to breed."""
        late = range(self.last + 1, self.route.seasons + 1)
        runs = alike([(self.rearing.unfit_paid(season), self._is_quiet(season)) for season in late])
        return [(self.last + first, self.last + last) for _, first, last in runs]

    def _is_quiet(self, season: int) -> bool:
        """Whether nobody can breed in a season after the founders' last, so that the goal is not met."""
        return season < self.route.held.first_breeding

    def _add(self, out: Complex, ways: Weights, seasons: slice, which: Which) -> None:
        """Add what everyone has bred by the end of each of these seasons, at the first points."""
        points = slice(0, ways.weights.shape[-1])
        if points.stop > _FEW:
            self._add_one_by_one(out, ways, seasons, which, points)
            return
        bred = self.rearing.together(ways.counts, which, seasons, points)
        out[seasons, :, points] += self.nursing.algebra.multiply(ways.weights[:, None], bred).sum(axis=0)

    def _add_one_by_one(self, out: Complex, ways: Weights, seasons: slice, which: Which, points: slice) -> None:
        """The same for many points."""
        algebra, sums = self.nursing.algebra, out[seasons, :, points]
        product = np.empty_like(sums[0])
        for fit, weight in zip(*ways, strict=True):
            bred = self.rearing.of(fit, which, seasons, points)
            if bred is None:
                sums += weight if which != "met" else 0
            elif algebra.size > 1:
                sums += algebra.multiply(weight, bred)
            else:
                # Season by season the numbers stay near the processor.
                for own, each in zip(sums, bred, strict=True):
                    own += np.multiply(weight, each, out=product)

    def ways(self, element: Complex, season: int, points: slice, places: Places | None = None) -> Weights:
        """Weights of what founders bred by who has been held before a season and is fit to breed.

        points: those of the element; places: its algebra, where it is not that of all lots.
        """
        ways = (places or self.lives.places).ways(self.layout.before(season))
        return self.rearing.thinned(ways, ways.held(element), season, points)

    def most_bred(self) -> int:
        """The most females bred over all seasons that can be reached."""
        most = 0
        for season in range(self.route.seasons, 0, -1):
            reached = [(fit, chance > NEGLIGIBLE) for fit, chance in self._reached(season)]
            most = max([most, *(self._bred_by(fit)[season] for fit, likely in reached if likely)])
            if all(likely for _, likely in reached):
                # Earlier seasons lead to these.
                break
        return most

    def _reached(self, season: int) -> Iterable[tuple[HerdCounts, float]]:
        """Which animals may have been held before a season and be fit, and the chance that it is reached so."""
        founders = self.founders
        # As chances, a season in which anything may happen only tells what was before it.
        before = (founders.end if season > self.last else founders.open[season])[..., _CHANCE]
        ways = self.ways(before, season, _CHANCE, None if season > self.last else self.lives.told(season))
        still_open = self.rearing.together(ways.counts, "alive", slice(season - 1, season), _CHANCE)[:, 0]
        return zip(ways.counts, self._chances_of(ways.weights, still_open), strict=True)

    def _bred_by(self, fit: HerdCounts) -> tuple[int, ...]:
        if fit not in self._bred:
            self._bred[fit] = self.route.bred_by(self.rearing.breeders(fit))
        return self._bred[fit]

    def taken(self) -> Floats:
        """Expected young held in each season, and what they would have brought: [2, breeding seasons]."""
        found = np.zeros((2, self.route.seasons))
        classes = self.nursing.founding.classes
        layout, dams = layout_and_dams(self.route.held, classes, self.pairs, self.last)
        lives = self.lives_for(self.route.nursing(self.rows, CHANCES).breeding, layout)
        for season, taking in enumerate(lives.taking(list(dams.values())), start=1):
            before = layout.before(season)
            ways, known = lives.places.ways(layout.before(season + 1)), cache(partial(self._still_open, season))
            earlier = (tuple(own[:n] for own, n in zip(held, before, strict=True)) for held in ways.counts)
            chances = self._chances_of(ways.held(taking), np.stack([known(held) for held in earlier]))
            for held, chance in zip(ways.counts, chances, strict=True):
                for own, lots, first in zip(held, layout.lots, before, strict=True):
                    for lot, n in zip(lots[first:], own[first:], strict=False):
                        found[:, season - 1] += chance * n, chance * n * classes.kept(lot.kind).price
        return found

    def _still_open(self, season: int, held: HerdCounts) -> Complex:
        """What those held before leave open of the goal until a season, as chances: [goal, 1]."""
        total = 0 * self.nursing.algebra.one(1)
        for fit, chance in fit_chances(held, self.rearing.reaches):
            total += chance * self._open_until(fit, season)
        return total

    def _open_until(self, fit: HerdCounts, season: int) -> Complex:
        """What fit animals leave open of the goal until a season, as chances: [goal, 1]."""
        reared = self.rearing.of(fit, "alive", slice(season - 1, season), _CHANCE)
        return self.nursing.algebra.one(1) if reared is None else reared[0]

    def _chances_of(self, weights: Complex, still_open: Complex) -> list[float]:
        algebra = self.nursing.algebra
        found: list[float] = algebra.total(algebra.multiply(weights, still_open))[:, 0].real.tolist()
        return found

    def endings(self, at_egg: AtEgg, points: slice) -> Complex:
        """What happens at the egg that fills one of the rows, by season, at some points: [breeding seasons, points]."""
        return part_endings(self, at_egg, points)
