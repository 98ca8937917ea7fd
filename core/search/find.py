"""The search: candidates in order of what they must cost at least, worked out until no other can be among the best."""

from __future__ import annotations

import heapq
import math
from collections.abc import Generator, Hashable, Set
from itertools import count
from typing import NamedTuple

import msgspec

from core.plan.chances import chance
from core.plan.model import Plan, Route
from core.progress import T
from core.routes.unanswerable import UNANSWERABLE
from core.search.candidate import Bounded, Candidate
from core.search.drawing import Drawing, free_names
from core.search.found import Found
from core.search.frontier import Frontier
from core.search.proposals import Proposals
from core.search.ranking import Ranking
from core.search.reached import as_reported
from core.search.space import Space
from core.search.stock import Stock
from core.search.telling import title
from core.search.working import Worked, Working

# Of what holds young back so many are worked out before the gap is allowed; what does not is worked out in no time.
MOST, GAP, TRIES = 10, 0.05, 12
# Of chances out of reach of the goal: closer ones are as good.
A_POINT = 0.01
# The bound of money, and the place in the order made.
Entry = tuple[float, int, Bounded]
# A space of so many candidates is searched whole.
MOST_WHOLE = 1_000
_QUICK = ("outright", "straight", "then buy")


def find(plan: Plan, *, most: int = MOST, gap: float = GAP, tries: int = TRIES) -> Generator[Found, None, Found]:
    """Search; yields what there is so far, the last of it too, and returns that.

    most: proposals asked for. gap: the share of the money that may be missed where more than `tries` candidates that
    hold young back would have to be worked out; with fewer nothing is missed. Where a route is played, within the noise
    of it.
    Errors: TooManyGenotypes, TooEntangled where the animals of a plan cannot be worked out at all.
    """
    search = Search(plan, most, gap, tries)
    yield from search.steps()
    last = search.found(ended=True)
    yield last
    return last


class Beside(NamedTuple):
    """What is known already of a point of the trade: the least money for it, and candidates that take no less."""

    below: float
    compared: Set[Hashable]


class Search:
    """One search over one plan."""

    def __init__(
        self,
        plan: Plan,
        most: int = MOST,
        gap: float = GAP,
        tries: int = TRIES,
        *,
        merged: bool = True,
        beside: Beside | None = None,
    ) -> None:
        """Beside: another search that this one is a part of; nothing is told then but the best candidate."""
        self._plan, self._most, self._gap, self._tries, self._beside = plan, most, gap, tries, beside
        self._below = math.inf if beside is None else beside.below
        self._compared: set[Hashable] = set()
        # Whether the trade of money against time and chance is that of the whole space.
        self.traded = False
        self.stock = Stock(plan, merged=merged)
        self._drawing = Drawing(plan, self.stock)
        self._working = Working(plan)
        self._queue: list[Entry] = []
        self._order = count()
        self._names = free_names(plan)
        self._ranking = Ranking(plan, most, self._below)
        self._worked: dict[str, Worked] = {}
        self._proposals = Proposals(plan, self._drawing)
        self._to_play: list[tuple[float, int, Candidate, str]] = []
        self._frontier = Frontier(plan)
        self._passed, self._missed = math.inf, 0.0
        self._looked = self._of = self._weighed = 0
        self.space = Space(plan, self.stock)

    def steps(self) -> Generator[Found, None, None]:
        """The whole search, a step at a time."""
        yield from self.through()
        yield from self._go_deep()
        yield from self._linger()
        yield from self._look_around()
        if not self._ranking.reaching:
            yield from self._come_close()

    def through(self) -> Generator[Found, None, None]:
        """Through all of the space, until it is proven that nothing else is among the best."""
        for number, family in enumerate(self.space.families()):
            for one in family:
                if one is None:
                    yield self.found()
                    continue
                heapq.heappush(self._queue, (one.money, next(self._order), one))
                self._of += 1
            # The quick ones come first: something to look at, before all bounds are known.
            yield from self._work(self._most if number < 2 else 0)
        yield from self._work(None)
        yield from self._play()

    def drawn(self, candidate: Candidate, name: str) -> Route:
        """A candidate as a route, with its title."""
        return self._drawing.route(candidate, name, title(self._plan, self._drawing, candidate))

    def found(self, *, ended: bool = False) -> Found:
        """What there is so far."""
        chosen = [one for one in self._ranking.told if one.result]
        points = tuple(point for point in self._frontier.points() if self._worked[point.route].result)
        proposals, others = self._proposals.of(chosen, self._worked, points)
        return Found(
            proposals=proposals,
            others=others,
            frontier=points,
            looked=self._looked,
            of=self._of,
            floor=self._floor(),
            gap=self._gap_left(),
            affordable=self._ranking.affordable,
            left_out=self.stock.left_out,
            holds=self.space.holds,
            traded=self.traded,
            ended=ended,
        )

    def _floor(self) -> float:
        """What everything costs at least that was left out."""
        waiting = self._queue[0][0] if self._queue else math.inf
        return min(self._passed, waiting, *(one[0] for one in self._to_play))

    def _gap_left(self) -> float:
        """The share of the money of any of those told that something left out might save, at most."""
        limit, waiting = self._ranking.limit, self._queue[0][0] if self._queue else math.inf
        least = min(waiting, *(one[0] for one in self._to_play), math.inf)
        if math.isinf(limit):
            return self._missed if math.isinf(least) else 1.0
        return max(self._missed, 1 - least / limit if least < limit else 0.0)

    def _work(self, tries: int | None) -> Generator[Found, None, None]:
        """Works out the most promising, so many or, without a number, until it is proven that no other counts."""
        done = 0
        while self._queue and (tries is None or done < tries):
            bound, order, one = self._queue[0]
            candidate = one.candidate
            whole = math.isinf(self._below) and (self._of <= MOST_WHOLE or self._weighed < self._tries)
            over = 1.0 if whole else 1 - self._gap
            if bound > over * self._ranking.limit:
                return
            heapq.heappop(self._queue)
            if self._beside and candidate.key in self._beside.compared:
                continue
            if self._ranking.spares(candidate, one.next_paid, one.season):
                continue
            known = self._ranking.same(candidate)
            if known is not None and bound > over * known.money:
                if bound <= known.money:
                    self._passed = min(self._passed, bound)
                    self._missed = max(self._missed, 1 - bound / known.money)
                continue
            done += 1
            yield from self._try(bound, order, candidate)

    def _try(self, bound: float, order: int, candidate: Candidate) -> Generator[Found, None, None]:
        name = next(self._names)
        route = self.drawn(candidate, name)
        try:
            looked = yield from self._told(self._working.first(route, candidate.way))
        except UNANSWERABLE:
            # Animals that may be too many things at once for any answer.
            return
        self._looked += 1
        self._weighed += candidate.way not in _QUICK
        if looked.reached:
            self._take(Worked(candidate, route, looked.reached, looked.result))
            yield from self._complete() if self._beside is None else ()
        elif math.isfinite(looked.least):
            heapq.heappush(self._to_play, (max(looked.least, bound), order, candidate, name))
        yield self.found()

    def _complete(self) -> Generator[Found, None, None]:
        """Works out to the end what is told and was only compared so far."""
        points = (self._worked[point.route] for point in self._frontier.points())
        for one in (*self._ranking.told, *points):
            if one.result is None:
                self._take((yield from self._whole(one.candidate, one.route)))

    def _whole(self, candidate: Candidate, route: Route) -> Generator[Found, None, Worked]:
        """A candidate worked out to the end."""
        result = yield from self._told(self._working.fully(route))
        return Worked(candidate, route, as_reported(result), result)

    def _play(self) -> Generator[Found, None, None]:
        """What was put off is worked out to the end where it may still be among the best, the noise of play counted."""
        while self._to_play:
            least, _, candidate, name = self._to_play[0]
            if least <= self._ranking.limit:
                self._take((yield from self._whole(candidate, self.drawn(candidate, name))))
            heapq.heappop(self._to_play)
            yield self.found()

    def _go_deep(self) -> Generator[Found, None, None]:
        """A few of three generations, which are no part of what is proven."""
        for candidate in self.space.deep(self._ranking.limit):
            if candidate is None:
                yield self.found()
                continue
            self._of += 1
            yield from self._try(0.0, next(self._order), candidate)
            yield from self._play()

    def _linger(self) -> Generator[Found, None, None]:
        """Those that are told once more, with dams that stay longer than is looked at everywhere."""
        for candidate in self.space.lingering([one.candidate for one in self._ranking.told]):
            self._of += 1
            yield from self._try(0.0, next(self._order), candidate)
            yield from self._play()

    def _look_around(self) -> Generator[Found, None, None]:
        """What is the cheapest for less time or another chance, where the space is small enough."""
        self.traded = self._of <= MOST_WHOLE
        for season, asked in self._frontier.asked() if self.traded else ():
            best = yield from self._cheapest(season, asked, self._frontier.least(season, asked))
            if best is not None:
                worked = yield from self._whole(best, self.drawn(best, next(self._names)))
                self._worked[worked.route.id] = worked
                self._frontier.add(worked.route.id, worked.reached)

    def _cheapest(self, season: int, asked: float, below: float) -> Generator[Found, None, Candidate | None]:
        """What is the cheapest within a season for a chance, if it takes less than so much."""
        goal = msgspec.structs.replace(self._plan.goal, seasons=season, chance=asked)
        other = msgspec.structs.replace(self._plan, goal=goal)
        search = Search(other, 1, self._gap, self._tries, beside=Beside(below, self._compared))
        yield from self._told(search.through())
        best = next(iter(search._ranking.told), None)
        return best.candidate if best is not None and best.money < below else None

    def _come_close(self) -> Generator[Found, None, None]:
        """Nothing reaches the goal: what comes closest, and the plainest routes that come close."""
        for one in self._worked.values():
            self._ranking.add(one)
        yield from self._approach() if self.traded else ()
        for candidate in self.space.closest(self._most):
            if all(candidate.key != one.candidate.key for one in self._worked.values()):
                self._of += 1
                yield from self._try(0.0, 0, candidate)
        # With what was found while looking around.
        self._looked, self._of = (max(each, len(self._worked)) for each in (self._looked, self._of))

    def _approach(self) -> Generator[Found, None, None]:
        """Whatever is surer than the surest so far is found by halving what lies between that and the goal's chance."""
        low = max((one.reached.chance for one in self._worked.values()), default=0.0)
        high = chance(self._plan.goal.chance)
        while high - low > A_POINT:
            asked = (low + high) / 2
            best = yield from self._cheapest(self._plan.goal.seasons, asked, math.inf)
            if best is None:
                high = asked
                continue
            worked = yield from self._whole(best, self.drawn(best, next(self._names)))
            self._take(worked)
            low = max(asked, worked.reached.chance)

    def _take(self, worked: Worked) -> None:
        self._ranking.add(worked)
        self._worked[worked.route.id] = worked
        self._frontier.add(worked.route.id, worked.reached)
        if worked.candidate.way not in _QUICK:
            # What is quick is worked out anew at every point: it spares others.
            self._compared.add(worked.candidate.key)

    def _told(self, steps: Generator[object, None, T]) -> Generator[Found, None, T]:
        """Work on one route, as a part of the search; meanwhile nothing more is found."""
        so_far: Found | None = None
        while True:
            try:
                next(steps)
            except StopIteration as end:
                answer: T = end.value
                return answer
            so_far = so_far or self.found()
            yield so_far
