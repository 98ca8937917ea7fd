"""What animals are worth against plans that only the search finds, by hand."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from core.advice.worth import Worth, worth, worth_steps
from core.advice.worth_lots import Market
from core.advice.worth_options import Option
from core.advice.worth_search import searched_worth_steps
from core.advice.worth_trying import Trying
from core.plan.model import Bought, Plan
from core.progress import finished
from core.routes.evaluate import evaluate_route
from tests.core.advice.worth_cases import HET, VISUAL, market, offer
from tests.core.search.search_cases import routes, sheet


def two_kinds() -> Plan:
    """One visual female fails 1 in 16 people, two het females 10 in 100; both kinds together (1/16) (3/4)^4 = 2 %."""
    sale = [
        offer("het-m", "male", HET, 100),
        offer("het-f", "female", HET, 50, quantity=2),
        offer("visual-f", "female", VISUAL, 300),
    ]
    return market(routes=[], for_sale=sale, goal={"chance": 0.95, "outright_price": 500})


def by_id(rows: tuple[Worth, ...]) -> dict[str, Worth]:
    return {row.lot.offer.id: row for row in rows if row.lot.offer}


def test_plans_that_the_search_finds_bear_prices() -> None:
    quick = by_id(finished(worth_steps(two_kinds())).rows)
    assert {row.reason for row in quick.values()} == {"never"}
    answered = finished(searched_worth_steps(two_kinds()))
    rows = by_id(answered.rows)
    # All together take 100 + 300 + 50 = 450, buying her ready-made 500.
    assert rows["visual-f"].most == pytest.approx(350, abs=0.5)
    assert rows["het-f"].most == pytest.approx(100, abs=0.5)
    assert rows["het-m"].most == pytest.approx(150, abs=0.5)
    assert rows["het-m"].plan is not None
    assert rows["het-m"].plan.origin == "found"


def test_a_plan_found_with_a_gift_bears_its_price() -> None:
    # At 400 for her, all together take 550: only as a gift she is in a plan that is worth looking at.
    plan = two_kinds()
    dear = replace(plan, for_sale=(*plan.for_sale[:2], replace(plan.for_sale[2], price=400)))
    row = by_id(finished(searched_worth_steps(dear)).rows)["visual-f"]
    assert row.most == pytest.approx(350, abs=0.5)
    assert (row.verdict, row.lot.asked) == ("no", 400)
    assert row.money == pytest.approx(550, abs=0.5)


def test_progress_only_goes_on() -> None:
    shares = list(searched_worth_steps(two_kinds()))
    assert shares == sorted(shares)
    assert shares[-1] <= 1


@pytest.mark.parametrize(
    "plan",
    [
        sheet(kinds=3, goal={"seasons": 2}),
        sheet(kinds=3, goal={"outright_price": None, "budget": 190, "seasons": 2}, species={"breeds": {"male": 0.9}}),
    ],
    ids=["or bought finished", "within a budget"],
)
def test_prices_equal_those_of_trying_everything(plan: Plan) -> None:
    work = Trying(plan, Market(plan))
    for _, route in routes(plan):
        finished(work.attempt(Option(route, "found")))
    rows = finished(searched_worth_steps(plan)).rows
    assert any(row.most for row in rows)
    for row in rows:
        place = work.market.lots.index(row.lot)
        whole = worth(row.lot, place, work.tried, work.goals, plan.goal.budget)
        assert row.most == (whole.most if whole.most is None else pytest.approx(whole.most, abs=0.5))
        assert row.limit == pytest.approx(whole.limit, abs=0.5)
        if row.most and row.plan is not None:
            assert at_price(plan, work.market, row, place) == pytest.approx(row.limit, abs=0.5)


def at_price(plan: Plan, market: Market, row: Worth, place: int) -> float | None:
    """The money of the plan that bears the price, worked out afresh with that price in it."""
    assert row.plan is not None
    groups = tuple(
        replace(one, price=row.most) if isinstance(one, Bought) and market.place(one) == place else one
        for one in row.plan.route.groups
    )
    best = evaluate_route(plan, replace(row.plan.route, groups=groups)).to_goal
    return best.money if best else None


def test_a_mate_that_carries_nothing_is_priced_against_plans_without_her() -> None:
    # Her daughters go back to their sire; without her the same takes a season more, with one who has to grow.
    sale = [
        offer("visual-m", "male", VISUAL, 50),
        offer("normal-f", "female", {}, 5),
        offer("young-f", "female", {}, 60, ready_in=1),
    ]
    plan = sheet(for_sale=sale, goal={"outright_price": None, "seasons": 4, "chance": 0.5})
    row = by_id(finished(searched_worth_steps(plan)).rows)["normal-f"]
    assert row.useless
    assert row.reason == "priced"
    assert row.plan is not None
    assert row.other is not None
    dearer = finished(searched_worth_steps(replace(plan, for_sale=(plan.for_sale[0], plan.for_sale[2]))))
    least = min(one.money for one in dearer.rows if one.money is not None)
    assert row.limit == pytest.approx(least, abs=0.5)
