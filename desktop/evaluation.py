"""One evaluation of a whole plan as steps: every route as drawn, then at its cheapest count; no Qt, no threads."""

from __future__ import annotations

import logging
import time
from collections.abc import Callable, Collection, Generator, Iterator, Sequence
from functools import partial
from typing import TYPE_CHECKING

import msgspec

from core.plan.model import Bought, Held, Owned, Pairing, Plan, Route, Scale
from core.plan.scale import scale_of
from core.progress import Long
from core.routes.result import RouteResult
from core.text import tr

if TYPE_CHECKING:
    from core.routes.exact.recent import Recent

# More signals a second than this make a window stutter.
PROGRESS_A_SECOND = 30
_BROKEN = tr("The routes could not be worked out: a part of the program is missing or broken.")
_log = logging.getLogger(__name__)

# One route step by step: yields the share done so far, 0..1, and returns the result.
Engine = Callable[[Plan, Route], Generator[float, None, RouteResult]]


class RouteAnswer(msgspec.Struct, frozen=True, eq=False):
    """One route with its counts as drawn, and with the count that reaches the goal with the least money.

    early: simulated, while the exact answer takes its time: that one comes later.
    """

    id: str
    drawn: RouteResult
    cheapest: RouteResult
    early: bool = False


class RouteFailure(msgspec.Struct, frozen=True):
    """A route that could not be worked out, and why, as a sentence."""

    id: str
    reason: str


class Finished(msgspec.Struct, frozen=True):
    """The end of an evaluation."""


class Underway(msgspec.Struct, frozen=True):
    """A route that is being worked out, and the share of it that is done."""

    id: str
    share: float


Step = RouteAnswer | RouteFailure | Underway | Finished
# Asks which routes are waited for most, by id.
Wanted = Callable[[], Collection[str]]
# The steps of some routes of a plan; None while nothing is to be told.
Working = Callable[[Plan, Sequence[Route], Engine, Wanted], Iterator[Step | None]]


def core_engine() -> Engine:
    """The real thing, imported only when first needed so that the window is up sooner."""
    from core.routes.evaluate import evaluate_steps

    return evaluate_steps


class RecentEngine:
    """The same for a plan that changes: routes that breed as they did a moment ago are told at their new prices."""

    def __init__(self) -> None:
        self._recent: Recent | None = None

    def __call__(self) -> Engine:
        """The engine, which remembers."""
        from core.routes.evaluate import evaluate_steps
        from core.routes.exact.recent import Recent

        self._recent = self._recent or Recent()
        return partial(evaluate_steps, recent=self._recent)

    def knows(self, plan: Plan, route: Route) -> bool:
        """Whether a route breeds as it did when it was last worked out."""
        return self._recent is not None and self._recent.knows(plan, route)

    def forget_gone(self, plan: Plan) -> None:
        """Lets go of what is remembered of routes that a plan no longer has."""
        if self._recent:
            self._recent.forget_gone(plan)


def nothing_first() -> frozenset[str]:
    """No route is waited for more than another."""
    return frozenset()


def batches(
    plan: Plan,
    engine: Callable[[], Engine],
    only: Collection[str] | None = None,
    first: Wanted = nothing_first,
    working: Working | None = None,
) -> Iterator[list[Step]]:
    """The steps of an evaluation, gathered so that progress is told at most 30 times a second.

    `only`: the ids of the routes to work out; `first`: of those that are waited for most, asked before each route;
    `working`: who works them out, here by default.

    An empty batch is for the caller to look up whether to go on, and is not to be sent.
    A part of the program that does not load becomes a failure of every route.
    """
    routes = [route for route in plan.routes if only is None or route.id in only]
    waiting: list[Step] = []
    last = 0.0
    try:
        for step in (working or route_steps)(plan, routes, engine(), first):
            waiting += [] if step is None else [step]
            now = time.monotonic()
            # Answers go out at once, as the next route may take long; progress alone waits its turn.
            if step and (not isinstance(step, Underway) or (step.share and now - last >= 1 / PROGRESS_A_SECOND)):
                yield waiting
                waiting, last = [], now
            else:
                yield []
    except Exception as error:  # noqa: BLE001 - the person gets a sentence, never a traceback
        _log.debug("an evaluation failed", exc_info=error)
        yield [*(RouteFailure(route.id, _BROKEN) for route in routes), Finished()]


def evaluation_steps(plan: Plan, engine: Engine) -> Iterator[Step]:
    """Yields progress and an answer or a failure for every route of `plan`, then `Finished`."""
    return route_steps(plan, plan.routes, engine, nothing_first)


def route_steps(plan: Plan, routes: Sequence[Route], engine: Engine, first: Wanted) -> Iterator[Step]:
    """The same for some of its routes: those that `first` names go first, and quick ones before slow ones."""
    left = sorted(routes, key=lambda route: slowness(plan, route))
    while left:
        wanted = first()
        route = next((route for route in left if route.id in wanted), left[0])
        left.remove(route)
        yield from tried(plan, route, engine)
    yield Finished()


def tried(plan: Plan, route: Route, engine: Engine) -> Iterator[Step]:
    """Progress of one route, then its answer or failure."""
    try:
        yield (yield from answer_route(plan, route, engine))
    except Exception as error:  # noqa: BLE001 - a fault in one route must not take the others down
        yield RouteFailure(route.id, _reason(error))


def answer_route(plan: Plan, route: Route, engine: Engine) -> Generator[Step, None, RouteAnswer]:
    """The route as drawn, and at the count that reaches the goal for less where that is another.

    Where that takes many seconds a simulated answer goes before it.
    """
    steps = engine(plan, route)
    told_early = False
    while True:
        try:
            share = next(steps)
        except StopIteration as end:
            return _answer(route, end.value)
        if isinstance(share, Long) and not told_early:
            told_early = True
            yield (yield from _early(plan, route))
        yield Underway(route.id, share)


def _early(plan: Plan, route: Route) -> Generator[Step, None, RouteAnswer]:
    from core.routes.evaluate import played_steps

    steps = played_steps(plan, route)
    while True:
        try:
            next(steps)
        except StopIteration as end:
            return _answer(route, end.value, early=True)
        yield Underway(route.id, 0.0)


def _answer(route: Route, result: RouteResult, *, early: bool = False) -> RouteAnswer:
    return RouteAnswer(route.id, result, result.at_cheapest or result, early)


def slowness(plan: Plan, route: Route) -> int:
    """What there is to work out, roughly: in how many seasons young may be held back, over all groups."""
    pairings = {pairing.id: pairing for pairing in route.pairings}
    held = [group for group in route.groups if isinstance(group, Held)]
    return sum(max(_seasons(plan, pairings[source]) for source in group.source) for group in held)


def _seasons(plan: Plan, pairing: Pairing) -> int:
    first, last = pairing.seasons
    return (last or plan.goal.seasons) - (first or 1) + 1


def drawn_count(route: Route) -> int | None:
    """The one count that all scaled groups have as drawn, or None where they differ."""
    scale = scale_of(route)
    counts = {group.count for group in route.groups if scale and group.id in scale.groups}
    return counts.pop() if len(counts) == 1 else None


def at_count(route: Route, count: int) -> Route:
    """The route with `count` set on its scaled groups, and no other count tried."""
    scale = scale_of(route)
    if scale is None:
        return route
    groups = tuple(_counted(group, count) if group.id in scale.groups else group for group in route.groups)
    return msgspec.structs.replace(route, groups=groups, scale=Scale(groups=scale.groups, counts=(count,)))


def _counted(group: Bought | Owned | Held, count: int) -> Bought | Owned | Held:
    return msgspec.structs.replace(group, count=count)


def _reason(error: Exception) -> str:
    text = str(error).strip()
    if isinstance(error, ValueError) and text:
        return text
    _log.debug("a route failed", exc_info=error)
    return tr("Something unexpected happened while this route was worked out; the other routes are not affected.")
