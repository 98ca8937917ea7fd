"""Any valid plan is explained: both ends of the ladder, the crosses, the trap, the people and the money."""

from __future__ import annotations

import json
import os
from typing import Any
from unittest.mock import patch

import msgspec
import pytest
from hypothesis import given, settings

from core.explain.beats import Contender, decisive_sentence, money_lines, season_lines
from core.explain.crosses import Cross
from core.explain.money import spending_steps
from core.explain.numbers import PlainNumbers
from core.explain.rungs import gap_sentence, headline, order_sentence, points_text, rung_note
from core.explain.why import Why, average_sentence, cross_title, product_text, why_steps
from core.plan.model import Route, Scale
from core.plan.read import read_plan
from core.progress import finished
from core.routes.evaluate import evaluate_route
from core.routes.exact.chain import counts
from tests.reference.plans import plans

EXAMPLES = int(os.environ.get("PAIRWRIGHT_EXAMPLES", "12"))
NUMBERS = PlainNumbers()


@settings(max_examples=EXAMPLES, deadline=None)
@given(told=plans(generations=2, routes=2))
@patch.object(counts, "_MOST_WORK", 1e9)
def test_any_valid_plan_is_explained(told: Any) -> None:
    # What takes long is played here: it is explained by the same words.
    plan = read_plan(json.dumps(told).encode())
    plan = msgspec.structs.replace(plan, simulation=msgspec.structs.replace(plan.simulation, runs=25))
    season = plan.goal.seasons
    contenders = []
    for route in map(as_drawn_only, plan.routes):
        result = evaluate_route(plan, route)
        known: Any = {}
        for from_end in (False, True):
            why = finished(why_steps(plan, route, result, season, from_end=from_end, known=known))
            holds_together(why, season)
            if [want.count for want in plan.goal.want] == [1] and why.crosses and ladder_is_bred(why, route):
                assert why.misses[0].miss == pytest.approx(1 - why.ladder.textbook[season - 1], abs=1e-9)
        for rung in why.ladder.rungs:
            assert rung_note(plan, rung.truth, applies=rung.applies).endswith(".")
        spending = finished(spending_steps(plan, route, result))
        assert spending.total == pytest.approx(result.paid_by_season, abs=1e-6)
        contenders.append(Contender(route.name, why.ladder, spending, result.to_goal))
    first, second = contenders
    assert decisive_sentence(first, second, 0.8, season, NUMBERS).endswith(".")
    kinds = money_lines(first, second, season)
    assert sum(line.difference for line in kinds[:-1]) == pytest.approx(kinds[-1].difference, abs=1e-6)
    by_season = sum(line.first for line in season_lines(first, second))
    assert by_season == pytest.approx(kinds[-1].first, abs=1e-6)


def as_drawn_only(route: Route) -> Route:
    """The route with no other count tried: one group at its own count."""
    group = next((group for group in route.groups if group.count), None)
    scale = Scale(groups=(group.id,), counts=(group.count,)) if group is not None and group.count else None
    return msgspec.structs.replace(route, scale=scale)


def ladder_is_bred(why: Why, route: Route) -> bool:
    """Whether the textbook's figure comes from eggs alone, and exactly."""
    return route.buy_outright is None and why.ladder.runs is None


def holds_together(why: Why, season: int) -> None:
    ladder = why.ladder
    total = sum(rung.points(season) for rung in ladder.rungs)
    assert total == pytest.approx(100 * (ladder.real - ladder.textbook)[season - 1], abs=1e-9)
    assert why.people.reached + sum(many for _, many in why.people.missed) == 100
    assert headline(ladder, season)[-1].endswith(".")
    assert gap_sentence(ladder, season, NUMBERS).endswith(".")
    assert order_sentence(ladder).endswith(".")
    assert all(points_text(rung.points(season), NUMBERS) for rung in ladder.rungs)
    for cross in why.crosses:
        multiplies(cross)
    for trap in why.traps:
        assert sum(line.chance for line in trap.lines) == pytest.approx(1, abs=1e-9)


def multiplies(cross: Cross) -> None:
    product = 1.0
    for factor in cross.factors:
        product *= factor.chance
    assert product == pytest.approx(cross.per_egg, abs=1e-12)
    assert cross_title(cross)
    assert product_text(cross)
    assert average_sentence(cross) == "" or average_sentence(cross).endswith(".")
    for grid in cross.grids:
        cells = [cell for row in grid.cells for cell in row]
        if cells:
            assert sum(cell.chance for cell in cells) == pytest.approx(1, abs=1e-9)
            assert sum(cell.chance for cell in cells if cell.is_wanted) == pytest.approx(grid.chance, abs=1e-12)
        assert grid.sentence()
