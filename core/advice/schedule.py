"""Who would breed with whom, season by season, if every place held back were filled as soon as it can be."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from core.routes.calendar import Animal, Mating, founders, matings
from core.routes.problem import Problem


@dataclass(frozen=True, eq=False)
class Schedule:
    """Per season (from 1): the breeder-size animals, the matings, and the females of open pairings left without one."""

    breeders: tuple[tuple[Animal, ...], ...]
    matings: tuple[tuple[Mating, ...], ...]
    idle: tuple[tuple[Animal, ...], ...]

    def seasons_of(self, animal: Animal) -> tuple[int, ...]:
        """The seasons in which the animal is there and breeder-size."""
        return tuple(season for season, there in enumerate(self.breeders, 1) if animal in there)

    def bred(self, animal: Animal) -> tuple[int, ...]:
        """The seasons in which the animal is put to a mate."""
        return tuple(
            season
            for season, pairs in enumerate(self.matings, 1)
            if any(animal in (pair.male, pair.female) for pair in pairs)
        )


def schedule(problem: Problem) -> Schedule:
    """The full calendar of a route up to its last breeding season: nothing is lost, nothing stops it."""
    first_held: dict[int, int] = {}
    breeders: list[tuple[Animal, ...]] = []
    pairs: list[tuple[Mating, ...]] = []
    idle: list[tuple[Animal, ...]] = []
    for season in range(1, problem.breeding_seasons + 1):
        by_herd = [_breeders(problem, herd.index, season, first_held) for herd in problem.herds]
        made = matings(problem, by_herd, season)
        breeders.append(tuple(animal for herd in by_herd for animal in herd))
        pairs.append(tuple(made))
        idle.append(tuple(_idle(problem, by_herd, made, season)))
        _hold(problem, made, season, first_held)
    return Schedule(tuple(breeders), tuple(pairs), tuple(idle))


def _breeders(problem: Problem, index: int, season: int, first_held: dict[int, int]) -> list[Animal]:
    herd = problem.herds[index]
    if not herd.held:
        return founders(herd, season)
    ready = first_held.get(index, problem.horizon) + problem.biology.matures[herd.sex]
    if season < ready or not herd.there(season):
        return []
    return [Animal(index, place) for place in range(herd.count)]


def _hold(problem: Problem, made: list[Mating], season: int, first_held: dict[int, int]) -> None:
    bred = {mating.pairing for mating in made}
    for herd in problem.herds:
        open_still = herd.until is None or season < herd.until
        if herd.held and open_still and not bred.isdisjoint(herd.sources):
            first_held.setdefault(herd.index, season)


def _idle(problem: Problem, by_herd: list[list[Animal]], made: list[Mating], season: int) -> Iterator[Animal]:
    given = {mating.female for mating in made}
    seen: set[Animal] = set()
    for pairing in problem.pairings:
        if pairing.first <= season <= pairing.last:
            for animal in (animal for herd in pairing.females for animal in by_herd[herd]):
                if animal not in given and animal not in seen:
                    seen.add(animal)
                    yield animal
