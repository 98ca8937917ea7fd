"""Held-back groups as the textbook takes them: always full, from the first season that can fill them.

A group takes all its places at the end of the first season whose young can fit one of its preferences, each place
with a young that fits the best of those that can be met, of that season's parents averaged each by itself. The plan
file cannot say what such young may carry, so this is a variant of the route made ready: held groups become groups
that arrive by themselves.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from core.explain.averaged import Carried, members
from core.routes.calendar import Animal, Mating, founders, matings
from core.routes.problem import Herd, Problem


def filled(problem: Problem) -> Problem:
    """The same route with every held group full; groups that no young can ever fill stay empty."""
    if not problem.holds:
        return problem
    now = replace(problem, herds=tuple(_empty(problem, herd) if herd.held else herd for herd in problem.herds))
    waiting = {herd.index: herd for herd in problem.herds if herd.held}
    for season in range(1, problem.breeding_seasons + 1):
        pairs = season_matings(now, season)
        for index, herd in list(waiting.items()):
            if herd.until is not None and season >= herd.until:
                continue
            carried = _first_fitting(now, herd, [pair for pair in pairs if pair.pairing in herd.sources])
            if carried is not None:
                now = _with(now, _arriving(herd, season, season + problem.biology.matures[herd.sex], carried))
                del waiting[index]
    return now


def season_matings(problem: Problem, season: int) -> list[Mating]:
    """Who breeds with whom in a season of a route that holds nothing back."""
    return matings(problem, [founders(herd, season) for herd in problem.herds], season)


def carried_by(problem: Problem, animal: Animal) -> Carried:
    """What one animal of a route that holds nothing back may carry."""
    every = members(problem, problem.herds[animal.herd])
    return every[animal.place if len(every) > 1 else 0]


def _empty(problem: Problem, herd: Herd) -> Herd:
    """Nobody is there, but every herd has something that its animals could be."""
    units, late = problem.judge.genetics.units, problem.horizon + 1
    some = tuple(next(g for g in unit.of_sex(herd.sex) if not unit.lethal[g]) for unit in units)
    return replace(herd, count=0, held=False, arrives=late, ready=late, pays_keep=False, prior=((some, 1.0),))


def _arriving(herd: Herd, season: int, ready: int, carried: Carried) -> Herd:
    return replace(
        herd, held=False, arrives=season + 1, ready=ready, pays_keep=False, prior=tuple(sorted(carried.items()))
    )


def _with(problem: Problem, herd: Herd) -> Problem:
    return replace(problem, herds=tuple(herd if other.index == herd.index else other for other in problem.herds))


def _first_fitting(problem: Problem, herd: Herd, pairs: Iterable[Mating]) -> Carried | None:
    """What a young of these matings that fits the first preference any of them can meet may carry."""
    found: list[Carried] = [{} for _ in herd.picks]
    parents: dict[tuple[tuple[int, int], tuple[int, int]], float] = {}
    for pair in pairs:
        key = _alike(problem, pair.male), _alike(problem, pair.female)
        parents[key] = parents.get(key, 0.0) + 1
    for (male, female), many in parents.items():
        for sire, p in carried_by(problem, Animal(*male)).items():
            for dam, q in carried_by(problem, Animal(*female)).items():
                for (mask, genotype), chance in problem.young(sire, dam).items():
                    for level, pick in enumerate(herd.picks):
                        if mask >> pick & 1 and chance > 0:
                            found[level][genotype] = found[level].get(genotype, 0.0) + many * p * q * chance
    carried = next((one for one in found if one), None)
    if carried is None:
        return None
    total = sum(carried.values())
    return {genotype: chance / total for genotype, chance in carried.items()}


def _alike(problem: Problem, animal: Animal) -> tuple[int, int]:
    """An animal that may carry the same: itself where its herd's animals are named, else the first of its herd."""
    return animal.herd, animal.place if problem.herds[animal.herd].named else 0
