"""Held young: who is kept from a season's young, what they may be, and what they cost to keep."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from math import comb
from typing import NamedTuple

from core.routes.exact.algebra import CountAlgebra
from core.routes.exact.clusters import States
from core.routes.exact.states import Kinds
from core.routes.problem import Genotype, Herd, Problem


class HoldClass(NamedTuple):
    """Young that are alike when held: their herd, their place in its preferences, and the numbers of their parents."""

    herd: int
    level: int
    male: int
    female: int


class Entry(NamedTuple):
    """Young of one class held in one season: how many will be fit to breed when due, and how many will not."""

    season: int
    kind: HoldClass
    fit: int
    unfit: int


# Per held herd, in herd order, its entries in the order in which they were held.
Nursery = tuple[tuple[Entry, ...], ...]


class HeldHerds:
    """The held herds of a route: vacancies, seasons of growing up, and the cost of keep."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.herds = tuple(herd for herd in problem.herds if herd.held)
        self.empty: Nursery = ((),) * len(self.herds)

    def due(self, place: int, entry: Entry) -> int:
        """The season from which a held herd's entry is breeder-size."""
        return entry.season + self.problem.biology.matures[self.herds[place].sex]

    def vacancies(self, nursery: Nursery, season: int) -> tuple[int, ...]:
        """How many may still be held at the end of a season, per held herd."""
        return tuple(
            0 if herd.until is not None and season >= herd.until else herd.count - sum(e.fit + e.unfit for e in entries)
            for herd, entries in zip(self.herds, nursery, strict=True)
        )

    def breeders(self, nursery: Nursery, season: int) -> tuple[int, ...]:
        """How many members are breeder-size, per held herd."""
        return tuple(
            sum(entry.fit for entry in entries if self.due(place, entry) <= season) if herd.there(season) else 0
            for place, (herd, entries) in enumerate(zip(self.herds, nursery, strict=True))
        )

    def present(self, nursery: Nursery, season: int) -> int:
        """How many held animals are there in step 2 of a season."""
        return sum(adult + young for adult, young in self._there(nursery, season))

    def keep(self, nursery: Nursery, season: int) -> float:
        """What keeping them costs in a season."""
        prices = self.problem.prices
        return sum(
            adult * prices.keep_adult + young * prices.keep_young for adult, young in self._there(nursery, season)
        )

    def _there(self, nursery: Nursery, season: int) -> Iterator[tuple[int, int]]:
        """Breeder-size and growing animals in step 2, entry by entry."""
        for place, (herd, entries) in enumerate(zip(self.herds, nursery, strict=True)):
            for entry in entries:
                if not herd.there(season) or season <= entry.season:
                    continue
                if season >= self.due(place, entry):
                    yield entry.fit, 0
                else:
                    yield 0, entry.fit + entry.unfit

    def joined(
        self, nursery: Nursery, season: int, kept: Sequence[Sequence[tuple[HoldClass, int]]]
    ) -> Iterator[tuple[Nursery, float]]:
        """Every nursery that holding these young in this season can lead to, with its chance."""
        fit = self.problem.biology.reaches
        choices = [
            [
                (Entry(season, kind, able, count - able), comb(count, able) * fit**able * (1 - fit) ** (count - able))
                for able in range(count + 1)
            ]
            for herd in kept
            for kind, count in herd
        ]
        lengths = [len(herd) for herd in kept]
        for choice in product(*choices):
            chance = 1.0
            for _, weight in choice:
                chance *= weight
            if chance == 0:
                continue
            entries = iter([entry for entry, _ in choice])
            fresh = [tuple(next(entries) for _ in range(length)) for length in lengths]
            yield tuple(old + new for old, new in zip(nursery, fresh, strict=True)), chance


@dataclass(frozen=True)
class Kept:
    """What is known of the young of one class: chance an egg, mean price when sold, and what they may be."""

    chance: float
    price: float
    states: States


class Classes:
    """What the young of each class may be, given which goal rows they must not fit."""

    def __init__(self, problem: Problem, kinds: Kinds, rows: Sequence[int]) -> None:
        self._problem, self._kinds = problem, kinds
        self._barred = sum(1 << row for row in rows)
        self._known: dict[HoldClass, Kept] = {}

    def level(self, herd: Herd, mask: int) -> int | None:
        """The first preference of a herd that a young fits."""
        return next((level for level, pick in enumerate(herd.picks) if mask >> pick & 1), None)

    def kept(self, kind: HoldClass) -> Kept:
        """What is known of the young of a class."""
        found = self._known.get(kind)
        if found is None:
            found = self._known[kind] = self._work_out(kind)
        return found

    def _work_out(self, kind: HoldClass) -> Kept:
        problem, pairs = self._problem, self._kinds.pairs
        herd = problem.herds[kind.herd]
        hatch = problem.biology.fertile * problem.biology.hatches
        total, worth = 0.0, 0.0
        genotypes: dict[Genotype, float] = {}
        for (mask, genotype), weight in problem.young(pairs.males[kind.male], pairs.females[kind.female]).items():
            if mask & self._barred or self.level(herd, mask) != kind.level:
                continue
            total += weight
            worth += weight * problem.price(mask)
            genotypes[genotype] = genotypes.get(genotype, 0.0) + weight
        if total == 0:
            return Kept(0.0, 0.0, ())
        shares = ((genotype, weight / total) for genotype, weight in genotypes.items())
        return Kept(total * hatch, worth / total, self._kinds.states(herd.sex, shares))


def filling_algebra(
    lacking: Sequence[int], classes: Sequence[Sequence[HoldClass]], vacancies: Sequence[int]
) -> CountAlgebra:
    """Counts along one season: the goal rows, and per held herd the young kept of each class, best class first.

    States are (goal counts, counts per herd). Better classes fill the vacancies first, whatever the order of eggs.
    """
    goal_zero, held_zero = (0,) * len(lacking), tuple((0,) * len(herd) for herd in classes)
    goal_steps = [(_unit(len(lacking), row), held_zero) for row in range(len(lacking))]
    held_steps = [
        (goal_zero, (*held_zero[:herd], _unit(len(kinds), k), *held_zero[herd + 1 :]))
        for herd, kinds in enumerate(classes)
        for k in range(len(kinds))
    ]

    def add(a: Filling, b: Filling) -> Filling | None:
        goal = tuple(x + y for x, y in zip(a[0], b[0], strict=True))
        if any(x >= full for x, full in zip(goal, lacking, strict=True)):
            return None
        return goal, tuple(_filled(x, y, free) for x, y, free in zip(a[1], b[1], vacancies, strict=True))

    return CountAlgebra((goal_zero, held_zero), [*goal_steps, *held_steps], add)


Filling = tuple[tuple[int, ...], tuple[tuple[int, ...], ...]]


def _filled(a: tuple[int, ...], b: tuple[int, ...], free: int) -> tuple[int, ...]:
    kept = []
    for x, y in zip(a, b, strict=True):
        kept.append(min(x + y, free))
        free -= kept[-1]
    return tuple(kept)


def _unit(length: int, place: int) -> tuple[int, ...]:
    return tuple(int(i == place) for i in range(length))
