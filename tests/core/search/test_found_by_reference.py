"""Every route that is found, worked out afresh by the slow reference, which goes through every way a run can go."""

from __future__ import annotations

import json
import math
from typing import Any

import msgspec
import pytest

from core.plan.model import Plan
from core.plan.write import write_plan
from core.progress import finished
from core.search.find import find
from core.search.found import Proposal
from tests.core.search.search_cases import HET, VISUAL, sheet
from tests.reference.enumerate import enumerate_route
from tests.reference.results import Result

# One egg a clutch, and two seasons: few enough ways.
ONE_EGG: dict[str, Any] = {"clutch": {"fixed": 1}}
RISKS = {**ONE_EGG, "lays": 0.9, "hatches": 0.8, "breeds": {"male": 0.9, "female": 0.95}, "reaches_breeding": 0.8}
PAIR = [{"forms": {"lav": "lavender"}, "sex": sex} for sex in ("male", "female")]
YOUNG = [
    {"id": "m", "sex": "male", "carries": VISUAL, "price": 20, "ready_in": 1},
    {"id": "f", "sex": "female", "carries": HET, "price": 30, "quantity": 2},
    {"id": "p", "sex": "female", "carries": {}, "price": 2, "quantity": 2},
]
MINE = [
    {"id": "M", "name": "Flint", "sex": "male", "carries": HET},
    {"id": "F", "name": "Hazel", "sex": "female", "sire": "M", "dam": "G"},
    {"id": "G", "name": "Juniper", "sex": "female", "carries": HET},
]
PLANS = {
    "plain": sheet(kinds=3, goal={"seasons": 2}, species=ONE_EGG),
    "risks": sheet(kinds=2, goal={"seasons": 2, "chance": 0.4}, species=RISKS),
    "a pair": sheet(kinds=3, goal={"seasons": 2, "chance": 0.2, "want": PAIR, "outright_price": None}, species=ONE_EGG),
    "young males": sheet(for_sale=YOUNG, goal={"seasons": 3, "chance": 0.3}, species=ONE_EGG),
    "mine": sheet(kinds=1, my_animals=MINE, goal={"seasons": 2, "chance": 0.3}, species=ONE_EGG),
}


@pytest.mark.parametrize("plan", PLANS.values(), ids=PLANS)
def test_every_route_gives_the_chance_and_takes_the_money_that_is_told(plan: Plan) -> None:
    found = finished(find(plan))
    every = [*found.proposals, *found.others]
    assert len({one.way for one in every}) > 1
    for one in every:
        slow = by_reference(plan, one)
        assert [float(chance) for chance in slow.chance_by_season()] == pytest.approx(one.result.chance_by_season)
        # Drawn with the count that needs least.
        assert one.money == pytest.approx(least(slow, float(plan.goal.chance)), abs=0.3)
    for point in found.frontier:
        proposal = found.proposal(point.route)
        assert proposal is not None
        assert point.money <= least(by_reference(plan, proposal), point.chance) + 0.3


def by_reference(plan: Plan, one: Proposal) -> Result:
    document = json.loads(write_plan(msgspec.structs.replace(plan, routes=(one.route,))))
    return enumerate_route(document, document["routes"][0])


def least(slow: Result, asked: float) -> float:
    """The least money in hand that is enough in so many runs."""
    total = 0.0
    for money, chance in slow.money():
        total += float(chance)
        if total >= asked - 1e-9:
            return float(money)
    return math.inf
