"""Held herds: whether they change who else breeds with whom, and from when anybody asks for them."""

from __future__ import annotations

from core.routes.problem import Herd, Pairing, Problem


def influences(problem: Problem, herd: Herd) -> bool:
    """Whether the number of a held herd's members may change the mates of others.

    Males always may. Females do where others come after them with the same males, unless each of those males is alone
    in his herd and can serve all that may ever be put to him.
    """
    for place, pairing in enumerate(problem.pairings):
        if herd.index in pairing.males:
            return True
        if herd.index in pairing.females and _in_the_way(problem, pairing, herd.index, place):
            return True
    return False


def _in_the_way(problem: Problem, pairing: Pairing, herd: int, place: int) -> bool:
    after = set(pairing.females[pairing.females.index(herd) + 1 :])
    for later in problem.pairings[place + 1 :]:
        if set(later.males) & set(pairing.males):
            after |= set(later.females)
    if not after - {herd}:
        return False
    return not all(problem.herds[male].count == 1 and _serves_all(problem, male) for male in pairing.males)


def _serves_all(problem: Problem, male: int) -> bool:
    females = {index for pairing in problem.pairings if male in pairing.males for index in pairing.females}
    return sum(problem.herds[index].count for index in females) <= problem.biology.load


def first_hold(problem: Problem, herd: Herd) -> int:
    """The first season at whose end young may be held for a herd."""
    return max(1, min(problem.pairings[source].first for source in herd.sources))


def first_asked(problem: Problem, herd: Herd) -> int:
    """The first season in which it matters who of a held herd is there: of males, once females may be put to them."""
    if herd.sex == "female":
        return 1
    own = [pairing for pairing in problem.pairings if herd.index in pairing.males]
    females = [(pairing, problem.herds[index]) for pairing in own for index in pairing.females]
    return min((max(pairing.first, _ready(problem, female)) for pairing, female in females), default=1)


def _ready(problem: Problem, herd: Herd) -> int:
    return first_hold(problem, herd) + problem.biology.matures[herd.sex] if herd.ready is None else herd.ready


def most_asked(problem: Problem, herd: Herd) -> int:
    """How many of a held herd anybody ever asks for: no more males than there are females to be put to them."""
    if herd.sex == "female":
        return herd.count
    females = {index for pairing in problem.pairings if herd.index in pairing.males for index in pairing.females}
    return min(herd.count, sum(problem.herds[index].count for index in females))
