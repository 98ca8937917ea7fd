"""A route's matings season by season, and the clusters they make."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence

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
    for season, pairs in enumerate(schedule):
        for mating in pairs:
            mates.setdefault(mating.female, [None] * len(schedule))[season] = mating.male
    linked = _linked(mates)
    return [_cluster(females, mates, known) for females in linked]


def _linked(mates: dict[Animal, list[Animal | None]]) -> list[list[Animal]]:
    """The females in groups that share males, directly or through others; in order of appearance."""
    group_of: dict[Animal, list[Animal]] = {}
    groups: list[list[Animal]] = []
    for female, males in mates.items():
        joined: list[list[Animal]] = []
        for male in dict.fromkeys(male for male in males if male is not None):
            if male in group_of and not any(group_of[male] is group for group in joined):
                joined.append(group_of[male])
        merged = [member for group in joined for member in group] + [female]
        groups = [group for group in groups if not any(group is other for other in joined)] + [merged]
        for member in merged:
            group_of.update((male, merged) for male in mates[member] if male is not None)
    return groups


def _cluster(
    females: Sequence[Animal], mates: dict[Animal, list[Animal | None]], known: Callable[[Animal], Known]
) -> Cluster:
    males = list(dict.fromkeys(male for female in females for male in mates[female] if male is not None))
    number = {male: i for i, male in enumerate(males)}
    return Cluster(
        males=tuple(known(male)[0] for male in males),
        females=tuple(
            Female(states, tuple(NOT_BRED if male is None else number[male] for male in mates[female]), raised)
            for female in females
            for states, raised in (known(female),)
        ),
        places=tuple(females),
    )
