"""The chain itself: from season to season, how many are held, with all they do through the seasons looked at."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import groupby
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from core.routes.calendar import Animal, Mating
from core.routes.exact.algebra import Complex, CountAlgebra
from core.routes.exact.chain.filled import Filler, State
from core.routes.exact.chain.herds import last_hold
from core.routes.exact.chain.laid import Laid, Run
from core.routes.exact.chain.plans import Plan
from core.routes.exact.chain.sorts import Nest, Sort
from core.routes.exact.clusters import Breeding, Mates, States
from core.routes.exact.eggs import Laying, Probe, first_row
from core.routes.exact.ending import AtEgg, ending
from core.routes.exact.filling import Founders
from core.routes.exact.founding import FounderWorld
from core.routes.exact.limits import Room
from core.routes.exact.looks import Rows

if TYPE_CHECKING:
    from core.routes.exact.chain.route import ChainRoute

ALIVE, ANYTHING, AT = "alive", "anything", "at"
_NEGLIGIBLE = 1e-16
_STEP = 1e-20


class Variant(NamedTuple):
    """What is looked at: goal not met through a season, anything in that season, or what happens AT one's eggs."""

    season: int
    kind: str
    animal: Animal | None = None


class Chain:
    """A route's chain for one way of counting the goal, at some points."""

    def __init__(
        self, route: ChainRoute, rows: Rows, algebra: CountAlgebra, probe: Probe, at_egg: AtEgg | None = None
    ) -> None:
        problem, kinds = route.problem, route.shop.kinds
        self._route, self._problem, self._algebra, self._probe = route, problem, algebra, probe
        self._at_egg = at_egg
        laying = Laying(problem.biology, algebra, first_row(rows), probe)
        self._breeding = Breeding(laying, kinds.pairs, problem.breeding_seasons, Room())
        self._nest = Nest(problem, kinds, rows, algebra, probe)
        self._laid: dict[tuple[object, ...], tuple[Laid, Complex]] = {}
        self._counts = [herd.count for herd in route.herds]
        self._nobody: State = ((0, 0),) * len(route.herds)

    def through(self, world: FounderWorld, variants: Sequence[Variant]) -> Complex:
        """The goal's counts for each variant, [variants, states, points]; variants by ascending season."""
        found = np.zeros((len(variants), self._algebra.size, self._probe.points), dtype=complex)
        one = self._algebra.one(self._probe.points)
        states = {self._nobody: world.chance * np.repeat(one[None], len(variants), axis=0)}
        for season in range(1, variants[-1].season + 1):
            now = sum(variant.season == season for variant in variants)
            ended, variants = variants[:now], variants[now:]
            first = len(found) - len(variants) - now
            for place, variant in enumerate(ended):
                total = sum(weight[place] for state, weight in states.items() if self._there(state, variant))
                found[first + place] = self._algebra.multiply(np.asarray(total) + 0 * one, self._last(world, variant))
            if variants:
                states = {state: weight[now:] for state, weight in states.items()}
                states = self._season(world, season, states, variants)
        return found

    def before(self, world: FounderWorld, variant: Variant) -> dict[State, float]:
        """Chances to begin a season with so many held, the goal not met."""
        one = self._algebra.one(self._probe.points)
        states = {self._nobody: world.chance * one[None]}
        for season in range(1, variant.season):
            states = self._season(world, season, states, [variant])
        return {state: float(self._algebra.total(weight)[0, 0].real) for state, weight in states.items()}

    def taken(self, world: FounderWorld, season: int, state: State) -> tuple[float, float]:
        """Expected young held at the end of a season, and what they would have brought."""
        marks = 1j * _STEP

        def marked(_herd: int, sort: Sort, _rank: int | None) -> Complex:
            one: Complex = sort.weight * np.array([1, 1 + marks, 1 + marks * sort.price])
            return one

        laid = self._laid_of(world, season)
        filler = Filler(self._algebra, self._counts, self.runs(world, season), laid, marked, risky=False)
        after = filler.filled({state: self._algebra.one(1)}, self._closed(season))
        total = sum(weight.sum(axis=0) for weight in after.values()) + np.zeros(3, dtype=complex)
        return float(total[1].imag / _STEP), float(total[2].imag / _STEP)

    def most_bred(self, world: FounderWorld) -> int:
        """The most females bred over all seasons that may be reached."""
        most = 0
        for last in range(1, self._route.seasons + 1):
            known = sum(
                self._is_founder(m) and bool(world.states[m.female]) for o in self._route.order[:last] for m in o
            )
            variant = Variant(last, ANYTHING)
            states = {self._nobody: (world.chance * self._algebra.one(1)[None], known)}
            for season in range(1, last):
                after: dict[State, tuple[Complex, int]] = {}
                for state, (weight, bred) in states.items():
                    for onward, part in self._season(world, season, {state: weight}, [variant]).items():
                        if self._algebra.total(part)[0, 0].real <= _NEGLIGIBLE:
                            continue
                        total = bred + self._bred(world, season, last, state, onward)
                        old = after.get(onward)
                        after[onward] = (part, total) if old is None else (old[0] + part, max(old[1], total))
                states = after
            most = max([most, *(bred for _, bred in states.values())])
        return most

    def _bred(self, world: FounderWorld, season: int, last: int, before: State, after: State) -> int:
        ranks = (
            (herd, rank)
            for herd, ((_, fit), (_, now)) in enumerate(zip(before, after, strict=True))
            for rank in range(fit, now)
        )
        return sum(isinstance(m, int | None) for place in ranks for m in self._mates(world, *place, season)[:last])

    # A season.

    def _season(
        self, world: FounderWorld, season: int, states: dict[State, Complex], variants: Sequence[Variant]
    ) -> dict[State, Complex]:
        plain = self._alive(world, season)
        states = {state: self._algebra.multiply(weight, plain) for state, weight in states.items()}
        runs = self.runs(world, season)
        if not runs:
            return states
        known: dict[tuple[object, ...], Complex] = {}

        def weigh(herd: int, sort: Sort, rank: int | None) -> Complex:
            key = herd, sort.states[herd], rank
            if key not in known:
                known[key] = self._tag((world, season), variants, *key)
            return self._algebra.multiply(known[key], sort.weight)

        risky = self._problem.biology.reaches < 1
        laid = self._laid_of(world, season)
        return Filler(self._algebra, self._counts, runs, laid, weigh, risky=risky).filled(states, self._closed(season))

    def _closed(self, season: int) -> list[bool]:
        return [season > last_hold(self._problem, herd) for herd in self._route.herds]

    def _feeds(self, pairing: int, season: int) -> bool:
        closed = zip(self._route.herds, self._closed(season), strict=True)
        return any(pairing in herd.sources and not shut for herd, shut in closed)

    def _is_founder(self, mating: Mating) -> bool:
        return not self._problem.herds[mating.female.herd].held

    def _pairs(self, world: FounderWorld, season: int) -> list[tuple[Animal, Founders]]:
        found = []
        for mating in self._route.order[season - 1]:
            if self._is_founder(mating) and world.states[mating.female]:
                male, female = world.states[mating.male], world.states[mating.female]
                pair = Founders(mating.pairing, male[0][0] if male else None, *female[0])
                found.append((mating.female, pair))
        return found

    def _sources(self, world: FounderWorld, season: int) -> list[tuple[Founders, int]]:
        pairs = (pair for _, pair in self._pairs(world, season))
        feeding = (pair for pair in pairs if pair.male is not None and self._feeds(pair.pairing, season))
        return [(pair, len(list(same))) for pair, same in groupby(feeding)]

    def runs(self, world: FounderWorld, season: int) -> list[Run]:
        """The founders whose young may be held, in laying order."""
        return [Run(self._nest.eggs(pair), pair.works, times) for pair, times in self._sources(world, season)]

    def _laid_of(self, world: FounderWorld, season: int) -> Callable[[Plan], tuple[Laid, Complex]]:
        runs, sources = self.runs(world, season), tuple(self._sources(world, season))

        def laid(plan: Plan) -> tuple[Laid, Complex]:
            key = sources, plan.statuses
            if key not in self._laid:
                found = Laid(plan, runs, self._counts, self._algebra, self._probe)
                self._laid[key] = found, found.weights(runs, self._problem.biology, self._probe)
            return self._laid[key]

        return laid

    def _alive(self, world: FounderWorld, season: int) -> Complex:
        """Founders whose young are not held, through a season."""
        total = self._algebra.one(self._probe.points)
        for _, pair in self._pairs(world, season):
            if pair.male is None or not self._feeds(pair.pairing, season):
                total = self._algebra.multiply(total, self._one(pair))
        return total

    def _one(self, pair: Founders) -> Complex:
        season = self._breeding.season(pair.female, pair.male).alive
        return pair.works * season + (1 - pair.works) * self._algebra.one(self._probe.points)

    def _last(self, world: FounderWorld, variant: Variant) -> Complex:
        """What founders do in the season looked at."""
        total = self._algebra.one(self._probe.points)
        laid = self._before(variant)
        for female, pair in self._pairs(world, variant.season):
            if variant.kind == ANYTHING:
                allowed = self._breeding.season(pair.female, pair.male).allowed
                total = total * (pair.works * allowed + (1 - pair.works))
            elif female == variant.animal:
                at = 0 * total if pair.male is None else self._at(pair.female, pair.male)
                total = self._algebra.multiply(total, pair.works * at)
            elif female in laid:
                total = self._algebra.multiply(total, self._one(pair))
        if variant.animal is not None and variant.animal in world.states and not world.states[variant.animal]:
            return 0 * total
        return total

    def _at(self, female: int, male: int) -> Complex:
        assert self._at_egg is not None
        return ending(self._breeding, female, male, self._at_egg)

    def _before(self, variant: Variant) -> set[Animal]:
        """The females that have laid before this one's eggs, or all."""
        order = [mating.female for mating in self._route.order[variant.season - 1]]
        return set(order if variant.animal is None else order[: order.index(variant.animal)])

    def _there(self, state: State, variant: Variant) -> bool:
        own = variant.animal
        if own is None or not self._problem.herds[own.herd].held:
            return True
        herd = [h.index for h in self._route.herds].index(own.herd)
        return state[herd][1] > own.place

    # What becomes of a held animal.

    def _mates(self, world: FounderWorld, herd: int, rank: int, season: int) -> Mates:
        own = self._route.herds[herd]
        due, animal = season + self._problem.biology.matures[own.sex], Animal(own.index, rank)
        found: list[int | str | None] = []
        for place, order in enumerate(self._route.order, start=1):
            male = next((m.male for m in order if m.female == animal), None) if place >= due else None
            state = None if male is None else world.states[male]
            found.append("not bred" if state is None else state[0][0] if state else None)
        return tuple(found)

    def _tag(
        self, when: tuple[FounderWorld, int], variants: Sequence[Variant], herd: int, own: States, rank: int | None
    ) -> Complex:
        """What becomes of one held, fit or not, through each season looked at: [variants, states, points]."""
        world, season = when
        reaches, one = self._problem.biology.reaches, self._algebra.one(self._probe.points)
        if rank is None:
            kept = [self._kept(herd, season, variant.season, fit=False) for variant in variants]
            return np.stack([(1 - reaches) * one * weight for weight in kept])
        mates = self._mates(world, herd, rank, season)
        animal = Animal(self._route.herds[herd].index, rank)
        return np.stack(
            [
                reaches * self._kept(herd, season, v.season, fit=True) * self._path(own, mates, animal, v)
                for v in variants
            ]
        )

    def _path(self, own: States, mates: Mates, animal: Animal, variant: Variant) -> Complex:
        path, season = self._breeding.path(own, mates, None), variant.season
        if variant.animal == animal:
            return self._at_path(own, mates, season)
        if variant.kind == ANYTHING:
            found: Complex = path.open[season]
        else:
            found = path.alive[season if animal in self._before(variant) else season - 1]
        return found

    def _at_path(self, own: States, mates: Mates, season: int) -> Complex:
        one = self._algebra.one(self._probe.points)
        total, now = 0 * one, mates[season - 1]
        if not isinstance(now, int):
            return total
        for state, weight in own:
            so_far = weight * one
            for mate in mates[: season - 1]:
                if not isinstance(mate, str):
                    so_far = self._algebra.multiply(so_far, self._breeding.season(state, mate).alive)
            total = total + self._algebra.multiply(so_far, self._at(state, now))
        return total

    def _kept(self, herd: int, held: int, last: int, *, fit: bool) -> Complex:
        """The weight of keeping one from the season after it is held."""
        own, prices = self._route.herds[herd], self._problem.prices
        due = held + self._problem.biology.matures[own.sex]
        paid = np.ones(self._probe.points, dtype=complex)
        for season in range(held + 1, last + 1) if self._probe.tells_keep else ():
            if own.there(season) and (fit or season < due):
                paid = paid * self._probe.keeping(prices.keep_young if season < due else prices.keep_adult, 1)
        return paid
