"""One season's young of the founders: what they do for the goal, and which of them are held back."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from math import comb, prod
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from core.routes.exact.algebra import Complex, CountAlgebra, Indices
from core.routes.exact.breeding import Breeding
from core.routes.exact.brood import Classes, HoldClass, level_of
from core.routes.exact.eggs import Step
from core.routes.exact.ending import AtEgg, Standing, Standings, ending
from core.routes.exact.laying import Laying, SeasonWeights
from core.routes.exact.limits import MOST_FILLINGS, OutOfReach
from core.routes.problem import Herd, Problem

KeptByHerd = list[list[tuple[HoldClass, int]]]


class Founders(NamedTuple):
    """A founder put to another: their pairing, his number (None: idle), hers, and the chance that she works."""

    pairing: int
    male: int | None
    female: int
    works: float


@dataclass(frozen=True, eq=False)
class Filling:
    """A season's young as an element over the goal's counts and the young held of each class."""

    algebra: CountAlgebra
    classes: Sequence[Sequence[HoldClass]]
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


# Per held herd, its classes best first, each with the run of the laying order that it comes from.
Orders = tuple[tuple[tuple[HoldClass, int], ...], ...]


class Founding:
    """Seasons of founders for one way of looking at the goal at one set of points; keeps what repeats."""

    def __init__(self, problem: Problem, breeding: Breeding, rows: Sequence[int], classes: Classes) -> None:
        self.breeding, self.classes = breeding, classes
        self._problem, self._rows = problem, tuple(rows)
        self._lacking = [problem.wanted[row] for row in rows]
        self._herds = tuple(herd for herd in problem.herds if herd.held)
        self._seasons: dict[Founders, SeasonWeights] = {}
        self._all: dict[tuple[Founders, ...], SeasonWeights] = {}
        self._elements: dict[tuple[object, ...], Complex] = {}
        self._runs: dict[tuple[object, ...], Complex] = {}

    def season(self, pairs: tuple[Founders, ...]) -> SeasonWeights:
        """All founders' clutches of a season, whoever is held from them."""
        found = self._all.get(pairs)
        if found is None:
            algebra, points = self.breeding.algebra, self.breeding.laying.probe.points
            alive, allowed = algebra.one(points), np.ones(points, dtype=complex)
            for pair in pairs:
                weights = self.one(pair)
                alive, allowed = algebra.multiply(alive, weights.alive), allowed * weights.allowed
            found = self._all[pairs] = SeasonWeights(alive, allowed)
        return found

    def one(self, pair: Founders) -> SeasonWeights:
        """The season of one founder with another."""
        found = self._seasons.get(pair)
        if found is None:
            found = self.breeding.season(pair.female, pair.male)
            if pair.works < 1:
                idle = (1 - pair.works) * self.breeding.algebra.one(self.breeding.laying.probe.points)
                allowed = pair.works * found.allowed + (1 - pair.works)
                found = SeasonWeights(pair.works * found.alive + idle, allowed)
            self._seasons[pair] = found
        return found

    def standing(self, female: Hashable, pair: Founders, season: int, at_egg: AtEgg, points: slice) -> Standings:
        """A founder's place in a season's order of laying; earlier seasons are not hers to answer for."""
        one = self.breeding.algebra.one(points.stop - points.start)
        alive, at = self.one(pair).alive[..., points], 0 * one
        if pair.male is not None:
            at = pair.works * ending(self.breeding, pair.female, pair.male, at_egg)[..., points]
        return [(1.0, [Standing(female, {season - 1: one, season: alive}, {season: at})])]

    def check(self, pairs: Sequence[Founders], vacancies: tuple[int, ...]) -> None:
        """Raises OutOfReach where a season's young can be held in too many ways."""
        _, orders = self._holds(pairs, vacancies)
        self._check(orders, vacancies)

    def _holds(
        self, pairs: Sequence[Founders], vacancies: tuple[int, ...]
    ) -> tuple[Sequence[tuple[Founders, int]], Orders]:
        """Whose young can be held, in runs, and per herd the classes that it can be filled from."""
        runs = _runs([pair for pair in pairs if pair.male is not None])
        return runs, tuple(self._order(herd, runs, free) for herd, free in zip(self._herds, vacancies, strict=True))

    def fill(self, pairs: Sequence[Founders], vacancies: tuple[int, ...]) -> Filling | None:
        """The season's young as counts; None where nothing can be held."""
        runs, orders = self._holds(pairs, vacancies)
        if not any(orders):
            return None
        algebra = self._algebra(orders, vacancies)
        element: Complex | None = None
        for run, (pair, times) in enumerate(runs):
            laid = self._run(algebra, orders, pair, run, times)
            self.breeding.room.take(laid.size * algebra.effort)
            element = laid if element is None else algebra.multiply(element, laid)
        assert element is not None
        for pair in pairs:
            if pair.male is None:
                element = element * self.one(pair).allowed
        return Filling(algebra, [[kind for kind, _ in order] for order in orders], element)

    def _order(self, herd: Herd, runs: Sequence[tuple[Founders, int]], free: int) -> tuple[tuple[HoldClass, int], ...]:
        """The classes a herd can be filled from, best first: by preference, then by the order of laying."""
        if free <= 0:
            return ()
        found = [
            (HoldClass(herd.index, level, pair.male, pair.female), run)
            for level in range(len(herd.picks))
            for run, (pair, _) in enumerate(runs)
            if pair.pairing in herd.sources and pair.male is not None
        ]
        return tuple((kind, run) for kind, run in found if self.classes.kept(kind).chance > 0)

    def _algebra(self, orders: Orders, vacancies: tuple[int, ...]) -> CountAlgebra:
        key = tuple(len(order) for order in orders), vacancies
        found = self.classes.algebras.get(key)
        if found is None:
            self._check(orders, vacancies)
            found = self.classes.algebras[key] = filling_algebra(self._lacking, key[0], vacancies)
        return found

    def _check(self, orders: Orders, vacancies: tuple[int, ...]) -> None:
        ways = (comb(len(order) + free, free) for order, free in zip(orders, vacancies, strict=True) if order)
        if prod(self._lacking) * prod(ways) > MOST_FILLINGS:
            raise OutOfReach("young can be held in too many ways within a season")

    def _run(self, algebra: CountAlgebra, orders: Orders, pair: Founders, run: int, times: int) -> Complex:
        """Neighbours in the laying order whose young are alike, as an element of the filling."""
        places = _places(orders, run, len(self._rows))
        key = id(algebra), pair, tuple(places.items())
        found = self._elements.get(key)
        if found is None:
            laying = self._laying(algebra, pair, places)
            self.breeding.room.take(laying.effort)
            season = laying.season(self.breeding.pairs[pair.male or 0, pair.female]).alive
            if pair.works < 1:
                season = pair.works * season + (1 - pair.works) * algebra.one(self.breeding.laying.probe.points)
            found = self._elements[key] = season
            self.breeding.room.keep(found.size)
        if times == 1:
            return found
        if (key, times) not in self._runs:
            less = self._run(algebra, orders, pair, run, times - 1)
            self.breeding.room.take(found.size * algebra.effort)
            self._runs[key, times] = algebra.multiply(less, found)
            self.breeding.room.keep(found.size)
        return self._runs[key, times]

    def _laying(self, algebra: CountAlgebra, pair: Founders, places: Mapping[tuple[int, int], int]) -> Laying:
        feeding = [herd for herd in self._herds if pair.pairing in herd.sources]
        step_of = _step_of(self._rows, feeding, places)
        return Laying(self._problem.biology, algebra, step_of, self.breeding.laying.probe)


def filling_algebra(lacking: Sequence[int], classes: Sequence[int], vacancies: Sequence[int]) -> CountAlgebra:
    """Counts along one season: the goal rows, and per held herd the young kept of each class, best class first.

    States are (goal counts, counts per herd). Better classes fill the vacancies first, whatever the order of eggs.
    """
    goal_zero, held_zero = (0,) * len(lacking), tuple((0,) * count for count in classes)
    goal_steps = [(_unit(len(lacking), row), held_zero) for row in range(len(lacking))]
    held_steps = [
        (goal_zero, (*held_zero[:herd], _unit(count, k), *held_zero[herd + 1 :]))
        for herd, count in enumerate(classes)
        for k in range(count)
    ]

    def add(a: _State, b: _State) -> _State | None:
        goal = tuple(x + y for x, y in zip(a[0], b[0], strict=True))
        if any(x >= full for x, full in zip(goal, lacking, strict=True)):
            return None
        return goal, tuple(_filled(x, y, free) for x, y, free in zip(a[1], b[1], vacancies, strict=True))

    return _FillingAlgebra((goal_zero, held_zero), [*goal_steps, *held_steps], add, lacking, vacancies)


class _FillingAlgebra(CountAlgebra):
    """Such counts; with hundreds of states one is joined with all others at a time."""

    def __init__(
        self,
        start: Hashable,
        steps: Sequence[Hashable],
        add: Callable[[_State, _State], _State | None],
        lacking: Sequence[int],
        vacancies: Sequence[int],
    ) -> None:
        super().__init__(start, steps, add)
        self._lacking, self._vacancies = np.array(lacking, dtype=np.intp), vacancies
        self._goal = np.array([goal for goal, _ in self.states], dtype=np.intp)
        self._held = [np.array(own, dtype=np.intp) for own in zip(*(held for _, held in self.states), strict=True)]
        top = [*lacking, *(free + 1 for free, own in zip(vacancies, self._held, strict=True) for _ in own[0])]
        self._worth = np.cumprod([1, *top[:-1]], dtype=np.int64)
        numbers = self._numbers(self._goal, self._held)
        self._order = np.argsort(numbers)
        self._sorted = numbers[self._order]

    def targets(self, state: int) -> Indices:
        """What each state is when joined with one of them; -1 where it falls out."""
        goal = self._goal + self._goal[state]
        held = [own + own[state] for own in self._held]
        for kept, free in zip(held, self._vacancies, strict=True):
            left = np.full(len(kept), free)
            for count in kept.T:
                np.minimum(count, left, out=count)
                left -= count
        out = (goal >= self._lacking).any(axis=1)
        place = self._sorted.searchsorted(self._numbers(goal, held)).clip(max=self.size - 1)
        return np.where(out, -1, self._order[place])

    def _numbers(self, goal: Indices, held: Sequence[Indices]) -> NDArray[np.int64]:
        numbers: NDArray[np.int64] = np.concatenate([goal, *held], axis=1) @ self._worth
        return numbers


_State = tuple[tuple[int, ...], tuple[tuple[int, ...], ...]]


def _filled(a: tuple[int, ...], b: tuple[int, ...], free: int) -> tuple[int, ...]:
    kept = []
    for x, y in zip(a, b, strict=True):
        kept.append(min(x + y, free))
        free -= kept[-1]
    return tuple(kept)


def _unit(length: int, place: int) -> tuple[int, ...]:
    return tuple(int(i == place) for i in range(length))


def _runs(fertile: Sequence[Founders]) -> list[tuple[Founders, int]]:
    """Neighbours in the laying order whose young are alike, with how many there are."""
    return [(pair, len(list(same))) for pair, same in groupby(fertile)]


def _places(orders: Orders, run: int, first: int) -> dict[tuple[int, int], int]:
    """The step of each (herd, preference) that this run can fill; steps are numbered through all herds' classes."""
    steps = [(kind, of_run) for order in orders for kind, of_run in order]
    return {(kind.herd, kind.level): first + step for step, (kind, of_run) in enumerate(steps) if of_run == run}


def _step_of(rows: Sequence[int], feeding: Sequence[Herd], places: Mapping[tuple[int, int], int]) -> Step:
    """Steps of the filling: the goal's rows, then every class of every herd."""

    def step_of(mask: int) -> int | None:
        for place, row in enumerate(rows):
            if mask >> row & 1:
                return place
        for herd in feeding:
            level = level_of(herd, mask)
            if level is not None and (herd.index, level) in places:
                return places[herd.index, level]
        return None

    return step_of
