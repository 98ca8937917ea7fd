"""Every set of counts answered by chains, step by step."""

from __future__ import annotations

from collections.abc import Callable, Generator, Iterator, Sequence
from dataclasses import replace

from core.progress import Long
from core.routes.answer import Answer, Expectations, Expected, InSteps, untold
from core.routes.exact.chain.efforts import check_work
from core.routes.exact.chain.route import ChainRoute, Shared
from core.routes.exact.eggs import Joined, joined
from core.routes.exact.lattice import Lattice
from core.routes.exact.limits import OutOfReach
from core.routes.exact.plain import Workshop
from core.routes.exact.reach import bred_alike, paid_as, pieces_needed
from core.routes.exact.recent import Recent
from core.routes.exact.solve import answer, egg_chances, expected
from core.routes.exact.sparse import Sparse
from core.routes.problem import Problem

# What is worked out over all counts, as `efforts.py` tells it: a minute, or two; some seconds where many such
# answers are asked for.
_MOST_WORK, _MOST_BARE_WORK = 80e9, 5e9
# The most that takes no longer than to find out that nurseries are too many, and to tell them apart in pieces; and that
# a person should wait for where founders are hidden, whose ways multiply: played, they are told in a second.
_QUICK_WORK = 8e9
# What a person at the window waits for rather impatiently: some seconds.
_LONG_WORK = 4e9
# Numbers over counts, seasons and points that may wait until expectations are asked for.
_MOST_KEPT = 400_000


def chained_counts(
    problems: Sequence[Problem],
    drawn: int,
    lattice_of: Callable[[Sequence[ChainRoute]], Lattice],
    recent: Recent | None = None,
    *,
    quick: bool = False,
    bare: bool = False,
) -> Generator[float, None, tuple[list[Answer], Expectations]]:
    """Answers for every set of counts, and expectations for the one at a place; yields the share done.

    Raises OutOfReach, before anything large is worked out; sooner where held animals change who else breeds with whom,
    if it is to be `quick`: another way may take less then. bare: of chances and money alone.
    """
    shop, first = Workshop(problems[drawn], alike=False), bred_alike(problems)
    routes: list[ChainRoute] = []
    for place, alike in enumerate(first):
        problem = problems[place]
        routes.append(ChainRoute(problem, shop) if alike == place else paid_as(routes[alike], problem))
        yield 0.0
    quick = quick and any(route.courses.count(route.seasons) > route.courses.count(1) for route in routes)
    if quick and bare:
        raise OutOfReach("nurseries take less where chances and money alone are asked for")
    lattice = lattice_of(routes)
    most_eggs = max(route.eggs_bound for route in routes)
    pieces_needed(problems[drawn], most_eggs, lattice)
    probe = joined(0 if bare else most_eggs, lattice)
    hidden = any(len(herd.prior) > 1 or herd.named for herd in problems[drawn].herds)
    most = _MOST_BARE_WORK if bare and not quick else _QUICK_WORK if quick or hidden else _MOST_WORK
    if (yield from check_work([routes[place] for place in sorted(set(first))], probe, most)) > _LONG_WORK:
        yield Long(0.0)
    told = _Told(routes, first, lattice, probe, bare)
    told.check_prices()
    yield from told.check_held()
    yield from told.work_out()
    # Some pairs are met on the way.
    told.check_prices()
    if recent and told.is_kept and recent.has_room(told.routes, probe):
        recent.keep(told.routes, lattice, probe)
    return told.answers, untold if bare else told


class _Told(InSteps):
    """The answers of every set of counts; those that breed alike are worked out once."""

    def __init__(
        self, routes: Sequence[ChainRoute], first: Sequence[int], lattice: Lattice, probe: Joined, bare: bool
    ) -> None:
        self.routes, self.answers = list(routes), list[Answer]()
        self._first, self._lattice, self._probe, self._bare = first, lattice, probe, bare
        self._expected: dict[int, Expected] = {}
        self.is_kept = not bare and probe.points * routes[0].seasons * len(set(first)) <= _MOST_KEPT

    def check_prices(self) -> None:
        """Raises OutOfReach where what young would have brought is asked for, and cannot be told."""
        for route in [] if self._bare else self.routes:
            route.check_prices()

    def check_held(self) -> Iterator[float]:
        """Raises OutOfReach where what is held is asked for, and cannot be told."""
        for place in [] if self._bare else sorted(set(self._first)):
            for _ in self.routes[place].check_held():
                yield 0.0

    def work_out(self) -> Generator[float, None, None]:
        """Works all answers out; yields the share done."""
        # Those with most dams first: what fewer of them breed is found on the way.
        alike = sorted(set(self._first), reverse=True)
        shared: Shared = {}
        found: dict[int, Answer] = {}
        for number, one in enumerate(alike):
            # What is worked out for one set of counts is of no use to others that breed otherwise.
            own = self.routes[one].afresh(self.routes[one].shop.afresh(), shared)
            for share in own.steps(self._probe):
                yield (number + share) / len(alike)
            if not self._bare:
                for _ in own.egg_steps(self._probe):
                    yield (number + 1) / len(alike)
            places = [place for place, first in enumerate(self._first) if first == one]
            found |= self._answered(own, places)
            if not self.is_kept:
                for place in [] if self._bare else places:
                    for _ in self.steps(place):
                        yield (number + 1) / len(alike)
                own.shop.forget()
            own.jobs.forget()
        self.answers = [found[place] for place in range(len(self._first))]

    def _answered(self, own: ChainRoute, places: Sequence[int]) -> dict[int, Answer]:
        found: dict[int, Answer] = {}
        eggs = untold if self._bare else Sparse(egg_chances(own, self._probe)).whole
        for place in places:
            self.routes[place] = paid_as(own, self.routes[place].problem)
            found[place] = replace(answer(self.routes[place], self._lattice, self._probe), eggs=eggs)
        return found

    def steps(self, place: int) -> Iterator[float]:
        """Works out step by step what the expectations take."""
        if place not in self._expected:
            for _ in self.routes[place].expectation_steps(self._probe):
                yield 1.0
            self._expected[place] = expected(self.routes[place], self._probe)
            self.routes[place].jobs.forget()

    def __call__(self, place: int) -> Expected:
        for _ in self.steps(place):
            pass
        return self._expected[place]

    def forget(self) -> None:
        """Lets go of what was kept meanwhile."""
        for route in self.routes:
            route.shop.forget()
