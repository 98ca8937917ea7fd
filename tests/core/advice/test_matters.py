"""What matters most: by hand, and by evaluating the changed plan."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
from msgspec.structs import replace

from core.advice.matters import Effect, Matters, ranked
from core.advice.matters_clutch import mean_size, resized
from core.advice.matters_hets import carriers, with_share
from core.advice.matters_ranges import Assumption, with_range
from core.advice.matters_work import (
    again_steps,
    assumptions,
    beaten,
    matters_steps,
    reply_steps,
    steps_between,
    sure_steps,
)
from core.plan.check import check_plan
from core.plan.limits import MOST_FEMALES_PER_MALE
from core.plan.model import Bought, Clutch, Plan, Route
from core.plan.read import load_plan
from core.progress import finished
from core.routes.clutch import clutch_sizes
from core.routes.evaluate import evaluate
from tests.core.advice.worth_cases import HET, HETS, SIRE, VISUALS, group, market

SAMPLES = sorted((Path(__file__).parents[3] / "assets" / "samples").glob("*.plan.json"))


def told(plan: Plan) -> Matters:
    return finished(matters_steps(plan))


def effects(plan: Plan) -> dict[str, Effect]:
    return {effect.assumption.key: effect for effect in told(plan).effects}


@pytest.fixture(scope="module")
def by_hand() -> dict[str, Effect]:
    """Hets take 250, visuals 400, the finished animal 260."""
    plan = market(goal={"outright_price": 260})
    return effects(replace(plan, routes=(*plan.routes, ready())))


def ready() -> Route:
    return Route(id="ready", name="Buy her ready-made", buy_outright=1)


def test_prices_by_hand(by_hand: dict[str, Effect]) -> None:
    prices = by_hand["prices"]
    assert prices.low.routes["hets"].money == pytest.approx(0.8 * 250, abs=0.5)
    assert prices.high.routes["visuals"].money == pytest.approx(1.2 * 400, abs=0.5)
    # 1.04 × 250 = 260: a tie goes to the first listed, and 1.05 × 250 is more.
    (flip,) = prices.flips
    assert (flip.side, flip.value, flip.last, flip.winner) == ("above", 1.05, 1.04, "ready")
    assert flip.money == 260


def test_the_finished_animal_by_hand(by_hand: dict[str, Effect]) -> None:
    # 260 × 0.97 = 252.2, 260 × 0.96 = 249.6.
    (flip,) = by_hand["outright"].flips
    assert (flip.side, flip.value, flip.last, flip.winner) == ("below", 0.96, 0.97, "ready")


def test_laying_by_hand(by_hand: dict[str, Effect]) -> None:
    # One of three het females misses with 1 - L (1 - 0.75^4), with one chance L to lay.
    lays = by_hand["lays"]
    missed = 1 - 0.8 * (1 - 0.75**4)
    assert lays.assumption.low == pytest.approx(0.8)
    assert lays.assumption.high == 1.0
    assert lays.low.routes["hets"].chances[3] == pytest.approx(1 - missed**3)
    assert lays.high.routes["hets"].chances[3] == pytest.approx(1 - 0.75**12)


def test_only_what_has_a_say_is_looked_at(by_hand: dict[str, Effect]) -> None:
    assert "keeping" not in by_hand
    assert "matures.female" not in by_hand
    assert "female_share" not in by_hand


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.name.split(".")[0])
def test_every_range_holds_the_plans_value_and_plans_that_can_be(path: Path) -> None:
    plan = load_plan(path)
    for one in assumptions(plan):
        assert one.low <= one.usual <= one.high
        assert one.low < one.high
        assert check_plan(one.put(plan, one.low)) == ()
        assert check_plan(one.put(plan, one.high)) == ()
        assert one.why.endswith(".")
    keys = [one.key for one in assumptions(plan)]
    assert len(keys) == len(set(keys))


@pytest.mark.parametrize("name", ["boa-my-animals", "gecko-sex-linked"])
def test_it_agrees_with_the_changed_plan(name: str) -> None:
    plan = next(load_plan(path) for path in SAMPLES if name in path.name)
    answered = told(plan)
    assert answered.usual.cheapest == evaluate(plan).cheapest
    for effect in answered.effects:
        for reply in (effect.low, effect.high):
            afresh = evaluate(effect.assumption.put(plan, reply.value))
            assert afresh.cheapest == reply.cheapest
            for result in afresh.routes:
                its = reply.routes[result.id]
                assert its.money == (result.to_goal.money if result.to_goal else None)
                if result.to_goal:
                    best = result.at_cheapest or result
                    assert its.chances[result.to_goal.count] == pytest.approx(best.chance_by_season[-1], abs=1e-9)


def test_a_flip_is_one_step_wide() -> None:
    plan = next(load_plan(path) for path in SAMPLES if "gecko-sex-linked" in path.name)
    answered, flips = told(plan), 0
    for effect in answered.effects:
        put, step = effect.assumption.put, effect.assumption.step
        for flip in effect.flips:
            assert evaluate(put(plan, flip.value)).cheapest == flip.winner != answered.usual.cheapest
            assert evaluate(put(plan, flip.last)).cheapest == answered.usual.cheapest
            assert abs(flip.value - flip.last) <= step + 1e-9
            assert flip.far == (effect.low if flip.side == "below" else effect.high).cheapest
            flips += 1
    assert flips >= 5


def test_every_value_is_tried_in_the_end() -> None:
    """The winner may change more than once on the way to an end, or come back: halving sees one change, or none."""
    plan = next(load_plan(path) for path in SAMPLES if "royal" in path.name)
    quick = told(plan)
    some = tuple(one for one in quick.effects if one.assumption.key in ("lays", "clutch_lost", "breeds.male"))
    sure = finished(sure_steps(plan, Matters(quick.usual, some)))
    assert sure.sure
    assert not quick.sure
    for effect in sure.effects:
        for side, end in (("below", effect.low.value), ("above", effect.high.value)):
            values = [*steps_between(effect.assumption, end), end] if end != effect.assumption.usual else []
            winners = [evaluate(effect.assumption.put(plan, value)).cheapest for value in values]
            changed = [place for place, one in enumerate(winners) if one != quick.usual.cheapest]
            flip = next((one for one in effect.flips if one.side == side), None)
            assert (flip is None) == (not changed)
            if flip is not None:
                assert (flip.value, flip.winner) == (values[changed[0]], winners[changed[0]])
                assert flip.far == winners[-1]
                assert flip.stays == (len(set(winners[changed[0] :])) == 1)
    again = {effect.assumption.key: [flip.value for flip in effect.flips] for effect in sure.effects}
    before = {effect.assumption.key: [flip.value for flip in effect.flips] for effect in some}
    assert before == {"clutch_lost": [], "lays": [0.59, 0.75], "breeds.male": [0.9, 0.97]}
    assert again == {"clutch_lost": [0.08], "lays": [0.66, 0.75], "breeds.male": [0.93, 0.97]}


def test_the_most_money_comes_first() -> None:
    plan = next(load_plan(path) for path in SAMPLES if "boa" in path.name)
    answered = told(plan)
    moving, idle = ranked(answered, "buy-dams")
    # At its low end the goal is out of reach, which no money makes up for.
    assert moving[0].assumption.key == "breeds.male"
    spreads = [
        abs(one.high.routes["buy-dams"].money - one.low.routes["buy-dams"].money)
        for one in moving
        if one.high.routes["buy-dams"].money and one.low.routes["buy-dams"].money
    ]
    assert spreads == sorted(spreads, reverse=True)
    assert {"females_per_male"} <= {one.assumption.key for one in idle}
    assert {*moving, *idle} == set(answered.effects)


def test_progress_only_goes_on() -> None:
    shares = list(matters_steps(market(goal={"outright_price": 260})))
    assert shares == sorted(shares)
    assert 0 <= shares[0] <= shares[-1] <= 1


def test_a_played_winner_is_beaten_only_beyond_the_noise() -> None:
    plan = next(load_plan(path) for path in SAMPLES if "three-generations" in path.name)
    routes = tuple(one for one in plan.routes if one.id in ("three-gens", "outright"))
    goal = replace(plan.goal, chance=0.1, outright_price=1.0)
    played = replace(plan, routes=routes, goal=goal, simulation=replace(plan.simulation, runs=300))
    reply = finished(reply_steps(played, 1.0))
    span = reply.routes["three-gens"].span
    money = reply.routes["three-gens"].money
    assert span is not None
    assert money is not None
    assert span[0] < money < span[1]
    for price, clear in ((span[0] * 0.99, True), ((span[0] + money) / 2, False)):
        changed = replace(played, goal=replace(goal, outright_price=price))
        assert beaten("three-gens", finished(reply_steps(changed, 1.0))) is clear


def test_a_plan_without_routes_has_nothing_to_say() -> None:
    answered = told(replace(market(), routes=()))
    assert answered.usual.cheapest is None
    assert ranked(answered, "none") == ((), answered.effects)


@pytest.mark.parametrize(
    ("clutch", "mean"),
    [
        (Clutch(fixed=4), 3.0),
        (Clutch(fixed=2), 1.5),
        (Clutch(counts={"4": 0.5, "6": 0.5}), 6.1),
        (Clutch(counts={"0": 0.5, "6": 0.5}), 3.3),
    ],
)
def test_sizes_that_are_listed_meet_the_mean(clutch: Clutch, mean: float) -> None:
    changed = resized(clutch, mean)
    assert mean_size(changed) == pytest.approx(mean)
    assert clutch_sizes(changed).sum() == pytest.approx(1)


def test_a_normal_keeps_its_ends_where_it_can() -> None:
    normal = Clutch(mean=12, sd=3, min=5, max=20)
    assert resized(normal, 9) == Clutch(mean=9, sd=3, min=5, max=20)
    assert resized(normal, 3.5) == Clutch(mean=3.5, sd=3, min=3, max=20)


def test_own_records_say_how_far_the_mean_may_be_off() -> None:
    mine = [
        {"id": "M", "sex": "male", "carries": {"lav": "l/+"}},
        {"id": "F", "sex": "female", "carries": {"lav": "l/+"}},
    ]
    records = [
        {"sire": "M", "dam": "F", "season": season, "young": [{"forms": {}, "count": size - 1}], "slugs": 1}
        for season, size in enumerate((3, 5, 4, 4))
    ]
    clutch = assumptions(market(my_animals=mine, clutch_records=records))[0]
    # Mean 4, standard deviation √(2/3), standard error √(1/6).
    assert clutch.standing == "your own records"
    assert (clutch.low, clutch.high) == pytest.approx((4 - 2 * math.sqrt(1 / 6), 4 + 2 * math.sqrt(1 / 6)))


def test_possible_hets_change_together_and_alone() -> None:
    hidden = {"l/+": "2/3", "+/+": "1/3"}
    assert carriers(hidden) == pytest.approx(2 / 3)
    assert with_share(hidden, 0.5) == pytest.approx({"l/+": 0.5, "+/+": 0.5})
    assert with_share(hidden, 1.0) == {"l/+": 1.0}
    plan = next(load_plan(path) for path in SAMPLES if "royal" in path.name)
    hets = [one for one in assumptions(plan) if one.key.startswith("het/")]
    assert [round(one.usual, 3) for one in hets] == [0.667, 0.5]
    changed = hets[0].put(plan, 0.5)
    before = [group for route in plan.routes for group in route.groups]
    after = [group for route in changed.routes for group in route.groups]
    assert sum(one != other for one, other in zip(before, after, strict=True)) == 1


def test_a_range_of_ones_own_holds_the_plans_value_and_can_be() -> None:
    plan = market(species={"lays": 0.7})
    lays = next(one for one in assumptions(plan) if one.key == "lays")
    own = with_range(plan, lays, 0.6, 0.7)
    assert own is not None
    assert (own.low, own.high, own.standing) == (0.6, 0.7, "your own range")
    for low, high in ((0.71, 0.9), (0.7, 0.7), (-0.1, 0.8), (0.6, 1.1)):
        assert with_range(plan, lays, low, high) is None
    every = {one.key: one for one in assumptions(plan, {"lays": (0.6, 0.7), "fertile": (2.0, 3.0), "gone": (0, 1)})}
    assert every["lays"].low == 0.6
    assert every["fertile"].standing == "common practice"


def test_one_range_again_is_the_same_as_all_of_them_again() -> None:
    plan = market(goal={"outright_price": 260})
    plan = replace(plan, routes=(*plan.routes, ready()))
    before = told(plan)
    own = {"prices": (0.9, 1.3)}
    prices = next(one for one in assumptions(plan, own) if one.key == "prices")
    again = {one.assumption.key: one for one in finished(again_steps(plan, before, prices)).effects}
    anew = {one.assumption.key: one for one in finished(matters_steps(plan, own)).effects}
    assert again.keys() == anew.keys()
    assert again["prices"].high.routes == anew["prices"].high.routes
    assert again["prices"].flips[0].value == anew["prices"].flips[0].value == 1.05
    assert again["lays"].low.routes == anew["lays"].low.routes


def test_bought_young_take_longer_or_less() -> None:
    young = {**HETS, "groups": [SIRE, group("dams", "female", HET, 50, ready_in=2)]}
    plan = market(routes=[young, VISUALS], goal={"seasons": 4})
    ready_in = next(one for one in assumptions(plan) if one.key == "ready_in")
    assert (ready_in.low, ready_in.usual, ready_in.high) == (1, 2, 3)
    changed = ready_in.put(plan, 3)
    waits = [one.ready_in for route in changed.routes for one in route.groups if isinstance(one, Bought)]
    assert waits == [0, 3, 0, 0]
    assert "ready_in" not in {one.key for one in assumptions(market())}


def test_no_range_asks_for_more_than_a_plan_may_say() -> None:
    most = market(species={"females_per_male": MOST_FEMALES_PER_MALE})
    load = next(one for one in assumptions(most) if one.key == "females_per_male")
    assert load.high == load.usual


def test_whole_steps_lie_between() -> None:
    one = next(one for one in assumptions(market()) if one.key == "clutch")
    assert isinstance(one, Assumption)
    assert steps_between(one, 3.0) == [3.9, 3.8, 3.7, 3.6, 3.5, 3.4, 3.3, 3.2, 3.1]
    assert steps_between(one, 4.25) == [4.1, 4.2]


def test_half_are_female_where_a_plan_leaves_it_out() -> None:
    plan = market(species={"sex_system": "temperature"})
    said = replace(plan, species=replace(plan.species, female_share=0.5))
    shares = [next(one for one in assumptions(each) if one.key == "female_share") for each in (plan, said)]
    assert [(one.low, one.usual, one.high) for one in shares] == [(0.3, 0.5, 0.7)] * 2
