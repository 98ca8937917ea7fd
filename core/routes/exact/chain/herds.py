"""Held herds: whether they change who else breeds with whom, and when anybody asks for them."""

from __future__ import annotations

from collections.abc import Collection

from core.routes.problem import Herd, Pairing, Problem


def seasons_asked(problem: Problem, herd: Herd) -> range:
    """The seasons in which it may make a difference to others how many of a held herd there are, from first to last.

    Of males, once females may be put to them. Of females where others come after them with the same males, unless each
    of those males is alone in his herd and can serve all that may be put to him then.
    """
    if herd.sex == "male":
        own = [pairing for pairing in problem.pairings if herd.index in pairing.males]
        females = [(pairing, problem.herds[index]) for pairing in own for index in pairing.females]
        first = min((max(pairing.first, _ready(problem, female)) for pairing, female in females), default=1)
        return range(first, problem.breeding_seasons + 1) if own else range(0)
    found = [season for season in range(1, problem.breeding_seasons + 1) if _in_the_way(problem, herd, season)]
    return range(found[0], found[-1] + 1) if found else range(0)


def _in_the_way(problem: Problem, herd: Herd, season: int) -> bool:
    for place, pairing in enumerate(problem.pairings):
        if herd.index not in pairing.females or not _is_open(pairing, season) or not _may_breed(problem, herd, season):
            continue
        after = set(pairing.females[pairing.females.index(herd.index) + 1 :])
        for later in problem.pairings[place + 1 :]:
            if _is_open(later, season) and set(later.males) & set(pairing.males):
                after |= set(later.females)
        others = [problem.herds[index] for index in after - {herd.index}]
        if any(_may_breed(problem, other, season) for other in others) and not all(
            problem.herds[male].count == 1 and _serves_all(problem, male, season) for male in pairing.males
        ):
            return True
    return False


def _serves_all(problem: Problem, male: int, season: int) -> bool:
    own = [pairing for pairing in problem.pairings if male in pairing.males and _is_open(pairing, season)]
    females = [problem.herds[index] for index in {index for pairing in own for index in pairing.females}]
    return sum(female.count for female in females if _may_breed(problem, female, season)) <= problem.biology.load


def _is_open(pairing: Pairing, season: int) -> bool:
    return pairing.first <= season <= pairing.last


def _may_breed(problem: Problem, herd: Herd, season: int) -> bool:
    return herd.there(season) and season >= _ready(problem, herd)


def first_hold(problem: Problem, herd: Herd) -> int:
    """The first season at whose end young may be held for a herd."""
    return max(1, min(problem.pairings[source].first for source in herd.sources))


def _ready(problem: Problem, herd: Herd) -> int:
    return first_hold(problem, herd) + problem.biology.matures[herd.sex] if herd.ready is None else herd.ready


def left_open(problem: Problem, dams: Collection[int]) -> frozenset[int]:
    """Held herds of males to whom no others are put than these dams: what they are may be averaged with the dams."""
    found = []
    for herd in problem.herds:
        own = [pairing for pairing in problem.pairings if herd.index in pairing.males]
        females = {index for pairing in own for index in pairing.females}
        if herd.held and herd.sex == "male" and females and females <= set(dams):
            found.append(herd.index)
    return frozenset(found)


def most_asked(problem: Problem, herd: Herd) -> int:
    """How many of a held herd anybody ever asks for.

    No more males than there are females to be put to them, and no more females than all their males can serve.
    """
    if herd.sex == "female":
        males = {index for pairing in problem.pairings if herd.index in pairing.females for index in pairing.males}
        return min(herd.count, problem.biology.load * sum(problem.herds[index].count for index in males))
    females = {index for pairing in problem.pairings if herd.index in pairing.males for index in pairing.females}
    return min(herd.count, sum(problem.herds[index].count for index in females))
