"""A route's matings season by season, and the clusters they make."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence
from itertools import groupby

from core.routes.calendar import Animal, Mating, founders, matings
from core.routes.exact.clusters import NOT_BRED, Cluster, Female, Raised, States
from core.routes.problem import Problem

Schedule = tuple[tuple[Mating, ...], ...]
# What an animal may be, and how it was raised where that is followed with it.
Known = tuple[States, Raised | None]


def founder_schedule(problem: Problem, sorts: Sequence[Hashable]) -> Schedule:
    """The matings of each breeding season where nothing is held back; `sorts`: those of the seasons."""
    known: dict[Hashable, tuple[Mating, ...]] = {}
    schedule = []
    for season, key in enumerate(sorts, start=1):
        if key not in known:
            breeders = [[] if herd.held else founders(herd, season) for herd in problem.herds]
            known[key] = tuple(matings(problem, breeders, season))
        schedule.append(known[key])
    return tuple(schedule)


def season_sorts(problem: Problem) -> list[Hashable]:
    """Of each breeding season what it has in common with others: the same founders in the same open pairings."""
    return [
        (
            *[herd.ready is not None and herd.ready <= season and herd.there(season) for herd in problem.herds],
            *[pairing.first <= season <= pairing.last for pairing in problem.pairings],
        )
        for season in range(1, problem.breeding_seasons + 1)
    ]


def clusters_of(schedule: Schedule, known: Callable[[Animal], Known]) -> list[Cluster]:
    """Groups of animals linked by matings; a female's `places` entry is the animal itself."""
    mates: dict[Animal, list[Animal | None]] = {}
    season = 0
    # Most seasons are like the one before.
    for pairs, same in groupby(schedule):
        first, season = season, season + len(list(same))
        for mating in pairs:
            if mating.female not in mates:
                mates[mating.female] = [None] * len(schedule)
            mates[mating.female][first:season] = [mating.male] * (season - first)
    return [_cluster(females, mates, known) for females in _linked(mates)]


def _linked(mates: dict[Animal, list[Animal | None]]) -> list[list[Animal]]:
    """The females in groups that share males, directly or through others; in order of appearance."""
    groups: list[tuple[set[Animal | None], list[Animal]]] = []
    for female, every in mates.items():
        males = set(every) - {None}
        joined = [group for group in groups if not males.isdisjoint(group[0])]
        if len(joined) == 1:
            joined[0][0].update(males)
            joined[0][1].append(female)
            continue
        groups = [group for group in groups if males.isdisjoint(group[0])]
        together = males.union(*(group[0] for group in joined))
        groups.append((together, [*(member for group in joined for member in group[1]), female]))
    return [females for _, females in groups]


def _cluster(
    females: Sequence[Animal], mates: dict[Animal, list[Animal | None]], known: Callable[[Animal], Known]
) -> Cluster:
    males = list(dict.fromkeys([male for female in females for male in mates[female] if male is not None]))
    number: dict[Animal | None, int] = {None: NOT_BRED, **{male: i for i, male in enumerate(males)}}
    # Those alike are one and the same, so that they are told to be so at a glance.
    alike: dict[tuple[States, tuple[int, ...], Raised | None], Female] = {}
    each = []
    for female in females:
        states, raised = known(female)
        own = states, tuple([number[male] for male in mates[female]]), raised
        if own not in alike:
            alike[own] = Female(*own)
        each.append(alike[own])
    return Cluster(tuple([known(male)[0] for male in males]), tuple(each), tuple(females))
