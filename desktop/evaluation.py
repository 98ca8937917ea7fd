"""One evaluation of a whole plan as steps: every route as drawn, then at its cheapest count; no Qt, no threads."""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterator
from dataclasses import dataclass

import msgspec

from core.plan.model import Bought, Held, Owned, Plan, Route, Scale
from core.plan.scale import scale_of
from core.routes.result import Comparison, RouteResult

_log = logging.getLogger(__name__)

EvaluateRoute = Callable[[Plan, Route], RouteResult]
Compare = Callable[[Plan, tuple[RouteResult, ...]], Comparison]


@dataclass(frozen=True, eq=False)
class RouteAnswer:
    """One route with its counts as drawn, and with the count that reaches the goal with the least money."""

    id: str
    drawn: RouteResult
    cheapest: RouteResult


@dataclass(frozen=True)
class RouteFailure:
    """A route that could not be worked out, and why, as a sentence."""

    id: str
    reason: str


@dataclass(frozen=True)
class Finished:
    """The end of an evaluation; `cheapest` is the route with the least money to the goal, or None."""

    cheapest: str | None


Step = RouteAnswer | RouteFailure | Finished


@dataclass(frozen=True)
class Engine:
    """The two questions asked of core."""

    evaluate_route: EvaluateRoute
    compare: Compare


def core_engine() -> Engine:
    """The real thing, imported only when first needed so that the window is up sooner."""
    from core.routes.evaluate import compare, evaluate_route

    return Engine(evaluate_route, compare)


def evaluation_steps(plan: Plan, engine: Engine) -> Iterator[Step]:
    """Yields an answer or a failure for every route of `plan` in its order, then `Finished`."""
    results: list[RouteResult] = []
    for route in plan.routes:
        try:
            answer = answer_route(plan, route, engine)
        except Exception as error:  # noqa: BLE001 - a fault in one route must not take the others down
            yield RouteFailure(route.id, _reason(error))
        else:
            results.append(answer.drawn)
            yield answer
    yield Finished(engine.compare(plan, tuple(results)).cheapest if results else None)


def answer_route(plan: Plan, route: Route, engine: Engine) -> RouteAnswer:
    """The route as drawn, and once more where another count reaches the goal for less."""
    drawn = engine.evaluate_route(plan, route)
    to_goal = drawn.to_goal
    if to_goal is None or to_goal.count is None or to_goal.count == drawn_count(route):
        return RouteAnswer(route.id, drawn, drawn)
    return RouteAnswer(route.id, drawn, engine.evaluate_route(plan, at_count(route, to_goal.count)))


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
    return "Something unexpected happened while this route was worked out; the other routes are not affected."
