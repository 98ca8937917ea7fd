"""The season calendar: who is there, what the place costs, and who breeds with whom."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

import numpy as np

from core.routes.problem import Herd, Problem
from core.routes.result import Floats


class Animal(NamedTuple):
    """One animal of a route: its herd and its place in it (held ones: in the order they were held)."""

    herd: int
    place: int


class Mating(NamedTuple):
    """A female put to a male in one season, in one pairing."""

    pairing: int
    male: Animal
    female: Animal


def founders(herd: Herd, season: int) -> list[Animal]:
    """The breeder-size members of a bought or owned herd."""
    assert herd.ready is not None
    if not herd.there(season) or season < herd.ready:
        return []
    return [Animal(herd.index, place) for place in range(herd.count)]


def matings(problem: Problem, breeders: Sequence[Sequence[Animal]], season: int) -> list[Mating]:
    """Who breeds with whom in a season, in laying order; `breeders`: per herd, its breeder-size members in order."""
    load: dict[Animal, int] = {}
    given: set[Animal] = set()
    pairs: list[Mating] = []
    for index, pairing in enumerate(problem.pairings):
        if not pairing.first <= season <= pairing.last:
            continue
        males = next((breeders[herd] for herd in pairing.males if breeders[herd]), ())
        if not males:
            continue
        females = [female for herd in pairing.females for female in breeders[herd] if female not in given]
        for male, female in zip(_in_turn(males, load, problem.biology.load), females, strict=False):
            load[male] = load.get(male, 0) + 1
            given.add(female)
            pairs.append(Mating(index, male, female))
    return pairs


def _in_turn(males: Sequence[Animal], load: Mapping[Animal, int], most: int) -> Iterator[Animal]:
    """Males one after the other, again and again, each until he has as many females as he may have."""
    free = list(males)
    while free := [male for male in free if load.get(male, 0) < most]:
        yield from free


def fixed_costs(problem: Problem) -> Floats:
    """What each season costs before any egg is laid, held animals aside: setup, arrivals and keep: [seasons]."""
    each = problem.kept("costs", lambda: [_animal_costs(problem, herd) for herd in _founding(problem)])
    # So few numbers are added up faster one by one.
    total = [problem.prices.setup, *[0.0] * (problem.horizon - 1)]
    for herd, costs in zip(_founding(problem), each, strict=True):
        if herd.count:
            total = [so_far + herd.count * cost for so_far, cost in zip(total, costs, strict=True)]
    return np.array(total)


def founders_present(problem: Problem) -> Floats:
    """How many bought and owned animals are there in step 2 of each season: [seasons]."""
    found = np.zeros(problem.horizon)
    for herd in _founding(problem):
        found[_stay(problem, herd)] += herd.count
    return found


def _founding(problem: Problem) -> list[Herd]:
    return [herd for herd in problem.herds if not herd.held]


def _animal_costs(problem: Problem, herd: Herd) -> list[float]:
    """One animal's price when it arrives, and its keep while it is there: [seasons]."""
    costs, prices = [0.0] * problem.horizon, problem.prices
    if herd.arrives <= problem.horizon:
        costs[herd.arrives - 1] = herd.price
    if herd.pays_keep:
        assert herd.ready is not None
        for season in range(problem.horizon)[_stay(problem, herd)]:
            costs[season] += prices.keep_young if season + 1 < herd.ready else prices.keep_adult
    return costs


def _stay(problem: Problem, herd: Herd) -> slice:
    return slice(herd.arrives - 1, problem.horizon if herd.until is None else herd.until)
