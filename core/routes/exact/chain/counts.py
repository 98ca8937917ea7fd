"""Every set of counts answered by chains, step by step."""

from __future__ import annotations

import math
from collections.abc import Callable, Generator, Sequence
from dataclasses import replace

from core.routes.answer import Answer, Expectations, Expected, untold
from core.routes.exact.chain.route import ChainRoute
from core.routes.exact.eggs import joined
from core.routes.exact.lattice import Lattice
from core.routes.exact.limits import OutOfReach
from core.routes.exact.plain import Workshop
from core.routes.exact.reach import pieces_needed
from core.routes.exact.recent import Recent
from core.routes.exact.solve import answer, expected
from core.routes.exact.sparse import Sparse
from core.routes.problem import Problem

# Numbers worked out over all counts; the most that stays within a few seconds.
_MOST_WORK = 8e8


def chained_counts(
    problems: Sequence[Problem],
    drawn: int,
    lattice_of: Callable[[Sequence[ChainRoute]], Lattice],
    recent: Recent | None = None,
    *,
    plain: bool = False,
    bare: bool = False,
) -> Generator[float, None, tuple[list[Answer], Expectations]]:
    """Answers for every set of counts, and expectations for the one at a place; yields the share done.

    Raises OutOfReach, before anything large is worked out; where held animals change who else breeds with whom, too, if
    it is to be `plain`. bare: of chances and money alone.
    """
    shop = Workshop(problems[drawn], alike=False)
    routes = [ChainRoute(problem, shop) for problem in problems]
    if plain and any(route.courses.count(route.seasons) > route.courses.count(1) for route in routes):
        raise OutOfReach("held animals change who else breeds with whom")
    lattice = lattice_of(routes)
    most_eggs = max(route.eggs_bound for route in routes)
    pieces_needed(problems[drawn], most_eggs, lattice)
    probe = joined(0 if bare else most_eggs, lattice)
    if sum(map(_work, routes)) * probe.points > _MOST_WORK:
        raise OutOfReach("too many ways in which young can be held over the seasons")
    answers: list[Answer] = []
    expectations: list[Expected] = []
    worked: list[ChainRoute] = []
    for place, route in enumerate(routes):
        # What is worked out for one set of counts is of no use to the others.
        own = route.afresh(shop.afresh())
        for share in own.steps(probe):
            yield (place + share) / len(routes)
        found = answer(own, lattice, probe)
        if bare:
            answers.append(replace(found, eggs=untold))
            own.shop.forget()
            continue
        for _ in own.egg_steps(probe):
            yield (place + 1) / len(routes)
        answers.append(replace(found, eggs=Sparse(found.eggs()).whole))
        expectations.append(expected(own, probe))
        if recent and recent.has_room(routes, probe):
            worked.append(own)
        else:
            own.shop.forget()
    if recent and worked:
        recent.keep(worked, lattice, probe)
    return answers, untold if bare else expectations.__getitem__


def _work(route: ChainRoute) -> float:
    """Roughly how many numbers are worked out at each point."""
    courses = route.courses
    states = math.prod(_states(route, place) for place in range(len(route.herds)) if place not in courses.leaders)
    levels = max(len(herd.picks) for herd in route.herds)
    onward = states * states / (4 if route.problem.biology.reaches < 1 else 2) * (2 + levels)
    if courses.differ:
        looks = sum(2 * season * courses.count(season + 1) for season in range(1, route.seasons))
    else:
        looks = courses.count(1) * route.seasons**2
    return looks * onward * route.goal.size * (route.goal.size + 1) / 2


def _states(route: ChainRoute, place: int) -> int:
    """How many counts of one herd are told apart, those that are held and the fit ones among them."""
    herd = route.herds[place]
    if route.problem.biology.reaches == 1:
        return herd.count + 1
    last = route.courses.up_to(route.seasons)
    ranks = max(courses[0].ranks(place, herd, alone=False) for courses in last)
    return sum(min(held, ranks) + 1 for held in range(herd.count + 1))
