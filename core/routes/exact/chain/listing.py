"""Which courses a route is told in: what is told apart of its founders and of sons, and what is summed up."""

from __future__ import annotations

from collections.abc import Collection
from typing import NamedTuple

from core.routes.exact.chain.courses import Courses
from core.routes.exact.chain.dams import Dams
from core.routes.exact.chain.herds import left_open, seasons_asked
from core.routes.exact.chain.sorts import Nest
from core.routes.exact.founding import Telling, alike, count_worlds, founder_worlds, wandering
from core.routes.exact.held_route import is_steady
from core.routes.exact.limits import MOST_WORLDS, OutOfReach
from core.routes.exact.plain import Workshop
from core.routes.exact.schedule import founder_schedule
from core.routes.problem import Problem

# Ways in which the founders can be that take less one by one, as other counts share them, than summed up.
_FEW_WORLDS = 40
# Courses of all seasons together.
_MOST_COURSES = 20_000
# Where there are no more it is told apart what sons are: dams need not be followed through all their seasons then.
_FEW_COURSES = 100


def courses_of(problem: Problem, workshop: Workshop, nest: Nest) -> Courses:
    """The courses of a route. Raises OutOfReach where they are too many."""
    listing = _Listing(problem, workshop, nest)
    aside = frozenset[int]()
    if not listing.steady and listing.worlds(aside) > _FEW_WORLDS:
        aside = wandering(problem)
    found = listing.courses(aside)
    dams = alike(problem)
    sons = left_open(problem, dams)
    if sons and found.many > _FEW_COURSES:
        found = min(found, listing.courses(aside | dams, sons), key=lambda own: own.many)
    if found.courses is None:
        raise OutOfReach("held animals may change who else breeds with whom in too many ways")
    return found.courses


class _Found(NamedTuple):
    """How many courses there are over all seasons; None where they are too many."""

    many: int
    courses: Courses | None


class _Listing:
    """The courses of one route, by what is told apart."""

    def __init__(self, problem: Problem, workshop: Workshop, nest: Nest) -> None:
        self._problem, self._kinds, self._nest = problem, workshop.kinds, nest
        self._schedule = founder_schedule(problem, workshop.sorts)
        self._herds = tuple(herd for herd in problem.herds if herd.held)
        self.steady = is_steady(problem) or not any(seasons_asked(problem, herd) for herd in self._herds)

    def worlds(self, aside: frozenset[int]) -> int:
        """In how many ways the founders can be, but for these herds."""
        return count_worlds(self._problem, self._kinds, self._schedule, Telling(self.steady, aside=aside))

    def courses(self, aside: frozenset[int], sons: Collection[int] = ()) -> _Found:
        """aside: herds of dams of which only how many work is said; sons: herds of males of which nothing is said."""
        if self.worlds(aside) > MOST_WORLDS:
            return _Found(_MOST_COURSES + 1, None)
        worlds = tuple(founder_worlds(self._problem, self._kinds, self._schedule, Telling(self.steady, aside=aside)))
        kinds = {place: self._kinds.number("female", self._problem.herds[place].prior[0][0]) for place in aside}
        courses = Courses(self._problem, worlds, self._nest, Dams(self._problem, self._herds, kinds), sons)
        many = courses.over_all_seasons(_MOST_COURSES)
        return _Found(many, courses if many <= _MOST_COURSES else None)
