"""Any valid plan: a price changed in an answer is a price changed in the plan; every advice comes out in words."""

from __future__ import annotations

import json
import os
from typing import Any

from hypothesis import given, settings
from msgspec.structs import replace

from core.advice.matters import ranked
from core.advice.matters_words import end_words, flip_words, range_words
from core.advice.matters_work import assumptions, matters_steps
from core.advice.worth import worth_steps
from core.advice.worth_money import money_needed, priced
from core.advice.worth_words import lot_words, reason_words, verdict_words
from core.explain.numbers import PlainNumbers
from core.plan.chances import chance
from core.plan.check import check_plan
from core.plan.model import Bought, Plan, Route
from core.plan.read import read_plan
from core.progress import finished
from core.routes.evaluate import engine_steps
from tests.reference.plans import plans

EXAMPLES = int(os.environ.get("PAIRWRIGHT_EXAMPLES", "25"))
PLAIN = PlainNumbers()


def quick(told: Any) -> Plan:
    plan = read_plan(json.dumps(told).encode())
    return replace(plan, simulation=replace(plan.simulation, runs=25))


@settings(max_examples=EXAMPLES, deadline=None)
@given(told=plans(generations=2))
def test_a_price_changed_in_the_answer_is_a_price_changed_in_the_plan(told: Any) -> None:
    plan = quick(told)
    goal = chance(plan.goal.chance)
    (route,) = plan.routes
    before = finished(engine_steps(plan, route))
    for place, group in enumerate(route.groups):
        if not isinstance(group, Bought):
            continue
        for price in (0.0, group.price * 1.5 + 10):
            after = finished(engine_steps(plan, _at(route, group.id, price)))
            pairs = zip(before.problems, before.scaled, after.scaled, strict=False)
            for problem, counted, changed in pairs:
                anew = priced(problem, counted.answer, [place])
                money, afresh = anew.money(price, goal), money_needed(changed, goal)
                assert (money is None) == (afresh is None)
                if money is None or afresh is None:
                    continue
                step = max(counted.answer.grid.step, changed.answer.grid.step)
                assert abs(money - afresh) <= step + 1e-6
                # And back: this money bears that price, to a step.
                most = anew.most(money, goal)
                assert most is not None
                assert most >= price - 1e-6
                if most < price + 1e9:
                    assert (anew.money(most, goal) or 0.0) <= money + 1e-6


def _at(route: Route, name: str, price: float) -> Route:
    groups = tuple(
        replace(group, price=price) if isinstance(group, Bought) and group.id == name else group
        for group in route.groups
    )
    return replace(route, groups=groups)


@settings(max_examples=max(1, EXAMPLES // 6), deadline=None)
@given(told=plans(tiny=True, routes=2))
def test_any_valid_plan_has_prices_and_sensitivities_in_words(told: Any) -> None:
    plan = quick(told)
    answered = finished(worth_steps(plan, most_more=6))
    for row in answered.rows:
        assert row.most is None or row.most >= 0
        assert lot_words(plan, row.lot)
        assert verdict_words(row, PLAIN)
        assert reason_words(plan, answered.lots, row, PLAIN).endswith(".")
    every = assumptions(plan)
    for one in every:
        for end in (one.low, one.high):
            assert check_plan(one.put(plan, end)) == ()
        assert range_words(plan, one, PLAIN).endswith(".")
    matters = finished(matters_steps(plan))
    for route in plan.routes:
        moving, idle = ranked(matters, route.id)
        assert len(moving) + len(idle) == len(every)
        for effect in moving:
            assert end_words(plan, effect, effect.low, route.id, None, PLAIN)
            for flip in effect.flips:
                assert flip_words(plan, effect.assumption, flip, PLAIN).endswith(".")
