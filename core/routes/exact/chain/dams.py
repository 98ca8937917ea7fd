"""Dams that go from one male to another: of those whose young are held in the same seasons, so many work.

Who of them does changes nothing of what is held. What else each of them breeds is summed up over who that may be.
"""

from __future__ import annotations

import math
from collections.abc import Hashable, Iterator, Mapping, Sequence
from itertools import groupby, product
from typing import NamedTuple

from core.routes.calendar import Animal, Mating
from core.routes.exact.brood import last_hold
from core.routes.exact.clusters import States
from core.routes.problem import Herd, Problem

# Of a dam, the seasons in which her young may be held, each with the place of her male's turn.
_Fed = tuple[tuple[int, int], ...]


class DamGroup(NamedTuple):
    """Dams of one herd and one genotype; `works`: the chance that one does, `number`: of how many it is said to.

    fed: the seasons in which their young may be held. Where there is none, any number may work (None).
    """

    animals: tuple[Animal, ...]
    kind: int
    works: float
    fed: frozenset[int]
    number: int | None = None

    @property
    def states(self) -> dict[Animal, States]:
        """What is said of each: which of them work makes no difference to what is held."""
        works: States = ((self.kind, 1.0),)
        return {animal: works if place < (self.number or 0) else () for place, animal in enumerate(self.animals)}


class Dams:
    """The dams of a route that are told apart by how many of them work.

    kinds: of each of their herds, the number of their genotype.
    """

    def __init__(self, problem: Problem, held: Sequence[Herd], kinds: Mapping[int, int]) -> None:
        self._problem, self._held, self.kinds = problem, held, kinds
        self._works = problem.biology.works["female"]

    def ways(
        self, states: Mapping[Animal, States], order: Sequence[Sequence[Mating]], last: int, *, at_eggs: bool
    ) -> Iterator[tuple[DamGroup, ...]]:
        """Every number of them that may work, of each group that gives young to hold up to a season.

        states: of all other founders. at_eggs: what else was laid before an egg of that season's is asked for, too.
        """
        groups = self._groups(states, order, last, at_eggs)
        for numbers in product(*map(_numbers, groups)):
            yield tuple(own._replace(number=number) for own, number in zip(groups, numbers, strict=True))

    def count(self, states: Mapping[Animal, States], order: Sequence[Sequence[Mating]], last: int) -> int:
        """How many ways there are, without listing them, where only what is held before is asked for."""
        return math.prod(len(_numbers(own)) for own in self._groups(states, order, last, at_eggs=False))

    def _groups(
        self, states: Mapping[Animal, States], order: Sequence[Sequence[Mating]], last: int, at_eggs: bool
    ) -> list[DamGroup]:
        fed: dict[Animal, list[tuple[int, int]]] = {}
        for season, matings in enumerate(order, start=1):
            for mating in matings:
                if mating.female.herd in self.kinds:
                    fed.setdefault(mating.female, [])
            if season <= last:
                for turn, female in self._feeding(states, matings, season, at_eggs and season == last):
                    fed[female].append((season, turn))
        alike: dict[tuple[int, _Fed], list[Animal]] = {}
        for animal, seasons in fed.items():
            alike.setdefault((animal.herd, tuple(seasons)), []).append(animal)
        return [
            DamGroup(tuple(animals), self.kinds[herd], self._works, frozenset(season for season, _ in seasons))
            for (herd, seasons), animals in alike.items()
        ]

    def _feeding(
        self, states: Mapping[Animal, States], matings: Sequence[Mating], season: int, at_eggs: bool
    ) -> Iterator[tuple[int, Animal]]:
        """The dams whose young may be held in a season; neighbours whose young are alike have the same turn."""

        def young(mating: Mating) -> Hashable:
            if not self._feeds(states, mating, season):
                return None
            female = self.kinds.get(mating.female.herd, states.get(mating.female))
            return mating.pairing, states.get(mating.male), female

        told = [own for own in matings if at_eggs or young(own)]
        for turn, (own, same) in enumerate(groupby(told, key=young)):
            for mating in same if own else ():
                if mating.female.herd in self.kinds:
                    yield turn, mating.female

    def _feeds(self, states: Mapping[Animal, States], mating: Mating, season: int) -> bool:
        able = mating.female.herd in self.kinds or states.get(mating.female)
        return bool(able and states.get(mating.male)) and may_be_held(self._problem, self._held, mating.pairing, season)


def _numbers(group: DamGroup) -> Sequence[int | None]:
    every = len(group.animals)
    return range(0 if group.works < 1 else every, every + 1) if group.fed else (None,)


def may_be_held(problem: Problem, held: Sequence[Herd], pairing: int, season: int) -> bool:
    """Whether a season's young of a pairing may be held for any herd."""
    return any(pairing in herd.sources and season <= last_hold(problem, herd) for herd in held)
