"""One world of a steady route: what founders breed, what is held, and what becomes of the two together."""

from __future__ import annotations

from collections import Counter
from collections.abc import Generator, Iterable, Sequence
from functools import cached_property
from itertools import chain
from typing import TYPE_CHECKING

import numpy as np

from core.routes.calendar import founders
from core.routes.exact.algebra import Complex, raised
from core.routes.exact.breeding import Breeding
from core.routes.exact.clusters import Seasons
from core.routes.exact.eggs import CHANCES, Probe
from core.routes.exact.ending import AtEgg, alike
from core.routes.exact.lifetimes import Dam, Lifetimes, Lives, layout_and_dams
from core.routes.exact.looks import Rows
from core.routes.exact.places import Layout, Places
from core.routes.exact.plain import NEGLIGIBLE, ROUNDING, told_in_full
from core.routes.exact.rearing import FEW, Rearing, Which
from core.routes.exact.steady_endings import fruitful, part_endings
from core.routes.exact.ways import HerdCounts, Weights, fit_chances
from core.routes.result import Floats

if TYPE_CHECKING:
    from core.routes.exact.steady import SteadyRoute

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

    @cached_property
    def lives(self) -> Lifetimes:
        """The founders' lives."""
        return self.lives_for(self.nursing.breeding, self.layout)

    def lives_for(self, breeding: Breeding, layout: Layout) -> Lifetimes:
        """Founders' lives for a layout, shared by all counts."""
        route, told = self.route, min(self._told, breeding.laying.probe.points)
        return route.shop.kept(
            ("lives", self.rows, breeding, layout, told),
            lambda: Lifetimes(route.problem, route.held, breeding, self.rows, layout, told),
        )

    @cached_property
    def _told(self) -> int:
        """At how many points founders' seasons are asked for: at all of them where the goal may be met in some."""
        quiet = self.last < self.route.held.first_breeding and not fruitful(self)
        return told_in_full(self.route.problem, self.probe) if quiet else self.probe.points

    @cached_property
    def rearing(self) -> Rearing:
        """What is held, shared by all counts for which the same founders are there when held animals breed."""
        route, world = self.route, self.world
        late = range(min(route.held.first_breeding, route.seasons + 1), route.seasons + 1)
        there = [founders(herd, season) for herd in route.problem.herds if not herd.held for season in late]
        known = [(animal, world.states.get(animal)) for animal in dict.fromkeys(chain.from_iterable(there))]
        key = "rearing", self.rows, self.nursing.probe, self.layout, tuple(map(len, there)), tuple(known)
        return route.shop.kept(key, lambda: Rearing(route, self.nursing, world, self.layout))

    @cached_property
    def founders(self) -> Lives:
        """What all founders breed, up to the last season in which they do."""
        found = self.lives.together(list(self.dams.values()))
        self.nursing.breeding.room.keep(sum(own.size for own in (*found.alive, *found.open, found.end)))
        return found

    def add_seasons(self, sums: Seasons) -> Generator[None, None, None]:
        """Add what everyone breeds, [seasons + 1, goal, points], as often as the world is so; asked for once."""
        points = self.nursing.probe.points
        self.nursing.breeding.room.take(sums.alive.size + sums.open.size)
        sums.alive[0, 0] += self.world.chance
        sums.open[0, 0] += self.world.chance
        everything, few = slice(0, points), slice(0, told_in_full(self.route.problem, self.probe))
        short, money = few.stop < points, slice(self.probe.before_money, points)
        if short and self.world.barren:
            self._add_barren(sums, few)
            return
        for season in range(1, self.last + 1):
            yield
            self._add_season(sums, season, few if short else everything)
            if short and self._told == points:
                self._add_met(sums.open, season, money)
        for first, last in self._held_alone():
            yield
            seasons = slice(first, last + 1)
            quiet = self._is_quiet(last)
            met = short and not quiet and self._meets(seasons, money)
            weights = self._weighed(self.founders.end, first, everything if met or not short else few)
            # While nobody can breed, anything allowed is nothing bred.
            self._add((sums.alive, sums.open) if quiet else (sums.alive,), weights.at(few), seasons, "alive")
            if not quiet:
                self._add((sums.open,), weights.at(few), seasons, "open")
            if met:
                self._add_one_by_one(sums.open, weights.at(money), seasons, "met", money)

    def _add_barren(self, sums: Seasons, points: slice) -> None:
        """The same where every egg is a slug: nothing can be held, and no goal met."""
        laid: Complex | None = None
        for dam, times in Counter(self.dams.values()).items():
            own = raised(self._slugs(dam, points), times)
            laid = own if laid is None else laid * own
        told = self.world.chance if laid is None else self.world.chance * laid
        sums.alive[1:, 0, points] += told
        sums.open[1:, 0, points] += told

    def _slugs(self, dam: Dam, points: slice) -> Complex:
        """What a founder lays by the end of each season where every egg is a slug: [seasons, points]."""
        return self.nursing.breeding.kept(("slugs", dam, points.stop), lambda: self._laid(dam, points))

    def _laid(self, dam: Dam, points: slice) -> Complex:
        each = self.nursing.breeding.allowed(dam.female, None, points)
        works, laid = np.full(len(each), dam.works, dtype=complex), []
        for bred in (*dam.seasons, *[None] * (self.route.seasons - len(dam.seasons))):
            works = works if bred is None else works * each
            laid.append(works + (1 - dam.works))
        return np.array(laid)

    def _add_season(self, sums: Seasons, season: int, points: slice) -> None:
        """Add a season in which founders breed, at the first points."""
        own, lives = slice(season, season + 1), self.founders
        self._add((sums.alive,), self._weighed(lives.alive[season], season, points), own, "alive")
        self._add((sums.open,), self._weighed(lives.open[season], season, points), own, "open")

    def _add_met(self, out: Complex, season: int, points: slice) -> None:
        """Add that a row is filled in such a season, where that may be."""
        own, lives = slice(season, season + 1), self.founders
        alive, unfilled = lives.alive[season], lives.open[season]
        if np.abs(unfilled[..., 0] - alive[..., 0]).sum() > ROUNDING or season >= self.route.held.first_breeding:
            self._add_one_by_one(out, self._weighed(unfilled, season, points), own, "open", points)
            less = self._weighed(alive, season, points)
            np.negative(less.weights, out=less.weights)
            self._add_one_by_one(out, less, own, "alive", points)

    def _meets(self, seasons: slice, points: slice) -> bool:
        """Whether a row may be filled in seasons in which only held animals breed."""
        ways = self.lives.places.ways(self.lives.places.before(seasons.start))
        return any(self.rearing.of(fit, "met", seasons, points) is not None for fit in ways.counts)

    def _weighed(self, element: Complex, season: int, points: slice) -> Weights:
        """Ways with their weights, as often as the world is so; before the founders' last season as lives tell them."""
        places = self.lives.told(season) if season <= self.last else None
        found = self.ways(element[..., points], season, points, places)
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

    def _add(self, outs: Sequence[Complex], ways: Weights, seasons: slice, which: Which) -> None:
        """Add what everyone has bred by the end of each of these seasons, at the first points."""
        points = slice(0, ways.weights.shape[-1])
        if points.stop > FEW:
            for out in outs:
                self._add_one_by_one(out, ways, seasons, which, points)
            return
        bred = self.rearing.together(ways.counts, which, points)[:, seasons]
        told = np.add.reduce(self.nursing.algebra.multiply(ways.weights[:, None], bred))
        for out in outs:
            out[seasons, :, points] += told

    def _add_one_by_one(self, out: Complex, ways: Weights, seasons: slice, which: Which, points: slice) -> None:
        """The same for many points."""
        algebra, sums = self.nursing.algebra, out[seasons, :, points]
        for fit, weight in zip(*ways, strict=True):
            bred = self.rearing.of(fit, which, seasons, points)
            if bred is not None:
                sums += algebra.multiply(weight, bred)
            elif which != "met":
                sums += weight

    def ways(self, element: Complex, season: int, points: slice, places: Places | None = None) -> Weights:
        """Weights of what founders bred by who has been held before a season and is fit to breed.

        points: those of the element; places: its algebra, where it is not that of all lots.
        """
        ways = (places or self.lives.places).ways(self.lives.places.before(season))
        return self.rearing.thinned(ways, ways.held(element), season, points)

    def most_bred(self) -> int:
        """The most females bred over all seasons that can be reached."""
        if self.world.barren:
            return sum(map(len, self.route.schedule))
        most = 0
        for season in range(self.route.seasons, 0, -1):
            reached = [(fit, chance > NEGLIGIBLE) for fit, chance in self._reached(season)]
            held = [self.rearing.bred_by(fit)[season] for fit, likely in reached if likely]
            if held:
                most = max(most, sum(map(len, self.route.schedule[:season])) + max(held))
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
        still_open = self.rearing.together(ways.counts, "alive", _CHANCE)[:, season - 1]
        return zip(ways.counts, self._chances_of(ways.weights, still_open), strict=True)

    def taken(self) -> Floats:
        """Expected young held in each season, and what they would have brought: [2, breeding seasons]."""
        found = np.zeros((2, self.route.seasons))
        classes, layout, dams, lives = self.nursing.founding.classes, self.layout, self.dams, self.lives
        if self.last == self.route.seasons:
            # Some can only be held at the very end, when it makes no difference to what is bred.
            layout, dams = layout_and_dams(self.route.held, classes, self.pairs, self.last)
            lives = self.lives_for(self.route.nursing(self.rows, CHANCES).breeding, layout)
        for season, taking in enumerate(lives.taking(list(dams.values())), start=1):
            before = layout.before(season)
            ways = lives.places.ways(layout.before(season + 1))
            earlier = [tuple(own[:n] for own, n in zip(held, before, strict=True)) for held in ways.counts]
            known = {held: self._still_open(season, held) for held in dict.fromkeys(earlier)}
            chances = self._chances_of(ways.held(taking), np.stack([known[held] for held in earlier]))
            number = worth = 0.0
            for held, chance in zip(ways.counts, chances, strict=True):
                for own, lots, first in zip(held, layout.lots, before, strict=True):
                    for lot, n in zip(lots[first:], own[first:], strict=False):
                        number += chance * n
                        worth += chance * n * classes.kept(lot.kind).price
            found[:, season - 1] = number, worth
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

    def endings(self, at_egg: AtEgg, points: slice) -> Generator[None, None, Complex]:
        """What happens at the egg that fills one of the rows, by season, at some points: [breeding seasons, points]."""
        return part_endings(self, at_egg, points)
