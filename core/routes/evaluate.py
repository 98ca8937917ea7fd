"""Every route's answer: exact where that is in reach, else simulated."""

from __future__ import annotations

from collections.abc import Callable, Generator, Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from functools import cached_property, partial

import numpy as np

from core.genetics.compile import Genetics, compile_genetics
from core.plan.chances import chance
from core.plan.model import Plan, Route, Scale
from core.plan.scale import scale_of
from core.progress import finished
from core.routes.answer import Answer, Expectations, Expected, InSteps, untold
from core.routes.assemble import Counted, Fixed, cheapest, closest, compare, route_result
from core.routes.exact.eggs import Joined, joined
from core.routes.exact.finer import told_again, told_finer
from core.routes.exact.holding import HoldingRoute
from core.routes.exact.in_pieces import counts_in_pieces
from core.routes.exact.lattice import Lattice
from core.routes.exact.limits import MOST_HELD, MOST_KEPT, MOST_NUMBERS, OutOfReach, OutOfRoom, Room
from core.routes.exact.met import end_together, is_ended, unmet
from core.routes.exact.plain import Workshop
from core.routes.exact.reach import STEPWISE, ExactRoute, check_at_once, exact_routes, workshop
from core.routes.exact.recent import Recent
from core.routes.exact.solve import answer, beaten, expected, lattice_of
from core.routes.inbreeding import inbreeding_by_pairing
from core.routes.per_egg import per_egg_by_pairing
from core.routes.prepare import prepare
from core.routes.problem import Problem
from core.routes.result import Comparison, RouteResult

# Where groups hold more, chains of counts take less than telling nurseries apart.
_FEW_HELD = 3
# Numpy copies parts of larger arrays into a buffer before it joins them, which takes as long again, unless that is
# shorter than their rows. It is the thread's own, and of no use to anything else here.
_ROW = 512
# Share of the work done so far, 0..1, yielded by long evaluations.
Progress = float


def evaluate(plan: Plan, is_long: Callable[[Route], None] = lambda _: None) -> Comparison:
    """Every route of a plan evaluated, and the cheapest; `is_long` hears of each that takes many seconds."""
    genetics = compile_genetics(plan.genes, plan.linkage, plan.species)
    found = [finished(evaluate_steps(plan, route, genetics), partial(is_long, route)) for route in plan.routes]
    return compare(found)


def evaluate_route(plan: Plan, route: Route, genetics: Genetics | None = None) -> RouteResult:
    """One route evaluated to the end; `genetics`: the plan's, where compiled before."""
    return finished(evaluate_steps(plan, route, genetics))


@dataclass(frozen=True, eq=False)
class Engined:
    """What the engines say of one route at every count of its scale, before it is put into a report.

    problems, answers: an entry a count of `counts` (None: nothing to scale), and one more for the counts as drawn
    where those are none of them; `place`: where those as drawn stand; `played`: runs, where simulated.
    """

    counts: list[int | None]
    problems: list[Problem]
    answers: list[Answer]
    expectations: Expectations
    place: int
    played: int | None

    @cached_property
    def scaled(self) -> list[Counted]:
        """The answers at every count of the scale."""
        return [Counted(count, each) for count, each in zip(self.counts, self.answers, strict=False)]

    @cached_property
    def drawn(self) -> Counted:
        """The counts as drawn; `count` is None where scaled groups have several."""
        if self.place < len(self.counts):
            return self.scaled[self.place]
        problem = self.problems[self.place]
        return Counted(_drawn_count(problem, scale_of(problem.route)), self.answers[self.place])

    def told(self, plan: Plan) -> int:
        """Where the count stands that reaches the goal for least; where none does, the one that comes closest."""
        best = cheapest(self.scaled, chance(plan.goal.chance), plan.goal.seasons)
        one = closest(self.scaled, self.drawn) if best is None else best
        return self.place if one is self.drawn else self.scaled.index(one)


def engine_steps(
    plan: Plan, route: Route, genetics: Genetics | None = None, recent: Recent | None = None, *, bare: bool = False
) -> Generator[Progress, None, Engined]:
    """What the engines say of one route, step by step; exact where that is in reach, else simulated.

    recent: what was worked out before, and where what is worked out now is remembered. bare: exact answers tell chances
    and money alone, which takes a fraction of the time; they are none to report then.
    """
    if genetics is None and recent is not None:
        genetics = recent.genetics(plan)
    counts, every, place = _every_count(plan, route, genetics)
    yield 0.0
    try:
        answers, expectations = yield from exact_steps(every, place, recent, bare=bare)
        if not bare and (finer := told_finer(every, place, answers)):
            # Young held back would be looked for in other ways if bare, and take longer than they did.
            answers = yield from told_again(answers, exact_steps(finer, place, bare=not every[place].holds))
    except OutOfReach:
        return (yield from _played(plan, counts, every, place))
    return Engined(counts, every, answers, expectations, place, None)


def _every_count(plan: Plan, route: Route, genetics: Genetics | None) -> tuple[list[int | None], list[Problem], int]:
    """The counts of a route, what there is to work out for them and for those as drawn, and where those stand."""
    problem = prepare(plan, route, genetics, crowded=True)
    scale = scale_of(route)
    counts: list[int | None] = [*sorted(set(scale.counts))] if scale else [None]
    problems = [problem.with_counts(scale.groups, count) for count in counts if count] if scale else [problem]
    drawn = next((i for i, scaled in enumerate(problems) if scaled.herds == problem.herds), None)
    return (counts, problems, drawn) if drawn is not None else (counts, [*problems, problem], len(problems))


def _played(
    plan: Plan, counts: list[int | None], every: list[Problem], place: int
) -> Generator[Progress, None, Engined]:
    # Most plans never need it, and a start of the program waits for what is imported.
    from core.routes.simulated import simulated_counts

    answers, expectations = yield from simulated_counts(every, place)
    return Engined(counts, every, answers, expectations, place, plan.simulation.runs)


def evaluate_steps(
    plan: Plan, route: Route, genetics: Genetics | None = None, recent: Recent | None = None
) -> Generator[Progress, None, RouteResult]:
    """One route evaluated step by step, so that a caller can show progress or stop; the result is the return value.

    recent: for a caller that evaluates a plan as it changes; the answers are the same without. Yields a share that is
    `Long` where it turns out that the rest takes many seconds.
    """
    said = yield from engine_steps(plan, route, genetics, recent)
    worked = said.expectations
    if not isinstance(worked, InSteps):
        return reported(plan, route, said)
    for place in {said.place, said.told(plan)}:
        yield from worked.steps(place)
    result = reported(plan, route, said)
    if not (recent and recent.has(route)):
        worked.forget()
    return result


def played_steps(plan: Plan, route: Route) -> Generator[Progress, None, RouteResult]:
    """What playing a route tells, whether or not there is an exact answer: for a caller who is told `Long`."""
    said = yield from _played(plan, *_every_count(plan, route, None))
    return reported(plan, route, said)


def reported(plan: Plan, route: Route, said: Engined) -> RouteResult:
    """What the engines say of one route, put into a report."""
    place, played = said.place, said.played
    fixed = Fixed(route.id, per_egg_by_pairing(said.problems[place]), inbreeding_by_pairing(plan, route))
    result = route_result(plan, fixed, said.scaled, said.drawn, said.expectations(place), played=played)
    best = said.told(plan)
    if best == place:
        return result
    one = [said.scaled[best]]
    return replace(result, at_cheapest=route_result(plan, fixed, one, one[0], said.expectations(best), played=played))


def exact_counts(
    problems: Sequence[Problem],
    drawn: int,
    recent: Recent | None = None,
    most_held: int = MOST_HELD,
    bare: bool = False,
) -> Generator[Progress, None, tuple[list[Answer], Expectations]]:
    """Answers for every set of counts, and expectations for the one at a place; yields the share done.

    Raises OutOfReach, also where nurseries would be told apart, and a group holds more than `most_held`. bare: of
    chances and money alone.
    """
    known = recent.told(problems, lattice_of) if recent else None
    if known is not None:
        return known
    shop = workshop(problems[drawn])
    _begin_afresh(shop)
    try:
        routes = exact_routes(problems, shop)
        worked = yield from _worked(problems, routes, most_held, bare)
    except (OutOfReach, GeneratorExit):
        shop.forget()
        raise
    if bare:
        shop.forget()
        return [replace(one, eggs=untold) for one in worked.answers], untold
    if recent:
        recent.keep(routes, worked.lattice, worked.probe)
    return worked.answers, worked


def _begin_afresh(shop: Workshop) -> None:
    """Nothing kept, and room for half of what may be: what happens at every egg takes as much again if asked for."""
    shop.forget()
    shop.room = Room(MOST_NUMBERS, MOST_KEPT // 2)


@dataclass(frozen=True, eq=False)
class Worked(InSteps):
    """Routes worked out at every count; expectations are read off them when they are asked for."""

    routes: Sequence[ExactRoute]
    lattice: Lattice
    probe: Joined
    answers: list[Answer]

    def __call__(self, place: int) -> Expected:
        """The expectations of the set of counts at a place."""
        return expected(self.routes[place], self.probe)

    def steps(self, place: int) -> Iterator[Progress]:
        """Works out step by step what happens at every egg."""
        route = self.routes[place]
        for _ in route.egg_steps(self.probe) if isinstance(route, STEPWISE) else ():
            yield 1.0

    def forget(self) -> None:
        """Lets go of what was kept meanwhile."""
        self.routes[0].shop.forget()


def _worked(
    problems: Sequence[Problem], routes: Sequence[ExactRoute], most_held: int, bare: bool
) -> Generator[Progress, None, Worked]:
    """All counts at all points at once."""
    apart = [route for route in routes if isinstance(route, HoldingRoute)]
    if any(_held(route) > most_held for route in apart):
        raise OutOfReach("other ways may take less")
    # What is looked at here is asked for again where a whole answer is wanted; else the most that is held tells enough.
    for holding in sorted(apart, key=_held)[-1:] if bare else apart:
        for _ in holding.check():
            yield 0.0
        for _ in () if bare else holding.check_held():
            yield 0.0
    lattice = lattice_of(routes)
    most_eggs = max(route.eggs_bound for route in routes)
    check_at_once(_largest(problems), most_eggs, lattice)
    probe = joined(0 if bare else most_eggs, lattice)
    answers: list[Answer] = []
    worse = beaten(routes, lattice)
    # Of chances and money alone nobody asks on about counts that are answered: they need not be kept together.
    for some in [[route] for route in routes] if bare else [routes]:
        if bare and some[0].shop.room.fills:
            _begin_afresh(some[0].shop)
        share = (len(answers) + len(some)) / len(routes)
        if not all(map(is_ended, some)):
            yield from _worked_out(some, probe, len(answers), len(routes))
            if not bare:
                some[0].shop.room.lift()
            for _ in end_together(some, lattice, probe):
                yield share
        for route in some:
            answers.append(answer(route, lattice, probe, beaten=worse[len(answers)]))
            yield share
    return Worked(routes, lattice, probe, answers)


def _worked_out(routes: Sequence[ExactRoute], probe: Joined, before: int, many: int) -> Generator[Progress, None, None]:
    """What answers are read off; yields the share done, `before` of `many` being over."""
    for place, route in enumerate(routes, start=before):
        route.shop.room.rest()
        for _ in route.steps(probe) if isinstance(route, STEPWISE) else ():
            yield place / many
        unmet(route, probe)
        yield (place + 1) / many


def exact_steps(
    problems: Sequence[Problem], drawn: int, recent: Recent | None = None, *, bare: bool = False
) -> Generator[Progress, None, tuple[list[Answer], Expectations]]:
    """The same step by step, in the way that takes least: chains of counts where many are held."""
    np.setbufsize(_ROW)
    if problems[drawn].holds:
        with suppress(OutOfReach):
            return (yield from exact_counts(problems, drawn, recent, _FEW_HELD, bare))
        with suppress(OutOfReach):
            return (yield from _chained(problems, drawn, recent, quick=True, bare=bare))
    try:
        return (yield from exact_counts(problems, drawn, recent, MOST_HELD, bare))
    except OutOfReach as reason:
        in_pieces = isinstance(reason, OutOfRoom)
    yield 0.0
    ways = [partial(_chained, problems, drawn, recent, quick=False, bare=bare)] if problems[drawn].holds else []
    if in_pieces:
        # Of chances and money alone pieces take less than chains; with what happens at every egg they take more.
        ways.insert(0 if bare else len(ways), partial(counts_in_pieces, problems, drawn, lattice_of, bare=bare))
    for way in ways:
        with suppress(OutOfReach):
            return (yield from way())
    raise OutOfReach("no exact answer within reach")


def _chained(
    problems: Sequence[Problem], drawn: int, recent: Recent | None, *, quick: bool, bare: bool
) -> Generator[Progress, None, tuple[list[Answer], Expectations]]:
    # Most plans never need it, and a start of the program waits for what is imported.
    from core.routes.exact.chain.counts import chained_counts

    return (yield from chained_counts(problems, drawn, lattice_of, recent, quick=quick, bare=bare))


def _held(route: ExactRoute) -> int:
    """The most that one group holds."""
    return max(herd.count for herd in route.problem.herds if herd.held)


def _largest(problems: Sequence[Problem]) -> Problem:
    return max(problems, key=lambda problem: sum([herd.count for herd in problem.herds]))


def _drawn_count(problem: Problem, scale: Scale | None) -> int | None:
    """The count as drawn, where all groups of the scale have the same."""
    counts = {herd.count for herd in problem.herds if scale and herd.id in scale.groups}
    return counts.pop() if len(counts) == 1 else None
