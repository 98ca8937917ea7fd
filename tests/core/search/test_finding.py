"""The search against trying everything, its bounds against what routes really take, and what it tells."""

from __future__ import annotations

import json
import math
from collections.abc import Generator
from dataclasses import replace
from pathlib import Path
from typing import Any
from unittest.mock import Mock

import msgspec
import numpy as np
import pytest

from core.__main__ import FAULTY, INTERRUPTED, main
from core.plan.alike import alike_to
from core.plan.check import check_plan
from core.plan.model import Bought, Held, Plan, Route
from core.plan.read import load_plan, read_plan
from core.plan.write import write_plan
from core.progress import finished
from core.routes.evaluate import evaluate_route
from core.routes.result import BudgetCurve, RouteResult
from core.search import working
from core.search.candidate import Candidate
from core.search.find import Search, find
from core.search.found import Found
from core.search.frontier import Frontier
from core.search.ranking import AS_CHEAP, Ranking
from core.search.reached import Reached, as_reported
from core.search.report import as_json
from core.search.stock import Stock
from core.search.working import Worked
from tests.core.search.search_cases import HET, MAYBE, VISUAL, Recipe, every_best, everything, sheet

SAMPLES = Path(__file__).parents[3] / "assets" / "samples"
RISKS = {
    "clutch": {"fixed": 2},
    "lays": 0.9,
    "hatches": 0.8,
    "breeds": {"male": 0.9, "female": 0.95},
    "reaches_breeding": 0.8,
}
PAIR = [{"forms": {"lav": "lavender"}, "sex": sex} for sex in ("male", "female")]
# What is cheapest for half of all people is none of what is cheapest for the goal.
SECOND = [
    {"id": "m", "sex": "male", "carries": HET, "price": 8, "quantity": 2},
    {"id": "vm", "sex": "male", "carries": VISUAL, "price": 21, "quantity": 2},
    {"id": "f", "sex": "female", "carries": HET, "price": 82, "quantity": 2},
    {"id": "pf", "sex": "female", "carries": MAYBE, "price": 12, "quantity": 2},
]
SHEETS = {
    "another chance": sheet(for_sale=SECOND, goal={"seasons": 2, "outright_price": 500}),
    "plain": sheet(),
    "losses, a female": sheet(
        kinds=3, goal={"want": [{"forms": {"lav": "lavender"}, "sex": "female"}], "seasons": 2}, species=RISKS
    ),
    "little room, little money": sheet(kinds=3, goal={"housing": 3, "budget": 150, "outright_price": None}),
}


@pytest.fixture(scope="module", params=SHEETS, ids=str)
def small(request: pytest.FixtureRequest) -> Plan:
    return SHEETS[request.param]


@pytest.fixture(scope="module")
def found(small: Plan) -> Found:
    return finished(find(small, gap=0.0))


@pytest.fixture(scope="module")
def every(small: Plan) -> list[tuple[Recipe, RouteResult]]:
    return everything(small)


def test_it_equals_trying_everything(small: Plan, found: Found, every: list[tuple[Recipe, RouteResult]]) -> None:
    best = every_best(small, every)
    # What goes deeper is no part of the space that is searched whole.
    told = [one.money for one in found.proposals if one.way != "three generations"]
    assert told == pytest.approx(best[: len(told)], abs=0.3)
    assert len(found.proposals) >= min(10, len(best))


def test_the_frontier_equals_that_of_everything(
    small: Plan, found: Found, every: list[tuple[Recipe, RouteResult]]
) -> None:
    whole, own = Frontier(small), found.frontier
    for _, result in every:
        whole.add(result.id, as_reported(result))
    assert found.traded
    for point in whole.points():
        least = min(one.money for one in own if one.season <= point.season and one.chance >= point.chance)
        # Nothing is said of savings within half a percent.
        assert least <= point.money * AS_CHEAP + 0.3
    for one in own:
        proposal = found.proposal(one.route)
        assert proposal is not None
        # What goes deeper is no part of the space.
        assert proposal.way == "three generations" or one.money >= whole.least(one.season, one.chance) - 0.3


def test_nothing_told_is_out_of_bounds(small: Plan, found: Found) -> None:
    assert found.floor >= found.proposals[-1].money - 1e-6 or found.floor == math.inf
    assert found.ended
    assert found.gap == pytest.approx(0.0, abs=1e-6)
    assert found.share == 1.0
    for one in (*found.proposals, *found.others):
        assert check_plan(msgspec.structs.replace(small, routes=(one.route,))) == ()
        assert one.why.endswith(".")
        assert small.goal.budget is None or one.money <= small.goal.budget


def test_a_proposal_evaluated_afresh_is_what_is_told(small: Plan, found: Found) -> None:
    for one in found.proposals:
        afresh = evaluate_route(small, one.route)
        assert afresh.to_goal == one.result.to_goal
        assert afresh.as_drawn == one.result.as_drawn
        np.testing.assert_allclose(afresh.chance_by_season, one.result.chance_by_season, atol=1e-12)
        np.testing.assert_allclose(afresh.paid_by_season, one.result.paid_by_season, rtol=1e-9)


@pytest.mark.parametrize("plan", [*SHEETS.values(), sheet(goal={"want": PAIR, "chance": 0.3}, species=RISKS)])
def test_no_route_takes_less_than_its_bound(plan: Plan) -> None:
    rng = np.random.default_rng(5)
    search = Search(plan)
    every = [one for family in search.space.families() for one in family if one is not None]
    assert every
    for place in rng.choice(len(every), min(40, len(every)), replace=False):
        one = every[place]
        result = evaluate_route(plan, search.drawn(one.candidate, "r"))
        if result.to_goal is not None:
            assert result.to_goal.money >= one.money - 1e-6
            assert result.to_goal.season >= one.season


def test_what_has_no_bound_cannot_reach_the_goal() -> None:
    plan = sheet(goal={"chance": 0.9, "seasons": 2})
    search = Search(plan)
    bounded = [one.candidate for family in search.space.families() for one in family if one is not None]
    pairs = {(one.sire, one.dams) for one in bounded if one.way == "straight" and one.other is None and one.many == 1}
    for sire in range(len(search.stock.males)):
        for dams, kind in enumerate(search.stock.females):
            if (sire, dams) not in pairs:
                counts = tuple(range(1, min(kind.most, 2) + 1))
                route = search.drawn(Candidate("straight", sire, dams, counts=counts), "r")
                assert evaluate_route(plan, route).to_goal is None


def test_a_dearer_animal_of_the_same_kind_is_never_needed() -> None:
    offers = json.loads(write_plan(sheet()))["for_sale"]
    twins = [{**one, "id": f"{one['id']}-twin", "price": one["price"] + 7} for one in offers[:1] + offers[4:5]]
    plan = sheet(for_sale=[*offers, *twins])
    merged, whole = Stock(plan), Stock(plan, merged=False)
    assert len(whole.males) == len(merged.males) + 1
    assert [one.money for one in finished(find(plan)).proposals] == pytest.approx(
        [one.money for one in finished(find(sheet())).proposals], abs=0.3
    )


def test_a_list_with_a_line_for_each_animal_is_read_as_what_it_is() -> None:
    """Two lines at one price are two animals of a kind; at two prices both may be bought, the cheaper first."""
    het = {"sex": "female", "carries": HET, "quantity": 1}
    male = {"id": "m", "sex": "male", "carries": VISUAL, "price": 20}
    for prices in ((30, 30), (30, 33)):
        lines = [{**het, "id": f"f{place}", "price": price} for place, price in enumerate(prices)]
        # Half the eggs of either are visual: two clutches of one or two fail 14 in 100 people, one alone 38.
        plan = sheet(for_sale=[male, *lines], goal={"seasons": 1, "chance": 0.8, "outright_price": None})
        proposals = finished(find(plan)).proposals
        assert [one.result.up_front for one in proposals] == [20 + sum(prices) + 3 * 9]


def test_nobody_is_bought_before_a_mate_is_grown() -> None:
    """A male that grows for two seasons finds dams bought when he has grown; and the other way round."""
    for young, grown in (("male", "female"), ("female", "male")):
        offers = [
            {"id": "young", "sex": young, "carries": VISUAL, "price": 20, "ready_in": 2},
            {"id": "grown", "sex": grown, "carries": HET, "price": 30, "quantity": 2},
        ]
        plan = sheet(for_sale=offers, goal={"seasons": 5, "outright_price": 300})
        search = Search(plan)
        every = [one for family in search.space.families() for one in family if one is not None]
        assert {one.candidate.way for one in every} >= {"straight", "then buy", "back", "together", "son"}
        for bounded in every:
            route = search.drawn(bounded.candidate, "r")
            bought = {one.id: one for one in route.groups if isinstance(one, Bought)}
            if not bought:
                continue
            assert {bought[name].ready_in: bought[name].season for name in ("sire", "dams")} == {2: 1, 0: 3}
            assert route.buy_outright is None or route.buy_outright > 3
            late, early = (evaluate_route(plan, one).to_goal for one in (route, _all_at_once(route)))
            assert late is None or late.money >= bounded.money - 1e-6
            assert late is None or early is None or late.money <= early.money - 2 * plan.costs.keep_adult + 0.3


def _all_at_once(route: Route) -> Route:
    groups = tuple(msgspec.structs.replace(one, season=1) if isinstance(one, Bought) else one for one in route.groups)
    return msgspec.structs.replace(route, groups=groups)


def test_dams_may_stay_until_their_young_are_grown() -> None:
    """Longer than a season more is looked at for what is told alone; there must be room for them beside their young."""
    grow = {"matures": {"male": 2, "female": 4}}
    for house, counts in ((None, (1, 2)), (3, (1,))):
        search = Search(sheet(goal={"seasons": 6, "housing": house}, species=grow))
        two = Candidate("back", 0, 0, counts=(1,), many=2, goes=1)
        longer = [*search.space.lingering([two])]
        assert [(one.many, one.goes, one.counts) for one in longer if one.many == 1] == [(1, 4, counts)]
        assert all(one.many + 1 + one.counts[-1] <= (house or 9) for one in longer)
        assert [*search.space.lingering([replace(two, goes=None, way="son")])] == []


def test_what_is_only_compared_is_not_worked_out_to_the_end(monkeypatch: pytest.MonkeyPatch) -> None:
    compared, ended = Mock(wraps=working.engine_steps), Mock(wraps=working.evaluate_steps)
    monkeypatch.setattr(working, "engine_steps", compared)
    monkeypatch.setattr(working, "evaluate_steps", ended)
    found = finished(find(SHEETS["plain"], most=2))
    held = [call for call in compared.call_args_list if any(isinstance(one, Held) for one in call.args[1].groups)]
    assert held
    assert all(call.kwargs["bare"] for call in held)
    told = {one.route.id for one in (*found.proposals, *found.others)}
    assert len(ended.call_args_list) < len(held) / 2
    assert {call.args[1].id for call in ended.call_args_list} & told


def test_chances_alone_are_asked_for_while_they_leave_something_out(monkeypatch: pytest.MonkeyPatch) -> None:
    own, search = working.Working(SHEETS["plain"]), Search(SHEETS["plain"])
    route, told = search.drawn(Candidate("back", 0, 0, goes=1), "r"), Mock(side_effect=[False, *(True,) * 9])
    monkeypatch.setattr(working.Working, "_reaches", told)
    assert [own.in_vain(route, "back") for _ in range(9)] == [True, *(False,) * 8]
    assert told.call_count == 6
    assert not own.in_vain(route, "son")
    assert told.call_count == 7


def test_what_was_compared_is_not_worked_out_anew_for_a_point_of_the_trade(monkeypatch: pytest.MonkeyPatch) -> None:
    compared, plan = Mock(wraps=working.engine_steps), SHEETS["plain"]
    monkeypatch.setattr(working, "engine_steps", compared)
    finished(find(plan))
    once, again = (
        [
            msgspec.structs.replace(route, id="", name="")
            for own, route, *_ in (call.args for call in compared.call_args_list)
            if any(isinstance(one, Held) for one in route.groups) and (own.goal == plan.goal) == whole
        ]
        for whole in (True, False)
    )
    assert again
    assert not [route for route in again if route in once]


def test_it_can_be_stopped_at_any_time() -> None:
    steps = find(SHEETS["plain"])
    first = next(one for one in steps if one.proposals)
    steps.close()
    assert not first.ended
    assert 0 < first.share < 1
    assert first.proposals[0].money < math.inf


def test_the_frontier_trades_one_for_another(found: Found) -> None:
    for one in found.frontier:
        assert found.proposal(one.route) is not None
        for other in found.frontier:
            beats = other.money <= one.money and other.season <= one.season and other.chance >= one.chance
            assert one == other or not beats


def test_nothing_for_sale_and_nothing_mine() -> None:
    empty = finished(find(sheet(for_sale=[], goal={"outright_price": None})))
    assert empty.proposals == ()
    assert empty.ended
    only = finished(find(sheet(for_sale=[])))
    assert [one.way for one in only.proposals] == ["outright"]


@pytest.mark.parametrize("system", ["temperature", "ZW"])
def test_a_goal_that_names_no_form_is_searched_for_too(system: str) -> None:
    """`forms` may be empty: any young will do, and nothing tells animals apart."""
    plan = sheet(goal={"want": [{"forms": {}, "sex": "female"}]}, species={"sex_system": system})
    found = finished(find(plan))
    assert found.proposals[0].result.to_goal is not None
    assert found.proposals[0].money < 170


def test_where_nothing_reaches_the_goal_the_closest_are_told() -> None:
    hets = [one for one in json.loads(write_plan(sheet()))["for_sale"] if one["id"] in ("m0", "f0")]
    close = finished(find(sheet(goal={"chance": 0.95, "seasons": 1, "outright_price": None}, for_sale=hets)))
    assert close.proposals
    assert all(one.result.to_goal is None for one in close.proposals)
    chances = [one.chance for one in close.proposals]
    assert chances == sorted(chances, reverse=True)


@pytest.mark.parametrize(
    ("goal", "carried"),
    [({"chance": 0.95, "seasons": 2}, (HET, MAYBE)), ({"chance": 0.9, "seasons": 3}, (VISUAL, {}))],
    ids=["two kinds of females", "young held back"],
)
def test_nothing_comes_closer_than_what_is_said_to(goal: dict[str, Any], carried: tuple[dict[str, Any], ...]) -> None:
    males = [{"id": "m", "sex": "male", "carries": carried[0], "price": 30}]
    females = [{"id": f"f{n}", "sex": "female", "carries": one, "price": 40} for n, one in enumerate(carried)]
    if carried[0] == VISUAL:
        females = females[1:]
    plan = sheet(for_sale=[*males, *females], goal={"outright_price": None, **goal})
    close = finished(find(plan))
    best = max(float(result.chance_by_season[-1]) for _, result in everything(plan))
    assert best < goal["chance"]
    assert close.proposals[0].chance >= best - 0.01
    every = [*close.proposals, *close.others]
    assert max(one.chance for one in every) == close.proposals[0].chance
    assert len(every) <= close.looked <= close.of
    assert len({alike_to(one.route) for one in every}) == len(every)


def test_what_does_not_reach_the_goal_is_not_among_the_cheapest() -> None:
    """Played coarsely it may, and in full it does not."""
    ranking = Ranking(sheet(), 10, math.inf)
    curve = BudgetCurve(np.array([1.0]), np.array([0.5]), (1,))
    for way, money in (("straight", 100.0), ("back", math.inf)):
        reached = Reached(money, 1, (money,) * 3, curve, 0.5)
        ranking.add(Worked(Candidate(way, 0, 0), Route(id=way, name=""), reached))
    assert [one.route.id for one in ranking.told] == ["straight"]


def test_beyond_the_budget_is_said() -> None:
    dear = finished(find(sheet(goal={"budget": 20})))
    assert dear.proposals
    assert not dear.affordable


def test_my_animals_are_used() -> None:
    mine: list[dict[str, Any]] = [
        {"id": "M", "name": "Flint", "sex": "male", "carries": VISUAL},
        {"id": "F1", "name": "Juniper", "sex": "female", "carries": HET},
        {"id": "F2", "name": "Hazel", "sex": "female", "sire": "M", "dam": "F1"},
    ]
    plan = sheet(my_animals=mine)
    best = finished(find(plan)).proposals[0]
    assert check_plan(msgspec.structs.replace(plan, routes=(best.route,))) == ()
    assert "Flint" in best.route.name
    assert best.result.up_front == 0


def test_what_is_printed_is_a_plan_of_routes() -> None:
    plan = sheet()
    printed = as_json(finished(find(plan)))["routes"]
    money = [route["result"]["to_goal"]["money"] for route in printed]
    assert money == sorted(money)
    routes = [{key: value for key, value in route.items() if key != "result"} for route in printed]
    whole = {**json.loads(write_plan(plan)), "routes": routes}
    assert len(read_plan(json.dumps(whole).encode()).routes) == len(printed)


def test_the_command_line_prints_them(tmp_path: Path, capfdbinary: pytest.CaptureFixture[bytes]) -> None:
    file = tmp_path / "some.plan.json"
    file.write_bytes(write_plan(SHEETS["little room, little money"]))
    assert main(["find", str(file)]) == 0
    printed = json.loads(capfdbinary.readouterr().out)
    assert list(printed) == ["routes"]
    assert all(route["result"]["to_goal"]["money"] <= 150 for route in printed["routes"])


def test_an_interrupted_command_prints_what_it_has(
    tmp_path: Path, capfdbinary: pytest.CaptureFixture[bytes], monkeypatch: pytest.MonkeyPatch
) -> None:
    def interrupted(plan: Plan) -> Generator[Found, None, None]:
        yield next(one for one in find(plan) if one.proposals)
        raise KeyboardInterrupt

    monkeypatch.setattr("core.search.find.find", interrupted)
    file = tmp_path / "some.plan.json"
    file.write_bytes(write_plan(SHEETS["little room, little money"]))
    assert main(["find", str(file)]) == INTERRUPTED
    assert len(json.loads(capfdbinary.readouterr().out)["routes"]) == 1


def test_what_cannot_be_searched_is_said_in_a_line(tmp_path: Path, capfd: pytest.CaptureFixture[str]) -> None:
    document = json.loads(write_plan(sheet()))
    genes = [{"id": f"g{n}", "name": f"G{n}", "alleles": ["x"], "forms": {"x/x": f"v{n}"}} for n in range(16)]
    hidden = {gene["id"]: {"x/x": 0.25, "x/+": 0.5, "+/+": 0.25} for gene in genes}
    document["genes"] += genes
    document["goal"]["want"] = [{"forms": {gene["id"]: f"v{n}" for n, gene in enumerate(genes)}}]
    document["for_sale"] = [{"id": sex, "sex": sex, "carries": hidden, "price": 1} for sex in ("male", "female")]
    file = tmp_path / "huge.plan.json"
    file.write_text(json.dumps(document))
    status = main(["find", str(file)])
    told = capfd.readouterr()
    assert (status, told.out) == (FAULTY, "") or json.loads(told.out)["routes"] is not None
    assert "Traceback" not in told.err


@pytest.mark.parametrize("name", ["corn-linked", "gecko-sex-linked"])
def test_a_sample_finds_as_good_as_it_lists(name: str) -> None:
    plan = load_plan(SAMPLES / f"{name}.plan.json")
    listed = [evaluate_route(plan, route).to_goal for route in plan.routes]
    best = next(one for one in find(plan) if one.looked >= 5)
    assert best.proposals[0].money <= min(way.money for way in listed if way is not None) * 1.05
