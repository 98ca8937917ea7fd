"""One season's young of the founders: what they do for the goal, and which of them are held back."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from core.routes.calendar import Mating
from core.routes.exact.algebra import Complex, CountAlgebra
from core.routes.exact.brood import Classes, HoldClass, filling_algebra
from core.routes.exact.clusters import Breeding
from core.routes.exact.eggs import Laying, Probe, SeasonWeights, Step
from core.routes.exact.ending import AtEgg, Standing, Standings
from core.routes.exact.founding import FounderWorld
from core.routes.problem import Herd, Problem

KeptByHerd = list[list[tuple[HoldClass, int]]]


@dataclass(frozen=True, eq=False)
class Look:
    """One way of looking at the goal at one set of points, in one world of the founders."""

    breeding: Breeding
    classes: Classes
    world: FounderWorld
    rows: tuple[int, ...]

    @property
    def probe(self) -> Probe:
        """The points."""
        return self.breeding.laying.probe

    def states(self, mating: Mating) -> tuple[int | None, int, float] | None:
        """The male's number (None: idle), the female's, and the chance that she works; None where she does not."""
        female, male = self.world.states[mating.female], self.world.states[mating.male]
        if not female:
            return None
        return (male[0][0] if male else None), *female[0]

    def mating(self, mating: Mating) -> SeasonWeights | None:
        """The season of one founder with another; None where nothing is laid."""
        found = self.states(mating)
        if found is None:
            return None
        male, female, works = found
        season = self.breeding.season(female, male)
        if works == 1:
            return season
        one = self.breeding.algebra.one(self.probe.points)
        return SeasonWeights(works * season.alive + (1 - works) * one, works * season.allowed + 1 - works)

    def standing(self, mating: Mating, season: int, at_egg: AtEgg) -> Standings:
        """One founder's place in a season's order of laying; earlier seasons are not hers to answer for."""
        algebra = self.breeding.algebra
        one = algebra.one(self.probe.points)
        alive, at = np.stack([one] * (season + 1)), np.zeros((season + 1, *one.shape), dtype=complex)
        weights, found = self.mating(mating), self.states(mating)
        if weights is not None and found is not None:
            male, female, works = found
            alive[season] = weights.alive
            if male is not None:
                pair = self.breeding.pairs[male, female]
                within, egg = self.breeding.laying.ending(pair)
                at[season] = works * at_egg(algebra, within, egg, pair)
        return [(1.0, [Standing(mating.female, alive, at)])]


@dataclass(frozen=True, eq=False)
class Filling:
    """A season's young as an element over the goal's counts and the young held of each class."""

    algebra: CountAlgebra
    classes: list[list[HoldClass]]
    element: Complex

    def parts(self, goal: CountAlgebra) -> Iterator[tuple[KeptByHerd, Complex]]:
        """Every way of holding, with its weight over the goal's states."""
        index = {state: i for i, state in enumerate(goal.states)}
        by_kept: dict[tuple[tuple[int, ...], ...], Complex] = {}
        for (counts, kept), weight in zip(self.algebra.states, self.element, strict=True):
            if kept not in by_kept:
                by_kept[kept] = np.zeros((goal.size, len(weight)), dtype=complex)
            by_kept[kept][index[counts]] += weight
        for kept, part in by_kept.items():
            herds = zip(self.classes, kept, strict=True)
            yield [[(kind, n) for kind, n in zip(kinds, counts, strict=True) if n] for kinds, counts in herds], part


def fill(
    look: Look, problem: Problem, herds: Sequence[Herd], pairs: Sequence[Mating], vacancies: Sequence[int]
) -> Filling | None:
    """The season's filling; None where nothing can be held."""
    fertile = [(mating, *found) for mating in pairs if (found := look.states(mating)) and found[0] is not None]
    orders = [_order(look, herd, fertile, free) for herd, free in zip(herds, vacancies, strict=True)]
    if not any(orders):
        return None
    classes = [[kind for kind, _ in order] for order in orders]
    algebra = filling_algebra([problem.wanted[row] for row in look.rows], classes, vacancies)
    one = algebra.one(look.probe.points)
    element = one
    run_of = _runs(fertile)
    for mating, run in zip(fertile, run_of, strict=True):
        element = algebra.multiply(element, _clutches(look, problem, herds, orders, algebra, mating, run))
    for mating in pairs:
        found = look.states(mating)
        if found is not None and found[0] is None:
            weights = look.mating(mating)
            assert weights is not None
            element = element * weights.allowed
    return Filling(algebra, classes, element)


Fertile = tuple[Mating, int | None, int, float]
Order = list[tuple[HoldClass, int]]


def _runs(fertile: Sequence[Fertile]) -> list[int]:
    """Neighbours in the laying order whose young are alike share a run."""
    runs: list[int] = []
    for place, (mating, male, female, _) in enumerate(fertile):
        before = fertile[place - 1] if place else None
        same = before is not None and (before[0].pairing, *before[1:3]) == (mating.pairing, male, female)
        runs.append(runs[-1] if same else len(set(runs)))
    return runs


def _order(look: Look, herd: Herd, fertile: Sequence[Fertile], free: int) -> Order:
    """The classes a herd can be filled from, best first: by preference, then by the order of laying."""
    if free <= 0:
        return []
    found = {
        (level, run): HoldClass(herd.index, level, male, female)
        for (mating, male, female, _), run in zip(fertile, _runs(fertile), strict=True)
        if mating.pairing in herd.sources and male is not None
        for level in range(len(herd.picks))
    }
    return [(kind, run) for (_, run), kind in sorted(found.items()) if look.classes.kept(kind).chance > 0]


def _clutches(
    look: Look,
    problem: Problem,
    herds: Sequence[Herd],
    orders: Sequence[Order],
    algebra: CountAlgebra,
    fertile: Fertile,
    run: int,
) -> Complex:
    """One founder's season as an element of the filling."""
    mating, male, female, works = fertile
    assert male is not None
    step_of = _step_of(look, herds, orders, mating, run)
    season = Laying(problem.biology, algebra, step_of, look.probe).season(look.breeding.pairs[male, female]).alive
    return season if works == 1 else works * season + (1 - works) * algebra.one(look.probe.points)


def _step_of(look: Look, herds: Sequence[Herd], orders: Sequence[Order], mating: Mating, run: int) -> Step:
    """Steps of the filling: the goal's rows, then every class of every herd."""
    places: dict[tuple[int, int], int] = {}
    step = len(look.rows)
    for herd, order in zip(herds, orders, strict=True):
        for kind, of_run in order:
            if of_run == run:
                places[herd.index, kind.level] = step
            step += 1
    feeding = [herd for herd in herds if mating.pairing in herd.sources]

    def step_of(mask: int) -> int | None:
        for place, row in enumerate(look.rows):
            if mask >> row & 1:
                return place
        for herd in feeding:
            level = look.classes.level(herd, mask)
            if level is not None and (herd.index, level) in places:
                return places[herd.index, level]
        return None

    return step_of
