"""Every caution on a plan: of the whole, and beside each route."""

from __future__ import annotations

from core.advice.breeding import breeding_cautions
from core.advice.caution import Caution
from core.advice.goal import goal_cautions, room_cautions
from core.advice.health import goal_health_cautions, health_cautions, lethal_cautions
from core.advice.ideal import ideal_cautions
from core.advice.kin import kin_cautions
from core.advice.surplus import surplus_cautions
from core.explain.numbers import Numbers, PlainNumbers
from core.plan.model import Plan, Route
from core.routes.prepare import prepare
from core.routes.result import RouteResult

PLAIN = PlainNumbers()


def plan_cautions(plan: Plan) -> tuple[Caution, ...]:
    """Cautions that concern the whole plan."""
    return (*goal_health_cautions(plan), *ideal_cautions(plan))


def route_cautions(plan: Plan, route: Route, result: RouteResult, numbers: Numbers = PLAIN) -> tuple[Caution, ...]:
    """Cautions on one route at the counts it has; `result`: its evaluation at these counts; `numbers`: how to write.

    Errors: those of preparing a route, which then has no result either.
    """
    problem = prepare(plan, route, crowded=True)
    ends = result.as_drawn.season if result.as_drawn else plan.goal.seasons
    return (
        *kin_cautions(plan, route, numbers),
        *health_cautions(plan, route),
        *lethal_cautions(problem, numbers),
        *goal_cautions(problem),
        *breeding_cautions(problem, ends),
        *room_cautions(problem, result, numbers),
        *surplus_cautions(plan, route, result, numbers),
    )
