"""Chains of counts against the reference and against the other exact way, wherever both are in reach."""

from __future__ import annotations

import json
from collections.abc import Generator, Sequence

import msgspec
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.strategies import DrawFn
from test_exact_enumeration import (
    EXAMPLES,
    FIXED,
    Json,
    bought,
    held,
    held_to_the_reference,
    pairing,
    route_of,
    wrong_with,
)
from test_exact_holds import deeper, families

from core.plan.model import Plan, Route
from core.plan.read import read_plan
from core.routes import evaluate
from core.routes.evaluate import evaluate_route
from core.routes.exact.algebra import Complex
from core.routes.exact.chain import counts, laid
from core.routes.exact.chain.chain import Chain
from core.routes.exact.chain.course import Course
from core.routes.exact.chain.courses import Courses
from core.routes.exact.chain.fates import Variant
from core.routes.exact.chain.laid import Laid, Run
from core.routes.exact.chain.route import ChainRoute
from core.routes.exact.eggs import Probe
from core.routes.exact.founding import Telling, count_worlds
from core.routes.exact.holding import HoldingRoute
from core.routes.exact.limits import OutOfReach
from core.routes.exact.plain import Extras, Totals, Workshop
from core.routes.exact.schedule import founder_schedule
from core.routes.prepare import prepare
from core.routes.problem import Biology
from core.routes.result import RouteResult
from tests.reference.plans import plans

FIRST, THEN = pairing("p", ["m"], ["f"]), pairing("q", ["m"], ["g", "h"])


def out_of_reach(*_: object) -> None:
    raise OutOfReach("left to the chains")


def told(result: RouteResult) -> dict[str, object]:
    fields = ("chance_by_season", "chance_by_eggs", "paid_by_season", "sales_by_season")
    single = ("young", "surplus", "peak_animals", "peak_young")
    return {name: getattr(result, name).tolist() for name in fields} | {n: getattr(result, n) for n in single}


def evaluated_exactly(plan: Json) -> bool:
    read = read_plan(json.dumps(plan).encode())
    return evaluate_route(read, read.routes[0]).method == "exact"


def both_ways(plan: Plan, route: Route) -> tuple[RouteResult, RouteResult]:
    usual = evaluate_route(plan, route)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(evaluate, "exact_counts", out_of_reach)
        return usual, evaluate_route(plan, route)


def agree(plan: Json) -> bool:
    """Whether both ways were in reach; they must agree then."""
    read = read_plan(json.dumps(plan | {"simulation": {"runs": 50, "seed": 1}}).encode())
    seen = False
    for told_route, route in zip(plan["routes"], read.routes, strict=True):
        if not any(group["origin"] == "hold" for group in told_route["groups"]):
            continue
        usual, chained = both_ways(read, route)
        if usual.method == chained.method == "exact":
            seen = True
            for name, value in told(usual).items():
                assert told(chained)[name] == pytest.approx(value, abs=1e-9, rel=1e-9), name
            ours, theirs = chained.chance_by_money, usual.chance_by_money
            top = np.searchsorted(ours.money, theirs.money + 0.001 * theirs.money[-1] + 1e-9, "right") - 1
            assert (np.where(top >= 0, ours.chance[top], 0) >= theirs.chance - 1e-9).all()
    return seen


@settings(FIXED, max_examples=EXAMPLES // 3)
@given(plans(generations=1, seasons=4))
def test_chains_agree_with_the_other_way(plan: Json) -> None:
    agree(plan)


@settings(FIXED, max_examples=EXAMPLES // 3)
@given(deeper())
def test_chains_of_deeper_plans_agree_with_the_other_way(plan: Json) -> None:
    agree(plan)


@settings(FIXED, max_examples=EXAMPLES // 3)
@given(deeper())
def test_chains_of_every_way(plan: Json) -> None:
    if not any(group["origin"] == "hold" for group in plan["routes"][0]["groups"]):
        return
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(evaluate, "exact_counts", out_of_reach)
        held_to_the_reference(plan)


@settings(FIXED, max_examples=EXAMPLES // 3)
@given(families())
def test_chains_of_families(plan: Json) -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(evaluate, "exact_counts", out_of_reach)
        assert evaluated_exactly(plan)
        held_to_the_reference(plan)


@st.composite
def daughters(draw: DrawFn) -> Json:
    """A sire, his dams, and daughters held back to him, with every preference, risk and price that may matter."""
    dams = bought("f", "female", draw(st.sampled_from(["a/+", "+/+"])), count=draw(st.integers(1, 2)))
    dams["until"] = draw(st.sampled_from([1, 2, None]))
    one = st.sampled_from([{}, {"a": "normal"}, {"a": "visual"}])
    groups = [
        held(name, draw(st.lists(one, min_size=1, max_size=3)), count=draw(st.integers(1, 2)))
        for name in draw(st.sampled_from(["h", "gh"]))
    ]
    count = draw(st.integers(1, 2)) if dams["carries"]["a"] == "+/+" else 1
    rows = draw(st.sampled_from([["any"], ["female", "male"], ["female", "any"]]))
    want = [{"forms": {"a": "visual"}, "sex": sex, "count": count} for sex in rows]
    risks = [1, 0.5, 0.75]
    species = {name: draw(st.sampled_from(risks)) for name in ("lays", "hatches", "reaches_breeding")}
    species |= {
        "breeds": {"male": 1, "female": draw(st.sampled_from(risks))},
        "clutch_lost": draw(st.sampled_from([0, 0.25])),
    }
    species |= {"clutch": {"counts": {"1": 0.5, "2": 0.5}}, "females_per_male": 9}
    males = pairing("q", ["m"], [group["id"] for group in groups])
    plan = route_of(
        [bought("m", "male", "a/+"), dams, *groups], [FIRST, males], want, draw(st.integers(2, 4)), **species
    )
    plan["costs"] |= {"keep_young": 3, "per_young": 2, "surplus": [{"price": 5}]}
    return plan


@settings(FIXED, max_examples=EXAMPLES // 3)
@given(daughters())
def test_chains_of_daughters_agree_with_the_other_way(plan: Json) -> None:
    agree(plan)


@settings(FIXED, max_examples=EXAMPLES // 3)
@given(daughters())
def test_every_way_of_daughters(plan: Json) -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(evaluate, "exact_counts", out_of_reach)
        held_to_the_reference(plan)


# One thing each

PLENTY = {"clutch": {"fixed": 2}, "females_per_male": 9, "reaches_breeding": 0.5}


@pytest.mark.parametrize(
    "picks", [([{"a": "normal"}], [{}]), ([{}], [{"a": "normal"}, {}]), ([{"a": "normal"}], [{"a": "normal"}])]
)
def test_two_groups_that_want_the_same_young(picks: tuple[list[Json], list[Json]]) -> None:
    sire, dam = bought("m", "male", "a/+"), bought("f", "female", "+/+", until=1)
    groups = [sire, dam, held("g", picks[0]), held("h", picks[1])]
    plan = route_of(groups, [FIRST, THEN], [{"forms": {"a": "visual"}}], seasons=2, **PLENTY)
    read = read_plan(json.dumps(plan).encode())
    assert evaluate_route(read, read.routes[0]).method == "exact"
    held_to_the_reference(plan)


def test_a_row_within_a_wider_one() -> None:
    want = [{"forms": {"a": "visual"}, "sex": "female"}, {"forms": {"a": "visual"}}]
    groups = [bought("m", "male", "a/+"), bought("f", "female", "+/+", until=1), held("h", [{}])]
    plan = route_of(groups, [FIRST, pairing("q", ["m"], ["h"])], want, seasons=2)
    read = read_plan(json.dumps(plan).encode())
    assert evaluate_route(read, read.routes[0]).method == "exact"
    held_to_the_reference(plan)


def test_a_chain_can_be_stopped_between_steps() -> None:
    want = [{"forms": {"a": "visual"}, "sex": "female"}, {"forms": {"a": "visual"}}]
    groups = [bought("m", "male", "a/+"), bought("f", "female", "+/+"), held("h", [{}])]
    plan = route_of(groups, [FIRST, pairing("q", ["m"], ["h"])], want, seasons=3)
    read = read_plan(json.dumps(plan).encode())
    shares = list(evaluate.evaluate_steps(read, read.routes[0]))
    assert len(shares) > 1
    assert shares == sorted(shares)


# Held animals that change who else breeds with whom


def chained_and_right(groups: list[Json], pairings: list[Json], seasons: int, **species: object) -> None:
    """The chains answer it by themselves, and as the reference does."""
    plan = route_of([*groups], pairings, [{"forms": {"a": "visual"}}], seasons, **species)
    plan["costs"] |= {"keep_young": 3, "per_young": 2, "surplus": [{"price": 5}]}
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(evaluate, "exact_counts", out_of_reach)
        assert not wrong_with(plan)


SIRE, DAM = bought("m", "male", "a/+"), bought("f", "female", "+/+", until=1)
CALM = {"clutch": {"fixed": 2}, "reaches_breeding": 1}


@pytest.mark.parametrize(
    "species", [CALM, CALM | {"reaches_breeding": 0.5}, CALM | {"breeds": {"male": 0.5, "female": 1}}]
)
def test_sons_and_daughters(species: Json) -> None:
    groups = [SIRE, DAM, held("s", [{}], "male"), held("h", [{}])]
    chained_and_right(groups, [FIRST, pairing("q", ["s", "m"], ["h"])], 3, **species)


def test_two_sons_in_turn_that_come_one_after_the_other() -> None:
    groups = [SIRE, bought("f", "female", "+/+", until=2), held("s", [{}], "male", count=2), held("h", [{}], count=2)]
    chained_and_right(groups, [FIRST, pairing("q", ["s"], ["h"])], 4, clutch={"fixed": 1})


def test_sons_that_serve_few() -> None:
    groups = [SIRE, DAM, held("s", [{}], "male", count=2), held("h", [{}], count=2)]
    chained_and_right(groups, [FIRST, pairing("q", ["s", "m"], ["h"])], 3, females_per_male=1, clutch={"fixed": 2})


def test_a_son_back_to_his_dams() -> None:
    groups = [SIRE, bought("f", "female", "a/+", count=2), held("s", [{"a": "normal"}], "male")]
    pairings = [FIRST | {"seasons": [1, 1]}, pairing("q", ["s", "m"], ["f"]) | {"seasons": [2, None]}]
    chained_and_right(groups, pairings, 3, breeds={"male": 0.5, "female": 0.5}, clutch={"fixed": 1})


def test_an_upgrade_that_leaves_no_place() -> None:
    """The sire serves two: daughters come before others, which are bred as long as there is room."""
    groups = [SIRE, bought("f", "female", "+/+", until=2), held("g", [{}]), held("h", [{}], count=2)]
    chained_and_right(
        groups, [FIRST, THEN], 3, females_per_male=2, clutch={"counts": {"1": 0.5, "2": 0.5}}, reaches_breeding=0.5
    )


@pytest.mark.parametrize("served", [1, 2, 9])
def test_dams_that_a_son_takes_over(served: int) -> None:
    """How many of them work is all that is told apart, of those that always go to the same male."""
    groups = [SIRE, bought("f", "female", "a/+", count=3), held("s", [{}], "male")]
    pairings = [FIRST | {"seasons": [1, 2]}, pairing("q", ["s", "m"], ["f"])]
    risks = {"breeds": {"male": 1, "female": 0.5}, "females_per_male": served, "clutch": {"fixed": 1}}
    chained_and_right(groups, pairings, 3, **risks)


@pytest.mark.parametrize(("served", "worlds"), [(9, 2 * 9), (4, 2 * 5 * 5)])
def test_dams_that_go_to_one_male_together_are_told_apart_by_how_many_work(served: int, worlds: int) -> None:
    groups = [SIRE, bought("f", "female", "a/+", count=8), held("s", [{}], "male")]
    pairings = [FIRST | {"seasons": [1, 3]}, pairing("q", ["s", "m"], ["f"])]
    risks = {"breeds": {"male": 0.5, "female": 0.5}, "females_per_male": served}
    plan = read_plan(json.dumps(route_of(groups, pairings, [{"forms": {"a": "visual"}}], 7, **risks)).encode())
    problem = prepare(plan, plan.routes[0])
    shop = Workshop(problem, alike=False)
    assert count_worlds(problem, shop.kinds, founder_schedule(problem, shop.sorts), Telling(steady=False)) == worlds


def test_counts_that_breed_alike_are_worked_out_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """A sire that serves two leaves a third and a fourth dam over: they only cost their price and keep."""
    worked, steps = list[tuple[int, ...]](), ChainRoute._steps

    def seen(route: ChainRoute, probe: Probe) -> Generator[float, None, Totals]:
        worked.append(tuple(herd.count for herd in route.problem.herds))
        return steps(route, probe)

    monkeypatch.setattr(ChainRoute, "_steps", seen)
    monkeypatch.setattr(evaluate, "exact_counts", out_of_reach)
    dams = bought("f", "female", "+/+", count=3, until=1) | {"price": 7}
    groups = [SIRE, dams, held("s", [{}], "male"), held("h", [{}])]
    served = {"females_per_male": 2, "clutch": {"fixed": 1}}
    plan = route_of(groups, [FIRST, pairing("q", ["s"], ["h"])], [{"forms": {"a": "visual"}}], 3, **served)
    plan["routes"][0]["scale"] = {"groups": ["f"], "counts": [1, 2, 3, 4]}
    assert not wrong_with(plan)
    assert worked == [(1, 2, 1, 1), (1, 1, 1, 1)]


@pytest.mark.parametrize("most_kept", [0, 400_000])
def test_expectations_wait_until_they_are_asked_for(monkeypatch: pytest.MonkeyPatch, most_kept: int) -> None:
    """Only those of the counts as drawn and of the closest are told; where too much would wait, all at once."""
    monkeypatch.setattr(counts, "_MOST_KEPT", most_kept)
    asked, extras = list[int](), ChainRoute._add_extras

    def seen(route: ChainRoute) -> Generator[None, None, Extras]:
        asked.append(route.problem.herds[1].count)
        return extras(route)

    monkeypatch.setattr(ChainRoute, "_add_extras", seen)
    monkeypatch.setattr(evaluate, "exact_counts", out_of_reach)
    groups = [SIRE, DAM, held("s", [{}], "male"), held("h", [{}])]
    plan = route_of(groups, [FIRST, pairing("q", ["s"], ["h"])], [{"forms": {"a": "visual"}}], 3, clutch={"fixed": 1})
    plan["routes"][0]["scale"] = {"groups": ["f"], "counts": [1, 2, 3]}
    plan["goal"]["chance"] = 0.99
    read = read_plan(json.dumps(plan).encode())
    shares = list(evaluate.evaluate_steps(read, read.routes[0]))
    assert asked == ([1, 3] if most_kept else [3, 2, 1])
    assert shares == sorted(shares)
    assert not wrong_with(plan)


def test_a_son_and_his_sisters_need_no_nurseries(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where chains take little they are asked first."""
    monkeypatch.setattr(HoldingRoute, "check", None)
    groups = [SIRE, DAM, held("s", [{}], "male"), held("h", [{}], count=4)]
    plan = route_of(groups, [FIRST, pairing("q", ["s"], ["h"])], [{"forms": {"a": "visual"}}], 4, reaches_breeding=0.5)
    read = read_plan(json.dumps(plan).encode())
    assert evaluate_route(read, read.routes[0]).method == "exact"


# Young of founders that meet the goal and are held


@pytest.mark.parametrize("counts", [(1, 1), (2, 1)])
@pytest.mark.parametrize("picks", [([{"a": "visual"}], [{}]), ([{"a": "normal"}, {}], [{"a": "visual"}, {}])])
def test_young_that_meet_the_goal_are_held_as_well(
    picks: tuple[list[Json], list[Json]], counts: tuple[int, int]
) -> None:
    dams = bought("f", "female", "a/+", count=2, until=1)
    both = (held("g", picks[0], count=counts[0]), held("h", picks[1], count=counts[1]))
    chained_and_right([SIRE, dams, *both], [FIRST, THEN], 2, lays=0.5, clutch={"fixed": 2}, females_per_male=9)


def test_daughters_that_lay_before_their_dam() -> None:
    groups = [SIRE, bought("f", "female", "a/+"), held("h", [{}], count=2)]
    pairings = [pairing("q", ["m"], ["h"]), FIRST]
    risks = {"breeds": {"male": 1, "female": 0.5}, "clutch_lost": 0.25}
    chained_and_right(groups, pairings, 2, clutch={"fixed": 1}, females_per_male=9, clutches_per_season=2, **risks)


def test_sons_and_daughters_of_hets() -> None:
    groups = [SIRE, bought("f", "female", "a/+", until=1), held("s", [{}], "male"), held("h", [{"a": "visual"}, {}])]
    chained_and_right(groups, [FIRST, pairing("q", ["s", "m"], ["h"])], 3, clutch={"fixed": 2}, reaches_breeding=0.5)


def test_courses_are_counted_without_being_listed() -> None:
    """Eight sons over sixty seasons may come in thousands of millions of ways."""
    sons = held("h", [{}]) | {"sex": "male", "count": 8}
    groups = [bought("m", "male", "a/+"), bought("f", "female", "a/+", count=8), sons]
    pairings = [pairing("q", ["h"], ["f"]), pairing("p", ["m"], ["f"])]
    plan = read_plan(json.dumps(route_of(groups, pairings, [{"forms": {"a": "visual"}}], seasons=60)).encode())
    problem = prepare(plan, plan.routes[0])
    with pytest.raises(OutOfReach, match="too many ways"):
        ChainRoute(problem, Workshop(problem, alike=False))
    short = msgspec.structs.replace(plan.goal, seasons=4)
    few = prepare(msgspec.structs.replace(plan, goal=short), plan.routes[0]).with_counts(["h"], 2)
    courses = ChainRoute(few, Workshop(few, alike=False)).courses
    assert courses.differ
    for season in range(1, 5):
        assert courses.count(season) == sum(map(len, courses.up_to(season)))


def test_what_dams_that_work_breed_is_followed_once_for_all_counts(monkeypatch: pytest.MonkeyPatch) -> None:
    """That of two dams one works, or of three, makes no difference to what she and her young breed."""
    followed, through = list[int](), Chain.through

    def seen(chain: Chain, courses: Sequence[Course], variants: Sequence[Variant]) -> Complex:
        followed.append(len(courses))
        return through(chain, courses, variants)

    monkeypatch.setattr(Chain, "through", seen)
    monkeypatch.setattr(evaluate, "exact_counts", out_of_reach)
    groups = [SIRE, bought("f", "female", "+/+", until=2), held("s", [{}], "male"), held("h", [{}])]
    alone = {"breeds": {"male": 1, "female": 0.5}, "clutch": {"fixed": 1}}
    plan = route_of(groups, [FIRST, pairing("q", ["s"], ["h"])], [{"forms": {"a": "visual"}}], 3, **alone)
    plan["goal"]["chance"] = 0.99
    taken = []
    for own in ([1], [2], [1, 2]):
        followed.clear()
        plan["routes"][0]["scale"] = {"groups": ["f"], "counts": own}
        assert not wrong_with(plan)
        taken.append(len(followed))
    assert taken[2] < taken[1] + taken[0] / 2


# What is in reach

BODY = {
    "clutch": {"mean": 7, "sd": 2, "min": 3, "max": 12},
    "matures": {"male": 2, "female": 3},
    "females_per_male": 4,
    "lays": 0.8,
    "clutch_lost": 0.05,
    "fertile": 0.9,
    "hatches": 0.9,
    "reaches_breeding": 0.9,
    "breeds": {"male": 0.95, "female": 0.93},
}


def begun(groups: list[Json], pairings: list[Json], seasons: int = 7, **species: object) -> bool:
    """Whether an exact answer for eight counts of dams is begun, every risk on; it takes seconds."""
    plan = route_of([*groups], pairings, [{"forms": {"a": "visual"}}], seasons, **(BODY | species))
    plan["costs"] = {"setup": 150, "keep_adult": 60, "keep_young": 40, "per_egg": 0.5, "per_young": 5}
    plan["routes"][0]["scale"] = {"groups": ["f"], "counts": [1, 2, 3, 4, 5, 6, 7, 8]}
    read = read_plan(json.dumps(plan).encode())
    problem = prepare(read, read.routes[0])
    problems = [problem.with_counts(["f"], count) for count in range(1, 9)]
    try:
        return any(share > 0 for share in evaluate.exact_steps(problems, 1))
    except OutOfReach:
        return False


def test_one_son_and_eight_daughters_with_every_risk_are_in_reach() -> None:
    groups = [SIRE, bought("f", "female", "a/+"), held("s", [{}], "male"), held("h", [{}], count=8)]
    assert begun(groups, [FIRST, pairing("q", ["s"], ["h"])])


def test_what_would_take_minutes_is_left_alone() -> None:
    groups = [SIRE, bought("f", "female", "a/+"), held("s", [{}], "male", count=4), held("h", [{}], count=8)]
    assert not begun(groups, [FIRST, pairing("q", ["s"], ["h"])])


def test_hidden_dams_lay_by_themselves_in_every_order_of_theirs() -> None:
    dams = {**bought("f", "female", "a/+", until=1), "carries": {"a": {"a/+": "2/3", "+/+": "1/3"}}}
    groups = [{**SIRE, "until": 1}, dams, held("s", [{}], "male", count=2), held("h", [{}], count=4)]
    assert not begun(groups, [FIRST, pairing("q", ["s"], ["h"])], seasons=4)


def test_sons_that_one_daughter_asks_for_need_not_be_told_apart() -> None:
    """Three that are held at once and serve one daughter each: what each may be is averaged with her."""
    groups = [SIRE, bought("f", "female", "a/+"), held("s", [{}], "male", count=3), held("h", [{}], count=3)]
    species = BODY | {"breeds": {"male": 1, "female": 0.93}}
    plan = route_of([*groups], [FIRST, pairing("q", ["s"], ["h"])], [{"forms": {"a": "visual"}}], 5, **species)
    problem = prepare(read := read_plan(json.dumps(plan).encode()), read.routes[0])
    courses = ChainRoute(problem, Workshop(problem, alike=False)).courses
    alike = [own for own in courses.up_to(5) if [len(m) for m in own[0].members.values()] == [3]]
    at_once = [own for own in alike if len({member.season for member in own[0].members[0]}) == 1]
    assert at_once
    assert {len(own) for own in at_once} == {1}
    assert max(map(len, alike)) > 1
    assert courses.count(5) == sum(len(own) for own in courses.up_to(5))


HALF = {"breeds": {"male": 0.5, "female": 1}, "clutch": {"fixed": 1}, "reaches_breeding": 0.5}


@pytest.mark.parametrize("species", [CALM, HALF])
def test_sons_of_two_kinds_of_dams_and_their_sisters(species: Json) -> None:
    """What a son may be depends on his dam, also where it is averaged with the one sister whom he serves."""
    dams = [bought("e", "female", "a/a", until=1), bought("f", "female", "+/+", until=1)]
    sire = bought("m", "male", "+/+")
    groups = [sire, *dams, held("s", [{}], "male", count=2), held("h", [{}], count=2)]
    pairings = [pairing("p", ["m"], ["e", "f"]), pairing("q", ["s"], ["h"])]
    chained_and_right(groups, pairings, 2, **species)


@pytest.mark.parametrize("species", [CALM, HALF | {"clutch": {"fixed": 3}}])
def test_three_sons_and_their_sisters(species: Json) -> None:
    groups = [SIRE, DAM, held("s", [{}], "male", count=3), held("h", [{}], count=2)]
    chained_and_right(groups, [FIRST, pairing("q", ["s"], ["h"])], 2, **species)


@pytest.mark.parametrize("dams", [1, 2])
@pytest.mark.parametrize("reaches", [1, 0.5])
def test_sons_that_grow_up_before_their_sisters(dams: int, reaches: float) -> None:
    """When they came makes no difference as long as nobody may be put to them."""
    groups = [SIRE, bought("f", "female", "+/+", count=dams, until=2)]
    held_back = [held("s", [{"a": "normal"}], "male", count=3 - dams), held("h", [{}])]
    species = {"matures": {"male": 1, "female": 2}, "clutch": {"fixed": 1}, "lays": 0.5, "reaches_breeding": reaches}
    chained_and_right([*groups, *held_back], [FIRST, pairing("q", ["s", "m"], ["h"])], 4, **species)


def test_what_fewer_dams_lay_is_found_on_the_way(monkeypatch: pytest.MonkeyPatch) -> None:
    """Two groups that want the same young of one to three dams: three females in all are laid for, not six."""
    laid, female = list[int](), Laid.female

    def seen(own: Laid, after: Complex, place: int, run: Run, biology: Biology, probe: Probe) -> Complex:
        if probe.points == 6:
            laid.append(place)
        return female(own, after, place, run, biology, probe)

    monkeypatch.setattr(Laid, "female", seen)
    monkeypatch.setattr(evaluate, "exact_counts", out_of_reach)
    groups = [SIRE, bought("f", "female", "+/+", until=1), held("g", [{}]), held("h", [{}])]
    species = {"clutch": {"fixed": 2}, "females_per_male": 9, "breeds": {"male": 1, "female": 0.5}}
    plan = route_of(groups, [FIRST, THEN], [{"forms": {"a": "visual"}}], 2, **species)
    taken = []
    for own in ([3], [1, 2, 3]):
        laid.clear()
        plan["routes"][0]["scale"] = {"groups": ["f"], "counts": own}
        read = read_plan(json.dumps(plan).encode())
        assert evaluate_route(read, read.routes[0]).method == "exact"
        taken.append(len(laid))
    assert 0 < taken[0] <= taken[1] < 2 * taken[0]


@pytest.mark.parametrize("reaches", [1, 0.5])
def test_more_sons_than_anybody_asks_for(reaches: float) -> None:
    """Only as many as there are sisters are told apart; the others are kept, and change nothing."""
    groups = [SIRE, bought("f", "female", "+/+", until=2), held("s", [{}], "male", count=3), held("h", [{}])]
    species = {"clutch": {"fixed": 2}, "lays": 0.5, "reaches_breeding": reaches}
    chained_and_right(groups, [FIRST, pairing("q", ["s"], ["h"])], 3, **species)
    plan = route_of(groups, [FIRST, pairing("q", ["s"], ["h"])], [{"forms": {"a": "visual"}}], 7, **BODY)
    problem = prepare(read := read_plan(json.dumps(plan).encode()), read.routes[0])
    courses = ChainRoute(problem, Workshop(problem, alike=False)).courses
    assert max(len(own[0].members[0]) for own in courses.up_to(7)) == 1


@pytest.mark.parametrize("until", [1, None])
@pytest.mark.parametrize("groups", [[held("h", [{}], count=3)], [held("g", [{}]), held("h", [{}], count=2)]])
def test_the_egg_that_meets_the_goal_is_one_of_all(groups: list[Json], until: int | None) -> None:
    """Also where others are held in a season whose young are not grown before the last one."""
    dams = bought("f", "female", "+/+", count=2, until=until)
    species = BODY | {"clutch": {"fixed": 2}, "matures": {"male": 1, "female": 2}, "females_per_male": 2}
    every = [SIRE, dams, held("s", [{}], "male"), *groups]
    back = pairing("q", ["s", "m"], [group["id"] for group in groups])
    plan = read_plan(json.dumps(route_of(every, [FIRST, back], [{"forms": {"a": "visual"}}], 5, **species)).encode())
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(evaluate, "exact_counts", out_of_reach)
        result = evaluate_route(plan, plan.routes[0])
    assert result.method == "exact"
    assert result.chance_by_eggs[-1] == pytest.approx(result.chance_by_season[-1], abs=1e-9)


@pytest.mark.parametrize("sexes", [["any"], ["female", "male"], ["female", "any"]])
@pytest.mark.parametrize("picks", [([{"a": "visual"}], [{}]), ([{"a": "normal"}, {}], [{"a": "visual"}, {}])])
def test_young_that_count_for_a_goal_of_several_are_held_as_well(
    picks: tuple[list[Json], list[Json]], sexes: list[str]
) -> None:
    want = [{"forms": {"a": "visual"}, "sex": sex, "count": 2 if len(sexes) == 1 else 1} for sex in sexes]
    dams = bought("f", "female", "a/+", count=2, until=1)
    groups = [SIRE, dams, held("g", picks[0]), held("h", picks[1])]
    plan = route_of(groups, [THEN, FIRST], want, seasons=2, lays=0.5, clutch={"fixed": 2}, females_per_male=9)
    plan["costs"] |= {"keep_young": 3, "per_young": 2, "surplus": [{"price": 5}]}
    assert not wrong_with(plan)


def test_what_is_held_in_the_last_season_may_be_too_much_to_tell(monkeypatch: pytest.MonkeyPatch) -> None:
    """Only expectations ask for it, when all else is worked out: known before, so that the route is played."""
    groups = [bought("f", "female", "a/+"), bought("e", "female", "+/+"), bought("m", "male", "a/+")]
    groups += [held("g", [{}], count=4), held("h", [{}], count=4), held("s", [{}], "male", count=4)]
    for group in groups[3:]:
        group["from"] = ["p", "q"]
    pairings = [FIRST, pairing("q", ["m"], ["e"])]
    plan = route_of(groups, pairings, [{"forms": {"a": "visual"}}], seasons=1)
    read = read_plan(json.dumps(plan | {"simulation": {"runs": 50, "seed": 1}}).encode())
    monkeypatch.setattr(laid, "_MOST_WAYS", 2_000)
    assert evaluate_route(read, read.routes[0]).method == "simulated"


LATE = {"clutch": {"fixed": 1}, "lays": 0.5, "females_per_male": 2, "reaches_breeding": 0.5}


def courses_of(plan: Json) -> Courses:
    problem = prepare(read := read_plan(json.dumps(plan).encode()), read.routes[0])
    return ChainRoute(problem, Workshop(problem, alike=False)).courses


@pytest.mark.parametrize(("until", "differ"), [(1, False), (2, True), (None, True)])
@pytest.mark.parametrize("daughters", [["g", "h"], ["h", "g"]])
def test_daughters_are_in_the_way_as_long_as_there_are_dams(
    daughters: list[str], until: int | None, differ: bool
) -> None:
    """The sire serves two: both daughters once the dams have left, else they leave none or one to be served."""
    dams = bought("f", "female", "+/+", count=2, until=until)
    groups = [SIRE, dams, held("g", [{}]), held("h", [{}])]
    pairings = [pairing("q", ["m"], daughters), FIRST]
    plan = route_of([*groups], pairings, [{"forms": {"a": "visual"}}], 4, **LATE)
    assert courses_of(plan).differ == differ
    chained_and_right(groups, pairings, 4 if until == 1 else 3, **LATE)


def test_dams_that_come_when_the_daughters_are_grown() -> None:
    """Whether there is a daughter makes a difference to them in the third season alone."""
    late = bought("e", "female", "a/+", season=3, until=3)
    groups = [SIRE, bought("f", "female", "+/+", until=1), late, held("h", [{}], count=2)]
    pairings = [FIRST, pairing("q", ["m"], ["h", "e"])]
    plan = route_of([*groups], pairings, [{"forms": {"a": "visual"}}], 4, **LATE)
    assert courses_of(plan).differ
    chained_and_right(groups, pairings, 4, **LATE)


def test_more_daughters_than_their_males_can_serve() -> None:
    """The third one is never put to anybody: only two are told apart."""
    groups = [SIRE, bought("f", "female", "+/+", until=2), held("h", [{}], count=3)]
    pairings = [pairing("q", ["m"], ["h"]), FIRST]
    plan = route_of([*groups], pairings, [{"forms": {"a": "visual"}}], 3, **LATE)
    assert max(len(own[0].members[0]) for own in courses_of(plan).up_to(3)) == 2
    chained_and_right(groups, pairings, 3, **LATE | {"lays": 1, "clutch": {"fixed": 2}})


def test_where_no_male_works_there_is_one_course() -> None:
    groups = [SIRE, bought("f", "female", "+/+"), held("s", [{}], "male"), held("h", [{}])]
    species = {"breeds": {"male": 0.5, "female": 0.5}}
    plan = route_of(groups, [FIRST, pairing("q", ["s"], ["h"])], [{"forms": {"a": "visual"}}], 4, **species)
    courses = courses_of(plan)
    by_world: dict[int, int] = {}
    for own in courses.up_to(4):
        by_world[own[0].world] = by_world.get(own[0].world, 0) + len(own)
    assert sorted(by_world.values())[:3] == [1, 1, 1]
    assert courses.count(4) == sum(by_world.values())
    assert sorted(by_world.values())[3] > 1
