"""The chain itself: from season to season, how many are held, with all they do through the seasons looked at."""

from __future__ import annotations

from collections.abc import Generator, Hashable, Sequence
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from core.routes.exact.algebra import Complex, CountAlgebra
from core.routes.exact.breeding import Breeding
from core.routes.exact.chain.bred import Bred
from core.routes.exact.chain.course import Course
from core.routes.exact.chain.fates import ALIVE, ANYTHING, AT, Fates, Look, Variant
from core.routes.exact.chain.filled import step_of
from core.routes.exact.chain.firsts import Firsts
from core.routes.exact.chain.laid import Laid, Run
from core.routes.exact.chain.plans import Plan
from core.routes.exact.chain.seasons import Seasons
from core.routes.exact.chain.shares import Shares, State, Step
from core.routes.exact.chain.sorts import Nest, Sort
from core.routes.exact.clusters import States
from core.routes.exact.eggs import Probe, first_row
from core.routes.exact.ending import AtEgg
from core.routes.exact.filling import Founders
from core.routes.exact.laying import Laying
from core.routes.exact.limits import Room
from core.routes.exact.looks import Rows
from core.routes.result import Floats

if TYPE_CHECKING:
    from core.routes.exact.chain.route import ChainRoute

_NEGLIGIBLE = 1e-16
_STEP = 1e-20
# Numbers kept of young that count for the goal and are held, before those of other founders are let go.
_MOST_FIRSTS = 2_000_000


class LaidBy(NamedTuple):
    """By how many females something is laid, how many numbers it takes for each, and whether they are alike."""

    females: int
    numbers: int
    alike: bool


class Chain:
    """A route's chain for one way of counting the goal, at some points."""

    def __init__(
        self, route: ChainRoute, rows: Rows, algebra: CountAlgebra, probe: Probe, at_egg: AtEgg | None = None
    ) -> None:
        problem, kinds = route.problem, route.shop.kinds
        self._route, self._problem, self._algebra, self._probe = route, problem, algebra, probe
        laying = Laying(problem.biology, algebra, first_row(rows), probe)
        self._breeding = Breeding(laying, kinds.pairs, problem.breeding_seasons, Room())
        self._nest = Nest(problem, kinds, rows, algebra, probe)
        self._shares: dict[tuple[tuple[Founders, int], ...], Shares] = {}
        self._rows: dict[tuple[Founders, Plan], list[Complex]] = {}
        self._weights: dict[tuple[int, tuple[Sort, ...]], list[tuple[States, Complex]]] = {}
        self._sizes: dict[tuple[tuple[Founders, int], ...], int] = {}
        self._firsts: dict[tuple[tuple[Founders, int], ...], Firsts] = {}
        self._taken: dict[Hashable, tuple[float, float]] = {}
        self._fates = Fates(problem, self._breeding, probe, at_egg)
        self._bred = Bred(problem, route.herds, self._breeding, self._fates, algebra, probe)
        self._counts = [herd.count for herd in route.herds]
        self._seasons = Seasons(problem, route.herds)
        # How many products were worked out so far, and of how many elements that were asked for.
        self.products = self.told = 0
        self._nobody: State = ((0, 0),) * len(route.herds)

    def through(self, courses: Sequence[Course], variants: Sequence[Variant]) -> Complex:
        """The goal's counts for each variant, [variants, states, points]; variants by ascending season.

        courses: those of one world in which the same animals breed with each other; summed up.
        """
        found = np.zeros((len(variants), self._algebra.size, self._probe.points), dtype=complex)
        looks = [(course, variant) for variant in variants for course in courses]
        states, width, gone = self._begin(looks), len(courses), 0
        for season in range(1, variants[-1].season + 1):
            now = sum(variant.season == season for _, variant in looks)
            for place, (course, variant) in enumerate(looks[:now]):
                total = sum(weight[place] for state, weight in states.items() if self._there(state, variant))
                last = sum((self._bred.last(course, own) for own in variant.each), start=0 * self._bred.nothing)
                found[(gone + place) // width] += self._algebra.multiply(np.asarray(total) + 0 * last, last)
            looks, gone = looks[now:], gone + now
            if looks:
                states = {state: weight[now:] for state, weight in states.items()}
                states = self._season(looks, season, states)
        return found

    @property
    def summed_up(self) -> int:
        """How many products were worked out so far of what dams breed that are summed up."""
        return self._bred.sums.products

    def sum_up(self, course: Course, season: int) -> None:
        """Works out what dams breed through a season that are summed up."""
        self._bred.last(course, Variant(season, ALIVE))

    def laid(self, course: Course, last: int) -> dict[Hashable, LaidBy]:
        """What is laid through a season while every herd has room, by what is worked out once.

        Raises OutOfReach for too many ways to hold it.
        """
        found: dict[Hashable, LaidBy] = {}
        for season in range(1, last + 1):
            sources = tuple(self._bred.sources(course, season))
            if sources:
                females = sum(times for _, times in sources)
                if sources not in self._sizes:
                    shares, room = self._shares_of(course, season), (False,) * len(self._counts)
                    each = (
                        Laid(plan, shares.runs, self._counts, self._algebra, self._probe).size
                        for plan in shares.plans(room)
                    )
                    self._sizes[sources] = sum(each)
                alike = len(sources) == 1
                key: Hashable = sources[0][0] if alike else sources
                own = LaidBy(females, self._sizes[sources], alike)
                found[key] = max(found.get(key, own), own)
        return found

    def _begin(self, looks: Sequence[Look]) -> dict[State, Complex]:
        one = self._algebra.one(self._probe.points)
        return {self._nobody: np.stack([one for _ in looks])}

    def reached(self, looks: Sequence[Look], season: int) -> dict[State, Floats]:
        """Chances to begin a season with so many held, the goal not met: [looks, the goal's counts]."""
        before = np.stack([self._bred.before(course, season) for course, _ in looks])
        states = self._before(looks, season)
        return {state: self._algebra.multiply(own, before)[..., 0].real for state, own in states.items()}

    def _before(self, looks: Sequence[Look], season: int) -> dict[State, Complex]:
        """The same but for what dams did that are summed up."""
        states = self._begin(looks)
        for earlier in range(1, season):
            states = self._season(looks, earlier, states)
        return states

    def counted_and_held(self, courses: Sequence[Course], season: int) -> Generator[None, None, Floats]:
        """Expected young of a season that count for the goal and are held, and what they would have brought."""
        found, sources = np.zeros(2), tuple(self._bred.sources(courses[0], season))
        firsts = self._firsts_of(sources)
        females = [
            female for female, pair in self._bred.pairs(courses[0], season) if self._bred.is_source(pair, season)
        ]
        for number, female in enumerate(females):
            yield
            looks = [(course, Variant(season, AT, female)) for course in courses]
            others = np.stack([self._bred.others(course, variant) for course, variant in looks])
            for state, chances in self._before(looks, season).items():
                counts = zip(state, self._counts, self._seasons.closed(season), strict=True)
                free = [0 if closed else count - held for (held, _), count, closed in counts]
                begun = self._algebra.multiply(chances, others).sum(axis=0)[:, 0].real
                found += (yield from firsts.held(number, free)) @ begun
        return found

    def _firsts_of(self, sources: tuple[tuple[Founders, int], ...]) -> Firsts:
        if sources not in self._firsts:
            if sum(firsts.kept for firsts in self._firsts.values()) > _MOST_FIRSTS:
                self._firsts.clear()
            self._firsts[sources] = Firsts(self._runs(sources), self._counts, self._problem.biology, self._algebra)
        return self._firsts[sources]

    def taken(self, course: Course, season: int, state: State) -> tuple[float, float]:
        """Expected young held at the end of a season, and what they would have brought."""
        # Neither who else breeds nor how many of those held are fit makes a difference.
        key = (
            tuple(self._bred.sources(course, season)),
            tuple(self._seasons.closed(season)),
            tuple(held for held, _ in state),
        )
        if key not in self._taken:
            self._taken[key] = self._take(course, season, state)
        return self._taken[key]

    def _take(self, course: Course, season: int, state: State) -> tuple[float, float]:
        marks = 1j * _STEP

        def marked(_herd: int, sorts: tuple[Sort, ...], _rank: int | None) -> Complex:
            each = [sort.weight * np.array([1, 1 + marks, 1 + marks * sort.price]) for sort in sorts]
            total: Complex = np.sum(each, axis=0)
            return total

        shares, step = self._held(course, season, state)
        after = shares.filled(step, {state: self._algebra.one(1)}, self._algebra, marked)
        total = sum(weight.sum(axis=0) for weight in after.values()) + np.zeros(3, dtype=complex)
        return float(total[1].imag / _STEP), float(total[2].imag / _STEP)

    def check_held(self, course: Course, season: int) -> None:
        """Raises OutOfReach where a season's young can be held in too many ways; nobody being held, there are most."""
        # Seasons with the same sources differ only in what held ones are told apart by.
        if not self._shares_of(course, season).steps:
            self._held(course, season, self._nobody)

    def _held(self, course: Course, season: int, state: State) -> tuple[Shares, Step]:
        """How young are held in a season, whatever becomes of them."""
        own = self._seasons.of([(course, Variant(season, ANYTHING))], season, self._counts)
        nobody = (0,) * len(self._counts)
        free = own._replace(bound=(None,) * len(self._counts), least=nobody, risky=False)
        shares = self._shares_of(course, season)
        return shares, step_of(shares, free, [state])

    def most_bred(self, courses: Sequence[Course], last: int) -> int:
        """The most females bred through a season, over all ways on which it may be reached."""
        course = courses[0]
        known = self._bred.most_matings(course, last)
        looks = [(course, Variant(last, ANYTHING)) for course in courses]
        states = {state: (weight, known) for state, weight in self._begin(looks).items()}
        for season in range(1, last):
            after: dict[State, tuple[Complex, int]] = {}
            for state, (weight, bred) in states.items():
                for onward, part in self._season(looks, season, {state: weight}, self._counts).items():
                    if self._algebra.total(part)[:, 0].real.max() <= _NEGLIGIBLE:
                        continue
                    total = bred + self._held_bred(course, season, last, state, onward)
                    old = after.get(onward)
                    after[onward] = (part, total) if old is None else (old[0] + part, max(old[1], total))
            states = after
        return max((bred for _, bred in states.values()), default=0)

    def _held_bred(self, course: Course, season: int, last: int, before: State, after: State) -> int:
        ranks = (
            (herd, rank)
            for herd, ((_, fit), (_, now)) in enumerate(zip(before, after, strict=True))
            for rank in range(fit, now)
        )
        return sum(male is not None for place in ranks for male in self._fates.males(course, *place, season)[:last])

    # A season.

    def _season(
        self, looks: Sequence[Look], season: int, states: dict[State, Complex], ranks: Sequence[int] | None = None
    ) -> dict[State, Complex]:
        course = looks[0][0]
        each = [self._bred.alive(own, season) for own, _ in looks]
        if any(own is not self._bred.nothing for own in each):
            plain = each[0] if all(own is each[0] for own in each) else np.stack(each)
            states = {state: self._algebra.multiply(weight, plain) for state, weight in states.items()}
        own, shares = self._seasons.of(looks, season, ranks), self._shares_of(course, season)
        if not shares.runs:
            return {state: weight for state, weight in states.items() if _enough(state, own.least)}
        known: dict[tuple[object, ...], Complex] = {}

        def weigh(herd: int, sorts: tuple[Sort, ...], rank: int | None) -> Complex:
            total: Complex | None = None
            for own, weight in self._by_states(herd, sorts):
                key = herd, own, rank
                if key not in known:
                    known[key] = self._fates.tag(looks, season, *key)
                part = self._algebra.multiply(known[key], weight)
                total = part if total is None else np.add(total, part, out=total)
            assert total is not None
            return total

        step = step_of(shares, own, states)
        self.products += step.recipe.products
        self.told += len(step.recipe.told)
        return shares.filled(step, states, self._algebra, weigh)

    def _by_states(self, herd: int, sorts: tuple[Sort, ...]) -> list[tuple[States, Complex]]:
        """What young of these sorts may be for a herd, and their weights together."""
        key = herd, sorts
        if key not in self._weights:
            found: dict[States, Complex] = {}
            for sort in sorts:
                own = sort.states[herd]
                found[own] = found[own] + sort.weight if own in found else sort.weight
            self._weights[key] = list(found.items())
        return self._weights[key]

    def _runs(self, sources: Sequence[tuple[Founders, int]]) -> list[Run]:
        return [Run(self._nest.eggs(pair), pair.works, times) for pair, times in sources]

    def _shares_of(self, course: Course, season: int) -> Shares:
        sources = tuple(self._bred.sources(course, season))
        if sources not in self._shares:
            runs, counts, algebra, probe = self._runs(sources), self._counts, self._algebra, self._probe
            biology = self._problem.biology

            alone, rows = len(sources) == 1, self._rows

            # With the chain itself in hand both would stay until garbage is looked for.
            def laid(plan: Plan) -> tuple[Laid, Complex]:
                found = Laid(plan, runs, counts, algebra, probe)
                if not alone:
                    return found, found.weights(runs, biology, probe)
                [(pair, times)] = sources
                # What fewer females like these lay is on the way to what more of them do.
                row = rows.setdefault((pair, plan), [found.nothing()])
                while len(row) <= times:
                    row.append(found.female(row[-1], 0, runs[0], biology, probe))
                return found, row[times]

            self._shares[sources] = Shares(runs, laid)
        return self._shares[sources]

    def _there(self, state: State, variant: Variant) -> bool:
        own = variant.animal
        if own is None or not self._problem.herds[own.herd].held:
            return True
        herd = [h.index for h in self._route.herds].index(own.herd)
        return state[herd][1] > own.place


def _enough(state: State, least: Sequence[int]) -> bool:
    """Whether so many at least are fit of every herd."""
    return all(fit >= own for (_, fit), own in zip(state, least, strict=True))
