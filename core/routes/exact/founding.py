"""The true states of a route's founders, one by one, where young are held back from them."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from math import comb

from core.routes.calendar import Animal
from core.routes.exact.clusters import States
from core.routes.exact.schedule import Schedule
from core.routes.exact.states import Kinds
from core.routes.problem import Genotype, Herd, Problem

Options = list[tuple[dict[Animal, States], float]]


# By female, the seasons in which she is bred, each with the pairing and her male.
_Mates = Mapping[Animal, list[tuple[int, int, Animal]]]


@dataclass(frozen=True)
class Telling:
    """What is told apart of founders.

    steady: held animals never change who of the founders breeds with whom. followed: herds whose females are followed
    through all their seasons, so that they may keep their chance of working. aside: herds of which nothing is said.
    """

    steady: bool
    followed: frozenset[int] = frozenset()
    aside: frozenset[int] = frozenset()


@dataclass(frozen=True)
class FounderWorld:
    """One way in which the founders can be, and its chance; a founder with one state of chance 1 is that, () idle.

    A female that breeds in one season only keeps her chance of not working at all: nothing else depends on it.
    """

    chance: float
    states: Mapping[Animal, States]
    # Whether no male works, so that every egg is a slug.
    barren: bool


def founder_worlds(problem: Problem, kinds: Kinds, schedule: Schedule, telling: Telling) -> Iterator[FounderWorld]:
    """Every way in which the founders can be; schedule: matings with nothing held."""
    mates = _mates(schedule)
    for genotypes, chance in problem.together or (((), 1.0),):
        for choice in product(*_options(problem, kinds, genotypes, mates, telling)):
            states = {animal: own for part, _ in choice for animal, own in part.items()}
            barren = not any(own for animal, own in states.items() if problem.herds[animal.herd].sex == "male")
            yield FounderWorld(chance * math.prod(weight for _, weight in choice), states, barren)


def count_worlds(problem: Problem, kinds: Kinds, schedule: Schedule, telling: Telling) -> int:
    """How many worlds there are, without listing them."""
    genotypes = problem.together[0][0] if problem.together else ()
    sizes = map(len, _options(problem, kinds, genotypes, _mates(schedule), telling))
    return math.prod(sizes) * max(1, len(problem.together))


def _options(
    problem: Problem, kinds: Kinds, named: Sequence[Genotype], mates: _Mates, telling: Telling
) -> Iterator[Options]:
    for herd in problem.herds:
        if not herd.held and herd.index not in telling.aside:
            yield from _herd_options(problem, herd, kinds, named, mates, telling)


def wandering(problem: Problem) -> frozenset[int]:
    """Herds of dams of one genotype, some of which may not work, that go to males as held animals leave them."""
    if problem.biology.works["female"] == 1:
        return frozenset()
    return frozenset(index for index in alike(problem) if _bred_together(problem, problem.herds[index]) is None)


def alike(problem: Problem) -> frozenset[int]:
    """Herds of dams of one genotype, any of which may work."""
    return frozenset(
        herd.index
        for herd in problem.herds
        if not herd.held and not herd.named and herd.sex == "female" and len(herd.prior) == 1
        if problem.biology.works["female"] > 0
    )


def _mates(schedule: Schedule) -> _Mates:
    mates: dict[Animal, list[tuple[int, int, Animal]]] = {}
    for season, pairs in enumerate(schedule, start=1):
        for mating in pairs:
            mates.setdefault(mating.female, []).append((season, mating.pairing, mating.male))
    return mates


def _herd_options(
    problem: Problem,
    herd: Herd,
    kinds: Kinds,
    named: Sequence[Genotype],
    mates: _Mates,
    telling: Telling,
) -> Iterator[Options]:
    """Independent choices: the animals each settles, with the chance of each way."""
    works = problem.biology.works[herd.sex]
    animals = [Animal(herd.index, place) for place in range(herd.count)]
    if herd.named:
        for animal, own in zip(animals, herd.named, strict=True):
            yield _alone(animal, [(kinds.number(herd.sex, named[own]), 1.0)], works)
        return
    prior = [(kinds.number(herd.sex, genotype), weight) for genotype, weight in herd.prior]
    together = None if telling.steady or len(prior) > 1 else _bred_together(problem, herd)
    if together is not None:
        yield from (_run(animals[own], prior[0][0], works, once=False) for own in together)
        return
    if herd.sex == "male" or not telling.steady or len(prior) > 1:
        for animal in animals:
            if not telling.steady or herd.sex == "male" or animal in mates:
                yield _alone(animal, prior, works)
        return
    for run in _alike(animals, mates):
        yield _run(run, prior[0][0], works, once=herd.index in telling.followed or len(mates[run[0]]) == 1)


def _bred_together(problem: Problem, herd: Herd) -> list[slice] | None:
    """Females of a herd that are always put to the same male, or all of them to none; None where it is not known.

    Every male that they may be put to is alone in his herd then, and has time for all that may be put to him; or they
    are the first of those, and go to one male after the other in parts as large as he has time for.
    """
    own = [place for place, pairing in enumerate(problem.pairings) if herd.index in pairing.females]
    males = {male for place in own for male in problem.pairings[place].males}
    if herd.sex == "male" or any(problem.herds[male].count > 1 for male in males):
        return None
    rivals: set[int] = set()
    for place in own:
        pairing = problem.pairings[place]
        shared = (other for other in problem.pairings[:place] if set(other.males) & males)
        rivals |= {*pairing.females[: pairing.females.index(herd.index)], *(f for o in shared for f in o.females)}
    rivals -= {herd.index}
    load, most = problem.biology.load, herd.count
    if not own or herd.count + sum(problem.herds[rival].count for rival in rivals) <= load:
        return [slice(0, most)] if own else []
    return None if rivals else [slice(first, first + load) for first in range(0, min(most, len(own) * load), load)]


def _alone(animal: Animal, prior: Sequence[tuple[int, float]], works: float) -> Options:
    ways: Options = [({animal: ((number, 1.0),)}, weight * works) for number, weight in prior if works > 0]
    return [*ways, ({animal: ()}, 1 - works)] if works < 1 else ways


def _run(run: Sequence[Animal], number: int, works: float, *, once: bool) -> Options:
    """Neighbours in the laying order with the same males in the same seasons: only how many work counts."""
    if once or works == 1:
        own: States = ((number, works),) if works > 0 else ()
        return [(dict.fromkeys(run, own), 1.0)]
    size = len(run)
    return [
        (
            {animal: ((number, 1.0),) if i < able else () for i, animal in enumerate(run)},
            comb(size, able) * works**able * (1 - works) ** (size - able),
        )
        for able in range(size + 1)
    ]


def _alike(animals: Sequence[Animal], mates: Mapping[Animal, list[tuple[int, int, Animal]]]) -> Iterator[list[Animal]]:
    run: list[Animal] = []
    for animal in animals:
        if animal not in mates:
            continue
        if run and mates[animal] != mates[run[0]]:
            yield run
            run = []
        run.append(animal)
    if run:
        yield run
