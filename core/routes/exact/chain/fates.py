"""What becomes of a held animal, from the season in which it is held to the one that is looked at."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from typing import NamedTuple

import numpy as np

from core.routes.calendar import Animal
from core.routes.exact.algebra import Complex
from core.routes.exact.breeding import Breeding
from core.routes.exact.chain.course import Course, Part
from core.routes.exact.clusters import Mates, States
from core.routes.exact.eggs import Probe
from core.routes.exact.ending import AtEgg, ending
from core.routes.problem import Problem

ALIVE, ANYTHING, AT = "alive", "anything", "at"


class Variant(NamedTuple):
    """What is looked at: goal not met through a season, anything in that season, or what happens AT one's eggs.

    also: founders whose eggs are looked at together with hers: by then as many of the held ones have laid.
    """

    season: int
    kind: str
    animal: Animal | None = None
    also: tuple[Animal, ...] = ()

    @property
    def each(self) -> list[Variant]:
        """One for every female whose eggs are looked at; itself where there is none."""
        return [self, *(Variant(self.season, self.kind, founder) for founder in self.also)]


# What the males of a female may be season by season, with the chance that they are.
_Known = tuple[tuple[float, Mates], ...]


class _Young(NamedTuple):
    """One held: since when, for which herd, what it may be, its rank among the fit ones (None: it is not fit)."""

    season: int
    herd: int
    own: States
    rank: int | None


# A course, followed for what is looked at.
Look = tuple[Course, Variant]


def laid_before(course: Course, variant: Variant) -> set[Animal]:
    """The females that have laid before this one's eggs, or all."""
    order = [mating.female for mating in course.order[variant.season - 1]]
    return set(order if variant.animal is None else order[: order.index(variant.animal)])


def at_eggs(course: Course, season: int, held: Collection[int]) -> list[Variant]:
    """Everyone whose eggs are looked at in a season; held: the herds of held animals."""
    able, gone = set(course.bred(season)), 0
    founders: dict[int, list[Animal]] = {}
    found = []
    for mating in course.order[season - 1]:
        if mating.female.herd in held:
            gone += 1
            found.append(Variant(season, AT, mating.female))
        elif mating.female in able:
            founders.setdefault(gone, []).append(mating.female)
    return [*found, *(Variant(season, AT, first, tuple(also)) for first, *also in founders.values())]


def part_of(variant: Variant, animal: Animal, laid: Collection[Animal]) -> Part:
    """What is taken in of a female's seasons for what is looked at; laid: those that have, see `laid_before`."""
    if variant.animal == animal:
        return Part(AT, variant.season)
    if variant.kind == ANYTHING:
        return Part(ANYTHING, variant.season)
    return Part(ALIVE, variant.season if animal in laid else variant.season - 1)


class Fates:
    """What becomes of held animals, at some points."""

    def __init__(self, problem: Problem, breeding: Breeding, probe: Probe, at_egg: AtEgg | None) -> None:
        self._problem, self._breeding, self._probe, self._at_egg = problem, breeding, probe, at_egg
        self._algebra = breeding.algebra
        self._herds = tuple(herd for herd in problem.herds if herd.held)
        self._mates: dict[tuple[Course, int, int, int, int], _Known] = {}
        self._keeps: dict[tuple[int, int, int, bool], Complex] = {}

    def at(self, female: int, male: int) -> Complex:
        """What happens at an egg of a pair."""
        assert self._at_egg is not None
        return ending(self._breeding, female, male, self._at_egg)

    def males(self, course: Course, herd: int, rank: int, season: int) -> Sequence[Animal | None]:
        """The males of one held in a season, by season."""
        own = self._herds[herd]
        due = season + self._problem.biology.matures[own.sex]
        males = course.males(Animal(own.index, rank))
        return [male if place >= due else None for place, male in enumerate(males, start=1)]

    def _known(self, course: Course, herd: int, rank: int, season: int, last: int) -> _Known:
        """What the males may be, and the chance that they are; none where none is met up to the last season."""
        key = course, herd, rank, season, last
        if key not in self._mates:
            males = self.males(course, herd, rank, season)
            self._mates[key] = tuple(course.known(males, last)) if any(males[:last]) else ()
        return self._mates[key]

    def tag(self, looks: Sequence[Look], season: int, herd: int, own: States, rank: int | None) -> Complex:
        """What becomes of one held, fit or not, through each season looked at: [looks, states, points].

        looks: of courses that differ in what held males are alone, so that many of them come to the same.
        """
        found: dict[tuple[Variant, float, _Known], int] = {}
        places, young = [], _Young(season, herd, own, rank)
        for course, variant in looks:
            share = 1.0 if rank is None else course.share(herd, rank, season, own)
            known = self._known(course, herd, rank, season, variant.season) if share and rank is not None else ()
            places.append(found.setdefault((variant, share, known), len(found)))
        each = np.stack([self._fate(looks[0][0], young, *key) for key in found])
        return each if len(each) == len(places) else each[places]

    def _fate(self, course: Course, young: _Young, variant: Variant, share: float, known: _Known) -> Complex:
        """What becomes of one held for one thing that is looked at."""
        (season, herd, own, rank), reaches = young, self._problem.biology.reaches
        kept = self._kept(herd, season, variant.season, fit=rank is not None)
        one = self._algebra.one(self._probe.points)
        if rank is None:
            return (1 - reaches) * one * kept
        animal = Animal(self._herds[herd].index, rank)
        # Who is not bred yet has no egg to look at.
        path = 0 * one if variant.animal == animal else one
        if known:
            part = part_of(variant, animal, laid_before(course, variant))
            path = sum((chance * self._part(own, mates, part) for chance, mates in known), start=0 * one)
        return reaches * share * kept * path

    def _part(self, own: States, mates: Mates, part: Part) -> Complex:
        """What becomes of a female that may be this, with these males season by season."""
        if part.kind == AT:
            return self._at_path(own, mates, part.season)
        path = self._breeding.path(own, mates, None)
        found: Complex = (path.open if part.kind == ANYTHING else path.alive)[part.season]
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
            total = total + self._algebra.multiply(so_far, self.at(state, now))
        return total

    def _kept(self, herd: int, held: int, last: int, *, fit: bool) -> Complex:
        """The weight of keeping one from the season after it is held."""
        key = herd, held, last, fit
        if key not in self._keeps:
            self._keeps[key] = self._keeping(*key)
        return self._keeps[key]

    def _keeping(self, herd: int, held: int, last: int, fit: bool) -> Complex:
        own, prices = self._herds[herd], self._problem.prices
        due = held + self._problem.biology.matures[own.sex]
        paid = np.ones(self._probe.points, dtype=complex)
        for season in range(held + 1, last + 1) if self._probe.tells_keep else ():
            if own.there(season) and (fit or season < due):
                paid = paid * self._probe.keeping(prices.keep_young if season < due else prices.keep_adult, 1)
        return paid
