"""Which courses are followed together, and for what of all that is looked at."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import groupby
from typing import NamedTuple

from core.routes.exact.chain.course import Course
from core.routes.exact.chain.courses import Courses
from core.routes.exact.chain.fates import Variant


@dataclass(frozen=True)
class Alike:
    """What tells a job from others that breed differently, also from those of other counts."""

    told: Hashable

    def __hash__(self) -> int:
        return self._hash

    @cached_property
    def _hash(self) -> int:
        # Looked up again and again, and made of very many parts.
        return hash(self.told)


class Job(NamedTuple):
    """Courses that founders of one kind may take up to a season, and their chance; `cut`: of the variants looked at."""

    key: Alike
    cut: slice
    season: int
    chance: float
    ways: list[list[Course]]


class Jobs:
    """The jobs of one route at one set of counts; `counts`: of its held herds."""

    def __init__(self, courses: Courses, counts: tuple[int, ...]) -> None:
        self._courses, self._counts = courses, counts
        self._by_world: dict[tuple[int, bool], list[Job]] = {}

    def forget(self) -> None:
        """Lets go of what was listed: it may be many megabytes, and is listed again when it is asked for."""
        self._by_world.clear()
        self._courses.forget()

    def of(self, variants: Sequence[Variant]) -> list[Job]:
        """What is followed together, and for which of the variants; variants by ascending season."""
        if not variants:
            return []
        if not self._courses.differ:
            return self.by_world(slice(0, len(variants)), variants[-1].season)
        found: list[Job] = []
        first = 0
        for season, alike in groupby(variants, key=lambda variant: variant.season):
            cut = slice(first, first + len(list(alike)))
            found += self.by_world(cut, season)
            first = cut.stop
        return found

    def by_world(self, cut: slice, season: int, *, held: bool = False) -> list[Job]:
        """A job for every way in which the founders can be; of those that breed alike one, with their chances added.

        held: what is held in that season is asked for, too.
        """
        if (season, held) not in self._by_world:
            self._by_world[season, held] = self._find_jobs(season, held)
        return [job._replace(cut=cut) for job in self._by_world[season, held]]

    def _find_jobs(self, season: int, held: bool) -> list[Job]:
        worlds: dict[int, list[list[Course]]] = {}
        for courses in self._courses.up_to(season, held=held):
            worlds.setdefault(courses[0].world, []).append(courses)
        found = dict[Alike, Job]()
        for ways in worlds.values():
            key = Alike((self._counts, tuple(self._courses.alike(courses, season) for courses in ways)))
            before = found[key].chance if key in found else 0.0
            found[key] = Job(key, slice(0, 1), season, before + self._courses.chance(ways[0][0].world), ways)
        return list(found.values())
