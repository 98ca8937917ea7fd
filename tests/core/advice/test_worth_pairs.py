"""The plain pairs that prices are read off: chosen by all that is wanted, not by what is listed first."""

from __future__ import annotations

from typing import Any

import msgspec
import pytest

from core.advice.worth import worth_steps
from core.advice.worth_pairs import pairs
from core.plan.model import Bought, Owned, Plan, Route
from core.progress import finished
from tests.core.advice.worth_cases import market, offer

LAV, AMEL = {"forms": {"lav": "lavender"}}, {"forms": {"amel": "amel"}}
BOTH, CHEAP = {"lav": "l/+", "amel": "a/+"}, {"lav": "l/l"}


def sheet(*want: dict[str, Any]) -> Plan:
    """A double het of each sex, amid cheap ones that show the first gene and lack the other."""
    cheap = [offer(f"{sex}-{n}", sex, CHEAP, 5 + n) for sex in ("male", "female") for n in range(5)]
    double = [offer(f"double-{sex}", sex, BOTH, 80, quantity=3) for sex in ("male", "female")]
    return market(routes=[], for_sale=[*cheap, *double], goal={"want": [*want], "seasons": 3, "chance": 0.6})


def bought(route: Route) -> set[str]:
    """Which genes each of its animals carries."""
    return {"+".join(sorted(one.carries)) for one in route.groups if isinstance(one, Bought)}


def test_every_pair_may_give_all_that_is_wanted() -> None:
    assert [bought(one.route) for one in pairs(sheet(LAV, AMEL))] == [{"amel+lav"}]
    assert len(pairs(sheet(LAV))) > 1


@pytest.mark.parametrize("want", [(LAV, AMEL), ({**LAV, "sex": "female", "count": 2}, {**LAV, "sex": "male"})])
def test_the_order_in_which_rows_are_listed_makes_no_difference(want: tuple[dict[str, Any], ...]) -> None:
    one, other = ([str(option.route) for option in pairs(sheet(*rows))] for rows in (want, want[::-1]))
    assert one
    assert one == other


def test_mates_are_weighed_by_the_row_that_takes_most() -> None:
    """Of the second gene one animal of each sex is sure; cheaper ones, better for the first, hardly ever carry it."""
    sure, maybe = {"lav": "l/+", "amel": "a/a"}, {"lav": "l/l", "amel": {"a/+": 0.02, "+/+": 0.98}}
    offers = [
        offer(f"{sex}-{n}", sex, carries, price)
        for sex in ("male", "female")
        for n, (carries, price) in enumerate([*((maybe, 10 + n) for n in range(4)), (sure, 60)])
    ]
    plan = market(routes=[], for_sale=offers, goal={"want": [LAV, AMEL], "seasons": 2, "chance": 0.6})
    prices = [[one.price for one in option.route.groups if isinstance(one, Bought)] for option in pairs(plan)]
    assert [60, 60] in prices


def test_a_double_het_has_its_price() -> None:
    plan = sheet(LAV, AMEL)
    goal = msgspec.structs.replace(plan.goal, outright_price=900)
    told = finished(worth_steps(msgspec.structs.replace(plan, goal=goal)))
    double = [row for row in told.rows if row.lot.offer and row.lot.offer.id.startswith("double")]
    assert [row.reason for row in double] == ["priced", "priced"]


def test_no_more_are_paired_than_there_is_room_for() -> None:
    """A plan that needs more room than there is bears no price, and bounds none."""
    females = [offer("het-f", "female", {"lav": "l/+"}, 50, quantity=4)]
    mine = [{"id": name, "name": name, "sex": "female", "carries": {"lav": "l/+"}} for name in ("Hazel", "Ivy")]
    sale = [offer("het-m", "male", {"lav": "l/+"}, 20), *females]
    for house, bought_, owned in ((None, (1, 2, 3, 4), 2), (3, (1, 2), 2), (2, (1,), 1)):
        plan = market(routes=[], for_sale=sale, my_animals=mine, goal={"housing": house})
        routes = [option.route for option in pairs(plan)]
        assert {route.scale.counts for route in routes if route.scale} == {bought_}
        together = [len(g.animals) for r in routes for g in r.groups if isinstance(g, Owned) and g.animals]
        assert max(together) == owned
    assert pairs(market(routes=[], for_sale=sale, goal={"housing": 1})) == []
