"""Worth paying: by hand, and by putting the prices into the plan."""

from __future__ import annotations

import math
from pathlib import Path

import msgspec
import pytest
from msgspec.structs import replace

from core.advice.worth import Worth, WorthPaying, worth_steps
from core.advice.worth_lots import Market
from core.advice.worth_options import Option
from core.plan.model import Bought, Plan, Route, Scale
from core.plan.read import load_plan
from core.progress import finished
from core.routes.answer import MONEY_STEP
from core.routes.evaluate import evaluate_route
from tests.core.advice.worth_cases import HET, HETS, SIRE, VISUAL, VISUALS, group, market, offer, route

SAMPLES = sorted((Path(__file__).parents[3] / "assets" / "samples").glob("*.plan.json"))


def worth(plan: Plan) -> dict[str, Worth]:
    """Every row by the id of the animal for sale, or of the group that buys it."""
    return {row.lot.offer.id if row.lot.offer else row.lot.groups[0][1]: row for row in told(plan).rows}


def told(plan: Plan) -> WorthPaying:
    return finished(worth_steps(plan))


def test_two_plans_by_hand() -> None:
    # Visuals: 100 + 300 = 400. Hets: 100 + 3 × 50 = 250.
    rows = worth(market())
    assert rows["visual-f"].most == pytest.approx(250 - 100, abs=0.5)
    assert rows["visual-f"].verdict == "no"
    assert rows["het-f"].most == pytest.approx((400 - 100) / 3, abs=0.5)
    assert rows["het-f"].verdict == "yes"
    assert rows["het-f"].many == 3
    assert rows["het-f"].margin == pytest.approx(50, abs=0.5)
    assert rows["het-f"].other is not None
    assert rows["het-f"].other.route.name == "Visuals"


def test_what_every_plan_buys_is_worth_what_the_budget_leaves() -> None:
    assert worth(market())["sire"].reason == "only"
    assert worth(market())["sire"].verdict == "yes"
    bounded = worth(market(goal={"budget": 600}))["sire"]
    assert (bounded.reason, bounded.other) == ("budget", None)
    assert bounded.most == pytest.approx(600 - 3 * 50, abs=0.5)


def test_buying_the_finished_animal_is_always_a_plan() -> None:
    row = worth(market(goal={"outright_price": 500}))["sire"]
    assert row.most == pytest.approx(500 - 150, abs=0.5)
    assert row.other is not None
    assert row.other.origin == "outright"


def test_an_animal_that_no_route_buys_is_tried_in_the_place_of_others() -> None:
    # A visual male with one het female: half the eggs are visual, so 150 = 100 + 50 buys him at most 250 - 50.
    sire = offer("visual-m", "male", VISUAL, 260, label="Lavender male")
    row = worth(market(for_sale=[sire, offer("het-f", "female", HET, 50, quantity=4)]))["visual-m"]
    assert row.most == pytest.approx(250 - 50, abs=0.5)
    assert row.plan is not None
    assert row.plan.route.name == "Lavender male × Het lavender female"


def test_what_i_own_is_bred_with_what_is_for_sale() -> None:
    mine = [
        {"id": "M", "name": "Flint", "sex": "male", "carries": VISUAL},
        *({"id": name, "name": name, "sex": "female", "carries": HET} for name in ("F1", "F2")),
    ]
    het = offer("het-f", "female", HET, 50, quantity=4)
    plan = market(routes=[], for_sale=[het, offer("het-m", "male", HET, 30)], my_animals=mine, goal={"chance": 0.93})
    rows = worth(plan)
    # Both of mine with him cost nothing, and half of eight eggs are visual.
    assert rows["het-f"].other is not None
    assert rows["het-f"].other.route.name == "Flint × F1 and F2"
    assert rows["het-f"].most == 0
    # A het male takes more females than two, which have to be bought.
    assert rows["het-m"].reason == "dearer"
    alone = worth(market(routes=[], for_sale=[het], my_animals=mine[:1], goal={"outright_price": 80}))
    assert alone["het-f"].most == pytest.approx(80, abs=0.5)


def test_no_more_are_bought_than_there_are() -> None:
    # Three het females are needed, and there are two.
    few = market(routes=[VISUALS], for_sale=[offer("het-f", "female", HET, 50, quantity=2)])
    assert worth(few)["het-f"].reason == "never"
    untried = finished(worth_steps(few, most_more=0)).rows
    assert next(row for row in untried if row.lot.offer).reason == "untried"


def test_what_carries_nothing_wanted_has_no_price_here() -> None:
    rows = worth(market(for_sale=[offer("amel-f", "female", {"amel": "a/a"}, 40)]))
    assert (rows["amel-f"].most, rows["amel-f"].useless) == (None, True)
    assert rows["sire"].useless is False


def test_what_loses_even_as_a_gift() -> None:
    # Two hundred for the setting up of her route are more than hets cost in all.
    dear = {**VISUALS, "setup": 200}
    row = worth(market(routes=[HETS, dear], for_sale=[]))["dams"]
    assert row.reason in ("priced", "dearer")
    rows = told(market(routes=[HETS, dear], for_sale=[offer("visual-f", "female", VISUAL, 300)])).rows
    swapped = next(row for row in rows if row.lot.offer)
    # In the other route she may be had without the setting up.
    assert swapped.most == pytest.approx(150, abs=0.5)
    alone = finished(worth_steps(market(routes=[HETS, dear]), most_more=0))
    visual = next(row for row in alone.rows if row.lot.offer and row.lot.offer.id == "visual-f")
    assert (visual.most, visual.reason, visual.verdict) == (None, "dearer", "no")


def test_animals_alike_at_two_prices_bound_each_other() -> None:
    dear = offer("dear-f", "female", HET, 80, quantity=4)
    rows = worth(market(routes=[HETS], for_sale=[offer("het-f", "female", HET, 50, quantity=4), dear]))
    assert rows["dear-f"].most == pytest.approx(50, abs=0.5)
    assert rows["het-f"].most == pytest.approx(80, abs=0.5)


def test_sold_animals_are_left_out() -> None:
    plan = market(routes=[HETS], for_sale=[offer("visual-f", "female", VISUAL, 300, quantity=0)])
    assert "visual-f" not in worth(plan)


def test_one_that_is_bought_late_is_paid_for_only_by_those_who_get_so_far() -> None:
    late = route("late", SIRE, group("dams", "female", HET, 50, count=2))
    second = group("more", "female", VISUAL, 300, season=2)
    pairing = {"id": "later", "males": ["sire"], "females": ["more"]}
    late = {**late, "groups": [*late["groups"], second], "pairings": [*late["pairings"], pairing]}
    late["scale"] = {"groups": ["dams"], "counts": [2]}
    plan = market(routes=[late], goal={"seasons": 2, "chance": 0.85, "outright_price": 400})
    # Two clutches of hets are enough for 89.99 of 100: whoever needs her is among the others.
    assert worth(plan)["visual-f"].reason == "late"
    _check_ties(replace(plan, goal=replace(plan.goal, chance=0.95)))


def test_a_played_plan_is_worth_a_range() -> None:
    plan = next(load_plan(path) for path in SAMPLES if "three-generations" in path.name)
    goal = replace(plan.goal, chance=0.1)
    runs = replace(plan.simulation, runs=500)
    three = tuple(one for one in plan.routes if one.id in ("three-gens", "outright"))
    rows = worth(replace(plan, goal=goal, simulation=runs, routes=three))
    played = [row for row in rows.values() if row.most is not None]
    assert played
    for row in played:
        assert row.span is not None
        assert row.most is not None
        assert row.span[0] < row.most < row.span[1]


def test_the_best_buys_come_first_and_what_has_no_price_last() -> None:
    rows = told(load_plan(SAMPLES[-1])).rows
    margins = [row.margin for row in rows if row.margin is not None]
    assert margins == sorted(margins, reverse=True)
    priced = [row.most is not None for row in rows]
    assert priced == sorted(priced, reverse=True)


def test_what_is_left_out_is_told() -> None:
    sire = offer("visual-m", "male", VISUAL, 260)
    assert finished(worth_steps(market(for_sale=[sire]), most_more=1)).left_out
    assert not told(market()).left_out


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.name.split(".")[0])
def test_at_its_worth_the_two_plans_tie(path: Path) -> None:
    plan = load_plan(path)
    # A few routes of the largest will do.
    _check_ties(replace(plan, routes=(*plan.routes[:3], plan.routes[-1])))


def _check_ties(plan: Plan) -> None:
    """Every price put into the plan makes the best plan with it and the best without it tie, to a step of the grid.

    A little more, and the other is cheaper. Everything is evaluated afresh.
    """
    market_ = Market(plan)
    answered, checked = told(plan), 0
    for row in answered.rows:
        if row.most is None or row.limit is None:
            continue
        place = next(i for i, lot in enumerate(market_.lots) if lot == row.lot)
        buying = [one.route for one in answered.tried if market_.groups(one.route, place)]
        others = [one.route for one in answered.tried if not market_.groups(one.route, place)]
        limit, _ = _least(plan, others)
        _, coarse = _least(plan, buying)
        money, fine = _least(plan, [_at(one, market_, place, row.most) for one in buying])
        step = max(coarse, fine)
        assert limit == pytest.approx(row.limit)
        assert abs(money - limit) <= step + 1e-6
        dearer, _ = _least(plan, [_at(one, market_, place, row.most + 2 * step) for one in buying])
        assert dearer > limit
        checked += 1
    assert checked


def test_what_a_plan_takes_is_told_with_as_many_as_it_buys() -> None:
    """At what is asked one is the cheapest, at what each is worth three: the sum is that with three."""
    plan = next(load_plan(path) for path in SAMPLES if "gecko-sex-linked" in path.name)
    market_, several = Market(plan), 0
    for row in told(plan).rows:
        if row.most is None or row.plan is None:
            continue
        ids = market_.groups(row.plan.route, market_.lots.index(row.lot))
        groups = tuple(
            replace(one, count=row.many) if isinstance(one, Bought) and one.id in ids else one
            for one in row.plan.route.groups
        )
        assert row.plan.route.scale is None or row.plan.route.scale.groups == ("dams",)
        scaled = Scale(groups=("dams",), counts=(row.many if "dams" in ids else 1,))
        best = evaluate_route(plan, replace(row.plan.route, groups=groups, scale=scaled)).to_goal
        assert best is not None
        assert row.money == pytest.approx(best.money, abs=1.0)
        several += row.many > 1
    assert several


def _at(one: Route, market_: Market, place: int, price: float) -> Route:
    ids = market_.groups(one, place)
    groups = tuple(
        replace(each, price=price) if isinstance(each, Bought) and each.id in ids else each for each in one.groups
    )
    return replace(one, groups=groups)


def _least(plan: Plan, routes: list[Route]) -> tuple[float, float]:
    """The least money to the goal over these routes, and the widest step of their grids."""
    results = [evaluate_route(plan, one) for one in routes]
    money = [one.to_goal.money for one in results if one.to_goal]
    step = max(float(one.budget_curve.money[-1]) for one in results) * MONEY_STEP
    return min(money, default=math.inf), step


def test_a_route_that_cannot_be_worked_out_leaves_the_others() -> None:
    plan = market()
    huge = {f"g{i}": {"x/x": 0.25, "x/+": 0.5, "+/+": 0.25} for i in range(10)}
    genes = tuple(
        msgspec.convert({"id": name, "name": name, "alleles": ["x"], "forms": {"x/x": name}}, type(plan.genes[0]))
        for name in huge
    )
    wanted = replace(plan.goal.want[0], forms={"lav": "lavender", **dict.fromkeys(huge, "normal")})
    crowd = replace(plan.goal, want=(wanted,), chance=0.001)
    dam = replace(plan.routes[0].groups[1], carries={"lav": "l/+", **huge})
    big = replace(plan.routes[0], id="big", groups=(plan.routes[0].groups[0], dam))
    whole = replace(plan, genes=(*plan.genes, *genes), goal=crowd, routes=(*plan.routes, big))
    answered = finished(worth_steps(whole, most_more=0))
    assert [one.route.id for one in answered.failed] == ["big"]
    assert isinstance(answered.failed[0], Option)
    assert answered.rows
