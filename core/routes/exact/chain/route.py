"""Exact answers for held young, whatever their preferences: only how many are held is followed season by season.

What becomes of a held animal through a season is known, on average, once its rank and its first season are: so its
whole contribution through that season is taken in at once when it is held, and nothing else of it is remembered.
Each season looked at has a chain of its own; the chains go together as an axis of `variants`.
"""

from __future__ import annotations

import copy
import math
from collections.abc import Callable, Generator, Hashable, Iterator, Sequence

import numpy as np

from core.progress import finished
from core.routes.calendar import fixed_costs, founders_present
from core.routes.exact.algebra import Complex, CountAlgebra, GoalAlgebra
from core.routes.exact.bounds import eggs_bound, keep_bound
from core.routes.exact.chain.chain import Chain
from core.routes.exact.chain.course import Course
from core.routes.exact.chain.fates import ALIVE, ANYTHING, Variant, at_eggs
from core.routes.exact.chain.goal import goal_counts, in_any_order
from core.routes.exact.chain.jobs import Alike, Job, Jobs
from core.routes.exact.chain.listing import courses_of
from core.routes.exact.chain.parts import AT_ONCE, parts_of, points_at_once
from core.routes.exact.chain.sorts import Nest
from core.routes.exact.eggs import CHANCES, EXPECTATIONS, Joined, Probe
from core.routes.exact.ending import AtEgg, filling, selling
from core.routes.exact.limits import MOST_HELD, MOST_ROWS, OutOfReach
from core.routes.exact.looks import Rows
from core.routes.exact.plain import Extras, Totals, Workshop
from core.routes.exact.reach import check_one_generation
from core.routes.problem import Problem
from core.routes.result import Floats

# Counts short of the goal that are told apart.
_MOST_GOAL_STATES = 30
# Numbers kept of what other counts may share.
_MOST_SHARED = 2_000_000
# Numbers that are told at every egg of young that count for the goal and may be held too.
_MOST_TOLD = 300_000

# What a course of a job comes to, [what is looked at, the goal's counts, points].
Follow = Callable[[Chain, Job, list[Course]], Complex]
# What jobs come to, by what is asked, the points and the job's key.
Shared = dict[tuple[Hashable, Probe, Alike], Complex]


class ChainRoute:
    """One route at one set of counts."""

    def __init__(self, problem: Problem, workshop: Workshop) -> None:
        self.problem, self.shop = problem, workshop
        wanted = problem.conditions[: len(problem.wanted)]
        check_one_generation(problem)
        if max(herd.count for herd in problem.herds if herd.held) > MOST_HELD:
            raise OutOfReach("more young are held back than can be told apart")
        if problem.crowded:
            raise OutOfReach("named animals may carry too much together")
        if problem.may_fail_twice:
            raise OutOfReach("a named animal of several groups may not work")
        if math.prod(problem.wanted) > _MOST_GOAL_STATES or len(wanted) > MOST_ROWS:
            raise OutOfReach("the goal has too many states")
        if not in_any_order(wanted):
            raise OutOfReach("goal rows overlap")
        self.herds = tuple(herd for herd in problem.herds if herd.held)
        self.seasons = problem.breeding_seasons
        self.rows = tuple(range(len(problem.wanted)))
        self.looks: list[tuple[Rows, int]] = [(self.rows, 1)]
        self.fixed, self.present = fixed_costs(problem), founders_present(problem)
        self.eggs_bound, self.keep_bound = eggs_bound(problem, workshop.breeders), keep_bound(problem)
        self.signature = "chain", tuple(herd.count for herd in problem.herds)
        self.goal: CountAlgebra = workshop.kept("chain goal", lambda: goal_counts(wanted, problem.wanted))
        self._known: dict[Probe, Totals] = {}
        self._shared: Shared = {}
        # So many points may be followed at once, for what is kept of what is laid.
        self.most_points = AT_ONCE
        nest = Nest(problem, workshop.kinds, self.rows, self.goal, parts_of(CHANCES)[0])
        self.courses = courses_of(problem, workshop, nest)
        self.jobs = Jobs(self.courses, tuple(herd.count for herd in self.herds))
        self._counted_and_held = self.courses.may_count_and_be_held(nest)
        if self._counted_and_held and self.goal.size > 1 and self._told_of_them() > _MOST_TOLD:
            raise OutOfReach("young that count for the goal may be held too in too many ways")

    def afresh(self, shop: Workshop, shared: Shared | None = None) -> ChainRoute:
        """The same route with nothing worked out yet but what it shares with other counts."""
        other = copy.copy(self)
        other.shop, other._known, other._shared = shop, {}, {} if shared is None else shared
        return other

    def _told_of_them(self) -> int:
        """How many numbers are told at every egg of young that count for the goal and may be held too."""
        return 3 * self.goal.size * math.prod(herd.count + 1 for herd in self.herds) ** 2

    def totals(self, _rows: Rows, probe: Probe) -> Totals:
        """The generating functions season by season, with the goal not met."""
        for _ in self.steps(probe):
            pass
        return self._known[probe]

    def steps(self, probe: Probe) -> Iterator[float]:
        """Works out the totals step by step; yields the share done."""
        if probe not in self._known:
            self._known[probe] = yield from self._steps(probe)

    def _steps(self, probe: Probe) -> Generator[float, None, Totals]:
        every = range(1, self.seasons + 1)
        variants = [Variant(season, kind) for season in every for kind in (ALIVE, ANYTHING)]

        def through(chain: Chain, job: Job, courses: list[Course]) -> Complex:
            return chain.through(courses, variants[job.cut])

        found = yield from self._followed("totals", self.jobs.of(variants), probe, through)
        one = np.ones((1, probe.points), dtype=complex)
        return Totals(np.concatenate([one, found[::2]]), np.concatenate([one, found[1::2]]))

    def _followed(
        self, what: Hashable, jobs: Sequence[Job], probe: Probe, follow: Follow, at_egg: AtEgg | None = None
    ) -> Generator[float, None, Complex]:
        """What jobs come to, summed up: [places that they are cut from, points]; yields the share done.

        follow: what one course of a job comes to, by what is looked at, with the goal's counts.
        """
        found = np.zeros((max((job.cut.stop for job in jobs), default=0), probe.points), dtype=complex)
        fresh = []
        for job in jobs:
            known = self._shared.get((what, probe, job.key))
            if known is None:
                fresh.append(job)
            else:
                found[job.cut] += job.chance * known
        # By the place of a job: what tells it from others is long.
        told = [np.zeros(found[job.cut].shape, dtype=complex) for job in self._worth_keeping(fresh, probe)]
        every, done = sum(len(job.ways) for job in fresh), 0.0
        for points, each in self._by_points(fresh).items():
            parts = parts_of(probe, points)
            for part in parts:
                chain, at = Chain(self, self.rows, self.goal, part, at_egg), slice(part.at, part.at + part.points)
                for place, courses in each:
                    yield done / every
                    job = fresh[place]
                    own = self.goal.total(follow(chain, job, courses))
                    found[job.cut, at] += job.chance * own
                    if told:
                        told[place][:, at] += own
                    done += 1 / len(parts)
        self._shared.update({(what, probe, job.key): own for job, own in zip(fresh, told, strict=False)})
        return found

    def _by_points(self, jobs: Sequence[Job]) -> dict[int, list[tuple[int, list[Course]]]]:
        """What is followed, with the place of its job, by at how many points at once."""
        found: dict[int, list[tuple[int, list[Course]]]] = {}
        for place, job in enumerate(jobs):
            for courses in job.ways:
                points = points_at_once(len(courses) * (job.cut.stop - job.cut.start), self.most_points)
                found.setdefault(points, []).append((place, courses))
        return found

    def _worth_keeping(self, jobs: Sequence[Job], probe: Probe) -> Sequence[Job]:
        """Jobs that other counts may share, as far as there is room."""
        kept = sum(own.size for own in self._shared.values())
        numbers = sum((job.cut.stop - job.cut.start) * probe.points for job in jobs)
        return jobs if kept + numbers <= _MOST_SHARED else ()

    def expectation_steps(self, probe: Joined) -> Iterator[None]:
        """Works out step by step what expectations take."""
        for _ in self.steps(probe):
            yield
        yield from self._extras_in_steps()
        for row in self.rows:
            yield from self._lacking_in_steps(row)
            if self.shop.price_of(row) is None:
                yield from self._worth_in_steps(row)

    def lacking(self, row: int, _probe: Joined) -> Floats:
        """Expected number of young that a row still lacks at the end of each season, 0 once the goal is met."""
        return finished(self._lacking_in_steps(row))

    def _lacking_in_steps(self, row: int) -> Generator[None, None, Floats]:
        return self.shop.kept_in_steps(("lacking", self.signature, row), lambda: self._lacks(row))

    def _lacks(self, row: int) -> Generator[None, None, Floats]:
        short = np.array([self.problem.wanted[row] - state[row] for state in self.goal.states])
        variants = [Variant(season, ALIVE) for season in range(1, self.seasons + 1)]
        chain = Chain(self, self.rows, self.goal, parts_of(CHANCES)[0])
        left = [float(self.problem.wanted[row])]
        total = np.zeros((self.seasons, self.goal.size))
        for job in self.jobs.of(variants):
            for courses in job.ways:
                yield
                total[job.cut] += job.chance * chain.through(courses, variants[job.cut])[:, :, 0].real
        return np.array([*left, *(total @ short)])

    def endings(self, _rows: Rows, _probe: Joined, probe: Probe, at_egg: AtEgg) -> Complex:
        """What happens at the egg that meets the goal, by season: [breeding seasons, points]."""
        return finished(self._ended(probe, at_egg))

    def egg_steps(self, probe: Joined) -> Generator[None, None, None]:
        """Works out step by step what happens at every egg."""
        yield from self._ended(probe.eggs, filling)
        yield from self._most_eggs_in_steps()

    def _ended(self, probe: Probe, at_egg: AtEgg) -> Generator[None, None, Complex]:
        key = "endings", self.signature, probe, at_egg
        return self.shop.kept_in_steps(key, lambda: self._end(probe, at_egg))

    def _end(self, probe: Probe, at_egg: AtEgg) -> Generator[None, None, Complex]:
        every = range(1, self.seasons + 1)
        jobs = [job for season in every for job in self.jobs.by_world(slice(season - 1, season), season)]

        def at(chain: Chain, job: Job, courses: list[Course]) -> Complex:
            variants = at_eggs(courses[0], job.season, {herd.index for herd in self.herds})
            found = chain.through(courses, variants) if variants else np.zeros((1, self.goal.size, 1), dtype=complex)
            summed: Complex = found.sum(axis=0, keepdims=True)
            return summed

        rest = self._followed(("at", at_egg), jobs, probe, at, at_egg)
        while True:
            try:
                next(rest)
            except StopIteration as end:
                found: Complex = end.value
                return found
            yield

    def check_prices(self) -> None:
        """Raises OutOfReach where young that count for one of several rows differ in price, as far as they are met."""
        if len(self.rows) > 1 and any(self.shop.price_of(row) is None for row in self.rows):
            raise OutOfReach("young that count for one of several rows differ in price")

    def check_held(self) -> Iterator[None]:
        """Raises OutOfReach where a season's young can be held in too many ways to tell what that leaves to sell.

        What is held in the last season changes no chance, so that nothing else may find it out.
        """
        free = Chain(self, *self._ways_to_look()[1], parts_of(CHANCES)[0])
        for season in range(1, self.seasons + 1):
            for job in self.jobs.by_world(slice(0, 1), season, held=True):
                for courses in job.ways:
                    yield
                    free.check_held(courses[0], season)

    def counted_worth(self, row: int, _probe: Joined) -> Floats:
        """What the young that count for a row would have brought, by season: [breeding seasons]."""
        return finished(self._worth_in_steps(row))[:, 0].real

    def _worth_in_steps(self, row: int) -> Generator[None, None, Complex]:
        key = "worth", self.signature, row
        return self.shop.kept_in_steps(key, lambda: self._end(EXPECTATIONS, selling(row)))

    def extras(self, _probe: Joined) -> Extras:
        """Young held, and those of them that counted for the goal, and what both would have brought."""
        return finished(self._extras_in_steps())

    def _extras_in_steps(self) -> Generator[None, None, Extras]:
        return self.shop.kept_in_steps(("extras", self.signature), self._add_extras)

    def _add_extras(self) -> Generator[None, None, Extras]:
        found = np.zeros((4, self.seasons))
        chain, free = (Chain(self, rows, goal, parts_of(CHANCES)[0]) for rows, goal in self._ways_to_look())
        for season in range(1, self.seasons + 1):
            for job in self.jobs.by_world(slice(0, 1), season, held=True):
                for courses in job.ways:
                    yield
                    looks = [(course, Variant(season, ANYTHING)) for course in courses]
                    for state, chances in chain.reached(looks, season).items():
                        taken = np.array(free.taken(courses[0], season, state))
                        found[:2, season - 1] += job.chance * chances.sum() * taken
                    if self._counted_and_held:
                        found[2:, season - 1] += job.chance * (yield from chain.counted_and_held(courses, season))
        return Extras(*found)

    def _ways_to_look(self) -> tuple[tuple[Rows, CountAlgebra], tuple[Rows, CountAlgebra]]:
        return (self.rows, self.goal), ((), GoalAlgebra(()))

    def most_eggs(self, _probe: Joined) -> int:
        """The most eggs that can be laid: those of all seasons that are not surely left out, the goal being met."""
        return finished(self._most_eggs_in_steps())

    def _most_eggs_in_steps(self) -> Generator[None, None, int]:
        return self.shop.kept_in_steps(("most eggs", self.signature), self._count_eggs)

    def _count_eggs(self) -> Generator[None, None, int]:
        biology = self.problem.biology
        if biology.lays == 0 or biology.works["female"] == 0:
            return 0
        chain = Chain(self, self.rows, self.goal, parts_of(CHANCES)[0])
        jobs = [(last, courses) for last in range(1, self.seasons + 1) for courses in self.courses.up_to(last)]
        bounds = [sum(map(len, courses[0].order[:last])) for last, courses in jobs]
        most = 0
        # Where all that may breed do is mostly the first one looked at.
        for place in sorted(range(len(jobs)), key=bounds.__getitem__, reverse=True):
            if bounds[place] <= most:
                break
            yield
            last, courses = jobs[place]
            most = max(most, chain.most_bred(courses, last))
        return most * biology.clutches * (len(biology.sizes) - 1)
