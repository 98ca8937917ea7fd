"""Held young: vacancies, growing up, what each class may be, and what they cost to keep."""

from __future__ import annotations

import math
from collections.abc import Hashable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import product
from math import comb
from typing import NamedTuple

from core.routes.exact.algebra import CountAlgebra
from core.routes.exact.clusters import Raised, States
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


class Pen(NamedTuple):
    """One held herd: places that stay empty for good, and its animals in the order in which they were held."""

    empty: int
    entries: tuple[Entry, ...]


# Per held herd, in herd order.
Nursery = tuple[Pen, ...]


class HeldHerds:
    """The held herds of a route."""

    def __init__(self, problem: Problem) -> None:
        self._prices = problem.prices
        self._reaches = problem.biology.reaches
        self.herds = tuple(herd for herd in problem.herds if herd.held)
        self._matures = [problem.biology.matures[herd.sex] for herd in self.herds]
        self.alone = [_stands_alone(problem, herd) for herd in self.herds]
        self._seasons = problem.breeding_seasons
        self._firsts = [[problem.pairings[source].first for source in herd.sources] for herd in self.herds]
        self._last = [last_hold(problem, herd) for herd in self.herds]
        self._raised: dict[tuple[int, int], Raised] = {}
        self.nobody: Nursery = (Pen(0, ()),) * len(self.herds)

    @cached_property
    def first_breeding(self) -> int:
        """The first season in which any of them may be breeder-size."""
        return min(max(1, min(firsts)) + matures for firsts, matures in zip(self._firsts, self._matures, strict=True))

    def vacancies(self, nursery: Nursery, season: int) -> tuple[int, ...]:
        """How many may still be held at the end of a season, per held herd."""
        return tuple(
            0 if season > last else herd.count - pen.empty - sum(entry.fit + entry.unfit for entry in pen.entries)
            for herd, last, pen in zip(self.herds, self._last, nursery, strict=True)
        )

    def begun(self, nursery: Nursery, season: int) -> Nursery:
        """The nursery in step 1 of a season: those due that are not fit leave, and herds past their `until`."""
        return tuple(
            self._begun(herd, pen, season, matures, last)
            for herd, pen, matures, last in zip(self.herds, nursery, self._matures, self._last, strict=True)
        )

    def _begun(self, herd: Herd, pen: Pen, season: int, matures: int, last: int) -> Pen:
        entries = [
            e if herd.there(season) and season < e.season + matures else e._replace(unfit=0) for e in pen.entries
        ]
        gone = sum(old.unfit - new.unfit for old, new in zip(pen.entries, entries, strict=True))
        # Animals that have left stay listed: what they bred before counts.
        return Pen(0 if season > last else pen.empty + gone, tuple(e for e in entries if e.fit or e.unfit))

    def breeders(self, nursery: Nursery, season: int) -> tuple[int, ...]:
        """How many members are breeder-size in a season, per held herd; they are the first of their herd."""
        if season < self.first_breeding:
            return (0,) * len(self.herds)
        return tuple(
            sum(e.fit for e in pen.entries if e.season + matures <= season) if herd.there(season) else 0
            for herd, pen, matures in zip(self.herds, nursery, self._matures, strict=True)
        )

    def breeders_by_season(self, nursery: Nursery) -> list[tuple[int, ...]]:
        """The same for all breeding seasons."""
        return list(zip(*map(self._breeders_of, self.herds, nursery, self._matures), strict=True))

    def _breeders_of(self, herd: Herd, pen: Pen, matures: int) -> list[int]:
        """The same for one herd."""
        last = self._seasons if herd.until is None else min(herd.until, self._seasons)
        found = [0] * self._seasons
        for entry in pen.entries:
            for season in range(entry.season + matures, last + 1):
                found[season - 1] += entry.fit
        return found

    def grown(self, nursery: Nursery, season: int) -> Nursery:
        """Only those that matter by a season: breeder-size by then, or followed alone and held before."""
        return tuple(
            Pen(0, tuple(e._replace(unfit=0) for e in pen.entries if e.fit and e.season + (alone or matures) <= season))
            for pen, matures, alone in zip(nursery, self._matures, self.alone, strict=True)
        )

    def members(self, nursery: Nursery) -> tuple[tuple[tuple[HoldClass, Raised | None], ...], ...]:
        """Per held herd, its members in order: their class, and how each is raised where it is followed alone."""
        members = []
        for place, pen in enumerate(nursery):
            raised = [self.raised(place, entry.season) if self.alone[place] else None for entry in pen.entries]
            members.append(
                tuple((e.kind, own) for e, own in zip(pen.entries, raised, strict=True) for _ in range(e.fit))
            )
        return tuple(members)

    def raised(self, place: int, season: int) -> Raised:
        """How a member of a herd that is held in this season is raised."""
        if (place, season) not in self._raised:
            self._raised[place, season] = self._raise(place, season)
        return self._raised[place, season]

    def _raise(self, place: int, season: int) -> Raised:
        herd, due, prices = self.herds[place], season + self._matures[place], self._prices
        fit: list[float | None] = []
        for now in range(1, self._seasons + 1):
            there = now > season and herd.there(now)
            fit.append((prices.keep_young if now < due else prices.keep_adult) if there else None)
        return Raised(self._reaches, tuple(fit), tuple(fit[: due - 1]) + (None,) * (self._seasons - due + 1))

    def there(self, nursery: Nursery, season: int) -> tuple[int, int]:
        """How many breeder-size and how many growing animals are there in step 2 of a season that has begun.

        Of herds whose members are followed alone, none: their keep is told with them.
        """
        adult = growing = 0
        for herd, pen, matures, alone in zip(self.herds, nursery, self._matures, self.alone, strict=True):
            for entry in pen.entries if herd.there(season) and not alone else ():
                if season >= entry.season + matures:
                    adult += entry.fit
                else:
                    growing += entry.fit + entry.unfit
        return adult, growing

    def joined(
        self, nursery: Nursery, season: int, kept: Sequence[Sequence[tuple[HoldClass, int]]]
    ) -> Iterator[tuple[Nursery, float]]:
        """Every nursery that holding these young in this season can lead to, with its chance."""
        choices = [self._ways(place, season, herd) for place, herd in enumerate(kept)]
        for choice in product(*choices):
            chance = 1.0
            for _, weight in choice:
                chance *= weight
            yield tuple(_with(pen, fresh) for pen, (fresh, _) in zip(nursery, choice, strict=True)), chance

    def _ways(
        self, place: int, season: int, kept: Sequence[tuple[HoldClass, int]]
    ) -> list[tuple[tuple[Entry, ...], float]]:
        """How many of the young held for one herd will be fit to breed."""
        if self.alone[place]:
            return [(tuple(Entry(season, kind, count, 0) for kind, count in kept), 1.0)]
        if season + self._matures[place] > self._seasons:
            # They will not breed in time: that they are there is all that counts.
            count = sum(number for _, number in kept)
            idle = HoldClass(self.herds[place].index, 0, 0, 0)
            return [((Entry(self._seasons, idle, count, 0),) if count else (), 1.0)]
        ways = product(*(self._fit(season, kind, count) for kind, count in kept))
        return [(tuple(entry for entry, _ in way), math.prod(weight for _, weight in way)) for way in ways]

    def _fit(self, season: int, kind: HoldClass, count: int) -> list[tuple[Entry, float]]:
        fit = self._reaches
        ways = ((able, comb(count, able) * fit**able * (1 - fit) ** (count - able)) for able in range(count + 1))
        return [(Entry(season, kind, able, count - able), chance) for able, chance in ways if chance > 0]


def _with(pen: Pen, fresh: tuple[Entry, ...]) -> Pen:
    """A pen with more entries; alike ones are joined."""
    entries = pen.entries
    if entries and fresh and entries[-1][:2] == fresh[0][:2]:
        joined = entries[-1]._replace(fit=entries[-1].fit + fresh[0].fit)
        return Pen(pen.empty, (*entries[:-1], joined))
    return Pen(pen.empty, entries + fresh)


def _stands_alone(problem: Problem, herd: Herd) -> bool:
    """Whether each member breeds with one and the same founder whatever becomes of the others.

    So it is for females with a single male who is there all the time and never has more females than he can serve.
    """
    pairings = [pairing for pairing in problem.pairings if herd.index in (*pairing.males, *pairing.females)]
    if herd.sex == "male" or not pairings:
        return False
    males = {pairing.males[0] for pairing in pairings}
    if len(males) > 1:
        return False
    male = problem.herds[males.pop()]
    if male.held or male.count != 1 or male.arrives > 1 or male.ready != 1 or male.until is not None:
        return False
    return max(_served(problem, male), default=0) <= problem.biology.load


def _served(problem: Problem, male: Herd) -> list[int]:
    """The most females that may be put to a male in each breeding season."""
    grown, found = 1 + problem.biology.matures["female"], [0] * problem.breeding_seasons
    courts = [pairing for pairing in problem.pairings if male.index in pairing.males]
    for herd in problem.herds:
        first = max(herd.arrives, grown if herd.ready is None else herd.ready)
        last = len(found) if herd.until is None else min(herd.until, len(found))
        for season in range(first, last + 1):
            if any(p.first <= season <= p.last for p in courts if herd.index in p.females):
                found[season - 1] += herd.count
    return found


def last_hold(problem: Problem, herd: Herd) -> int:
    """The last season at whose end young may be held for a herd."""
    last = max(problem.pairings[source].last for source in herd.sources)
    return last if herd.until is None else min(last, herd.until - 1)


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
        # How young of a season can be held and count, by how many classes and vacancies there are.
        self.algebras: dict[Hashable, CountAlgebra] = {}

    def kept(self, kind: HoldClass) -> Kept:
        """What is known of the young of a class."""
        found = self._known.get(kind)
        if found is None:
            found = self._known[kind] = self._work_out(kind)
        return found

    def _work_out(self, kind: HoldClass) -> Kept:
        problem, pairs = self._problem, self._kinds.pairs
        herd = problem.herds[kind.herd]
        total, worth = 0.0, 0.0
        genotypes: dict[Genotype, float] = {}
        for (mask, genotype), weight in problem.young(pairs.males[kind.male], pairs.females[kind.female]).items():
            if mask & self._barred or level_of(herd, mask) != kind.level:
                continue
            total += weight
            worth += weight * problem.price(mask)
            genotypes[genotype] = genotypes.get(genotype, 0.0) + weight
        if total == 0:
            return Kept(0.0, 0.0, ())
        shares = [(genotype, weight / total) for genotype, weight in genotypes.items()]
        hatch = problem.biology.fertile * problem.biology.hatches
        return Kept(total * hatch, worth / total, self._kinds.held_states(herd, shares))


def level_of(herd: Herd, mask: int) -> int | None:
    """The first preference of a held herd that a young fits."""
    return next((level for level, pick in enumerate(herd.picks) if mask >> pick & 1), None)
