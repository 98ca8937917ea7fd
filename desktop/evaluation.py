"""One evaluation of a whole plan as steps: every route as drawn, then at its cheapest count; no Qt, no threads."""

from __future__ import annotations

import logging
import time
from collections.abc import Callable, Collection, Generator, Iterator
from functools import partial
from typing import TYPE_CHECKING

import msgspec

from core.plan.model import Bought, Held, Owned, Plan, Route, Scale
from core.plan.scale import scale_of
from core.routes.result import RouteResult
from core.text import tr

if TYPE_CHECKING:
    from core.routes.exact.recent import Recent

# More signals a second than this make a window stutter.
_PROGRESS_A_SECOND = 30
_BROKEN = tr("The routes could not be worked out: a part of the program is missing or broken.")
_log = logging.getLogger(__name__)

# One route step by step: yields the share done so far, 0..1, and returns the result.
Engine = Callable[[Plan, Route], Generator[float, None, RouteResult]]


class RouteAnswer(msgspec.Struct, frozen=True, eq=False):
    """One route with its counts as drawn, and with the count that reaches the goal with the least money."""

    id: str
    drawn: RouteResult
    cheapest: RouteResult


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
    first: Callable[[], Collection[str]] = nothing_first,
) -> Iterator[list[Step]]:
    """The steps of an evaluation, gathered so that progress is told at most 30 times a second.

    `only`: the ids of the routes to work out; `first`: of those that are waited for most, asked before each route.

    An empty batch is for the caller to look up whether to go on, and is not to be sent.
    A part of the program that does not load becomes a failure of every route.
    """
    if only is not None:
        plan = msgspec.structs.replace(plan, routes=tuple(route for route in plan.routes if route.id in only))
    waiting: list[Step] = []
    last = 0.0
    try:
        for step in evaluation_steps(plan, engine(), first):
            waiting.append(step)
            now = time.monotonic()
            # Answers go out at once, as the next route may take long; progress alone waits its turn.
            if not isinstance(step, Underway) or (step.share and now - last >= 1 / _PROGRESS_A_SECOND):
                yield waiting
                waiting, last = [], now
            else:
                yield []
    except Exception as error:  # noqa: BLE001 - the person gets a sentence, never a traceback
        _log.debug("an evaluation failed", exc_info=error)
        yield [*(RouteFailure(route.id, _BROKEN) for route in plan.routes), Finished()]


def evaluation_steps(
    plan: Plan, engine: Engine, first: Callable[[], Collection[str]] = nothing_first
) -> Iterator[Step]:
    """Yields progress and an answer or a failure for every route of `plan`, then `Finished`.

    Those that `first` names go first, and quick ones before slow ones.
    """
    left = sorted(plan.routes, key=_is_slow)
    while left:
        wanted = first()
        route = next((route for route in left if route.id in wanted), left[0])
        left.remove(route)
        try:
            answer = yield from answer_route(plan, route, engine)
        except Exception as error:  # noqa: BLE001 - a fault in one route must not take the others down
            yield RouteFailure(route.id, _reason(error))
        else:
            yield answer
    yield Finished()


def answer_route(plan: Plan, route: Route, engine: Engine) -> Generator[Step, None, RouteAnswer]:
    """The route as drawn, and at the count that reaches the goal for less where that is another."""
    steps = engine(plan, route)
    while True:
        try:
            share = next(steps)
        except StopIteration as end:
            result: RouteResult = end.value
            return RouteAnswer(route.id, result, result.at_cheapest or result)
        yield Underway(route.id, share)


def _is_slow(route: Route) -> bool:
    """Routes that hold young back have the most to work out."""
    return any(isinstance(group, Held) for group in route.groups)


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
