"""Young held back for one generation: single plans that ask for one thing each, and deeper random ones."""

from __future__ import annotations

import json
from typing import Any
from unittest.mock import Mock

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

from core.plan.read import read_plan
from core.routes import evaluate
from core.routes.evaluate import evaluate_route
from core.routes.exact.limits import OutOfReach
from tests.reference import plan_parts as parts
from tests.reference.plans import plans

VISUAL = [{"forms": {"a": "visual"}}]


@st.composite
def deeper(draw: DrawFn) -> Json:
    """Tiny plans with up to two young a group, three preferences and goals of several."""
    plan = draw(plans(tiny=True, losses=draw(st.booleans())))
    plan["goal"]["seasons"] = max(2, plan["goal"]["seasons"])
    for row in plan["goal"]["want"]:
        if draw(st.booleans()):
            row["count"] = draw(st.integers(1, 3))
    route = plan["routes"][0]
    for group in route["groups"]:
        if group["origin"] == "hold":
            group["count"] = draw(st.integers(1, 2))
            pick = parts.condition(plan["genes"], plan["species"]["sex_system"], group["sex"])
            group["pick"] = draw(st.lists(pick, min_size=1, max_size=3))
    if "scale" in route:
        route["scale"]["counts"] = sorted(draw(st.sets(st.integers(1, 2), min_size=1)))
    return plan


@settings(FIXED, max_examples=EXAMPLES // 2)
@given(deeper())
def test_every_way_of_deeper_plans(plan: Json) -> None:
    held_to_the_reference(plan)


@st.composite
def families(draw: DrawFn) -> Json:
    """A sire and his dams, and their sons, daughters and a second group of them: one or two each, or none."""
    one, risk = st.sampled_from([{}, {"a": "normal"}, {"a": "visual"}]), st.sampled_from([1, 1, 0.5])
    kinds = draw(st.sampled_from(["s", "h", "sh", "hs", "gh", "sgh", "shg"]))
    groups = [
        bought("m", "male", draw(st.sampled_from(["a/+", "a/a", "+/+"]))),
        bought("f", "female", draw(st.sampled_from(["a/+", "+/+", "a/a"])), until=draw(st.sampled_from([1, 2, None]))),
        *(
            held(name, draw(st.lists(one, min_size=1, max_size=2)), "male" if name == "s" else "female")
            | {"count": draw(st.integers(1, 2)), "until": draw(st.sampled_from([None, None, 2]))}
            for name in kinds
        ),
    ]
    males = ["m"] if "s" not in kinds else draw(st.sampled_from([["s"], ["s", "m"], ["m"], ["m", "s"]]))
    back = pairing("q", males, [name for name in kinds if name != "s"] or ["f"])
    pairings = draw(st.permutations([pairing("p", ["m"], ["f"]), back]))
    sexes = draw(st.sampled_from([["any"], ["female"], ["any", "any"], ["female", "male"], ["female", "any"]]))
    forms = draw(st.sampled_from([{"a": "visual"}, {"a": "visual"}, {"a": "normal"}]))
    want = [{"forms": forms, "sex": sex, "count": draw(st.integers(1, 2))} for sex in sexes]
    species = {name: draw(risk) for name in ("lays", "hatches", "reaches_breeding")}
    species |= {
        "breeds": {"male": draw(risk), "female": draw(risk)},
        "females_per_male": draw(st.sampled_from([1, 2, 9])),
    }
    species |= {"clutch": {"fixed": draw(st.integers(1, 2))}, "clutch_lost": draw(st.sampled_from([0, 0.25]))}
    species |= {"matures": {"male": draw(st.integers(1, 2)), "female": draw(st.integers(1, 2))}}
    plan = route_of(groups, list(pairings), want, draw(st.integers(2, 4)), **species)
    plan["costs"] |= {"keep_young": 3, "per_young": draw(st.sampled_from([0, 2])), "surplus": [{"price": 5}]}
    return plan


@settings(FIXED, max_examples=EXAMPLES)
@given(families())
def test_every_way_of_families(plan: Json) -> None:
    held_to_the_reference(plan)


# One thing each

FIRST, THEN = pairing("p", ["m"], ["f"]), pairing("q", ["m"], ["h"])
IDLE = {"breeds": {"male": 1, "female": 0.75}, "clutch": {"fixed": 1}}


def founders(**dam: Any) -> list[Json]:
    return [bought("m", "male", "a/+"), bought("f", "female", "a/+", **dam)]


def test_young_held_that_fill_the_first_of_two_rows() -> None:
    rows = [{"forms": {"a": "visual"}, "sex": sex} for sex in ("female", "male")]
    groups = [*founders(until=1), held("h", [{"a": "visual"}])]
    assert not wrong_with(route_of(groups, [FIRST, THEN], rows, seasons=3))


def test_a_goal_that_is_surely_met_while_young_are_held() -> None:
    groups = [bought("m", "male", "+/+"), bought("f", "female", "+/+", until=1), held("h", [{}])]
    assert not wrong_with(route_of(groups, [FIRST, THEN], [{"forms": {"a": "normal"}}], seasons=3))


def test_a_goal_that_is_surely_met_by_every_young() -> None:
    groups = [bought("m", "male", "a/a"), bought("f", "female", "a/a"), held("h", [{"a": "visual"}])]
    assert not wrong_with(route_of(groups, [FIRST, THEN], VISUAL, seasons=3))


def test_a_female_that_never_lays_has_no_egg() -> None:
    assert not wrong_with(route_of([*founders(), held("h", [{}])], [FIRST, THEN], VISUAL, seasons=2, **IDLE))


def test_a_female_that_breeds_once_may_not_work() -> None:
    groups = [*founders(until=1), held("h", [{}])]
    assert not wrong_with(route_of(groups, [FIRST, THEN], VISUAL, seasons=2, **IDLE))


def test_daughters_that_come_before_their_dam() -> None:
    groups = [*founders(until=1), held("h", [{}])]
    assert not wrong_with(route_of(groups, [THEN, FIRST], VISUAL, seasons=2, **IDLE))


def test_dams_that_come_a_season_later() -> None:
    groups = [*founders(season=2), held("h", [{}])]
    first = pairing("q", ["m"], ["h", "f"])
    assert not wrong_with(route_of(groups, [first, FIRST], VISUAL, seasons=2, clutch={"fixed": 1}))


def test_a_son_back_to_his_dam() -> None:
    groups = [*founders(), held("h", [{}], "male")]
    back = pairing("q", ["h"], ["f"])
    assert not wrong_with(route_of(groups, [back, FIRST], VISUAL, seasons=2, clutch={"fixed": 1}))


def test_a_son_whose_dam_is_given_away_before_him() -> None:
    groups = [*founders(), held("h", [{}], "male")]
    back = pairing("q", ["h"], ["f"])
    plan = route_of(groups, [FIRST, back], VISUAL, seasons=2, **{**IDLE, "breeds": {"male": 0.75, "female": 1}})
    assert not wrong_with(plan)


def test_held_young_fit_to_breed_or_not() -> None:
    groups = [*founders(until=1), held("h", [{"a": "visual"}, {}], count=2)]
    plan = route_of(groups, [FIRST, THEN], VISUAL, seasons=2, reaches_breeding=0.5, hatches=0.75)
    assert not wrong_with(plan)


@pytest.mark.parametrize("seasons", [2, 3])
@pytest.mark.parametrize("reaches", [1, 0.5])
def test_held_young_are_kept_while_they_grow(seasons: int, reaches: float) -> None:
    """Also those that would be breeder-size after the last season."""
    body = {"clutch": {"fixed": 1}, "matures": {"male": 1, "female": 2}, "reaches_breeding": reaches}
    plan = route_of([*founders(), held("h", [{}])], [FIRST, THEN], VISUAL, seasons, **body)
    plan["costs"]["keep_young"] = 3
    assert not wrong_with(plan)


def test_held_young_are_kept_where_their_pairing_is_over() -> None:
    closed = THEN | {"seasons": [1, 1]}
    plan = route_of([*founders(), held("h", [{}])], [FIRST, closed], VISUAL, 3, clutch={"fixed": 1})
    assert not wrong_with(plan)


def test_a_scale_of_the_young_held() -> None:
    plan = route_of([*founders(until=1), held("h", [{}], count=2)], [FIRST, THEN], VISUAL, seasons=2)
    plan["routes"][0]["scale"] = {"groups": ["h"], "counts": [1, 2]}
    assert not wrong_with(plan)


def test_two_groups_from_one_clutch() -> None:
    groups = [*founders(until=1), held("s", [{"a": "normal"}], "male"), held("h", [{"a": "visual"}, {}])]
    siblings = pairing("q", ["s", "m"], ["h"])
    assert not wrong_with(route_of(groups, [FIRST, siblings], VISUAL, seasons=2))


@pytest.mark.parametrize("keep", [0, 3])
@pytest.mark.parametrize("sexes", [["any", "any"], ["female", "male"], ["any"]])
def test_a_son_that_no_sister_is_put_to_only_costs_his_keep(sexes: list[str], keep: int) -> None:
    groups = [bought("m", "male", "a/+"), bought("f", "female", "+/+", until=1), held("s", [{}], "male")]
    want = [{"forms": {"a": "visual"}, "sex": sex, "count": 2 if len(sexes) == 1 else 1} for sex in sexes]
    plan = route_of([*groups, held("h", [{}])], [FIRST, pairing("q", ["s"], ["h"])], want, seasons=3)
    plan["costs"]["keep_young"] = keep
    assert not wrong_with(plan)


# Up to eight young of founders whose genotypes are known are to be answered exactly.

BOTH = {"a": "visual", "b": "visual"}
GENES = [{"id": name, "name": name, "alleles": [name], "forms": {f"{name}/{name}": "visual"}} for name in "ab"]
BODY = {"clutch": {"mean": 12, "sd": 3, "min": 5, "max": 20}, "matures": {"male": 2, "female": 2}, "hatches": 0.9}


def eight(
    groups: list[Json],
    pairings: list[Json],
    want: list[Json] | None = None,
    dams: int = 1,
    scaled: Json | None = None,
    **species: Any,
) -> Json:
    """A double het sire, dams visual for one gene; six seasons."""
    sire = bought("m", "male", "a/+") | {"carries": {"a": "a/+", "b": "b/+"}}
    dam = bought("f", "female", "a/a", count=dams)
    plan = route_of([sire, dam, *groups], pairings, want or [{"forms": BOTH}], 6, **(BODY | species))
    plan["genes"] = GENES
    plan["costs"] = {"setup": 50, "keep_adult": 40, "keep_young": 15, "per_egg": 1.5, "per_young": 4}
    plan["routes"][0]["scale"] = scaled or {"groups": ["h"], "counts": [1, 8]}
    return plan


A, B = {"a": "visual"}, {"a": "visual", "b": "normal"}
DAUGHTERS = held("h", [A], count=8)
SIBLINGS = [FIRST, pairing("q", ["s", "m"], ["h"])]
IN_REACH = {
    "one preference": eight([DAUGHTERS], [FIRST, THEN]),
    "any daughters": eight([held("h", [{}], count=8)], [FIRST, THEN]),
    "two preferences": eight([held("h", [BOTH, A], count=8)], [FIRST, THEN]),
    "four dams": eight([DAUGHTERS], [FIRST, THEN], dams=4),
    "a male and a female wanted": eight(
        [DAUGHTERS], [FIRST, THEN], [{"forms": BOTH, "sex": s} for s in ("male", "female")]
    ),
    "a son back to the dams": eight([held("h", [A], "male")], [FIRST, pairing("q", ["h"], ["f"])], dams=4),
    "two groups that ask for different forms": eight(
        [held("g", [BOTH], count=2), held("h", [B], count=8)], [FIRST, pairing("q", ["m"], ["g", "h"])]
    ),
    "some do not live to breed": eight([held("h", [BOTH, A], count=8)], [FIRST, THEN], reaches_breeding=0.9),
    "some do not work": eight([DAUGHTERS], [FIRST, THEN], breeds={"male": 0.9, "female": 0.9}, reaches_breeding=0.9),
    "three preferences": eight([held("h", [BOTH, A, {}], count=8)], [FIRST, THEN]),
    "rows that overlap": eight([DAUGHTERS], [FIRST, THEN], [{"forms": BOTH, "sex": "female"}, {"forms": BOTH}]),
    "sons and daughters": eight([DAUGHTERS, held("s", [A], "male", count=2)], SIBLINGS),
    "an upgrade": eight([held("g", [BOTH], count=2), DAUGHTERS], [FIRST, pairing("q", ["m"], ["g", "h"])]),
}


def method(plan: Json) -> str:
    read = read_plan(json.dumps(plan | {"simulation": {"runs": 100, "seed": 1}}).encode())
    return evaluate_route(read, read.routes[0]).method


@pytest.mark.parametrize("kind", IN_REACH)
def test_up_to_eight_held_are_answered_exactly(kind: str) -> None:
    assert method(IN_REACH[kind]) == "exact"


@pytest.mark.parametrize("seasons", [1, 2])
@pytest.mark.parametrize("chains", [True, False])
def test_more_ways_to_hold_than_are_told_apart_are_known_in_time(
    seasons: int, chains: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What is held in the last season, or counts for the goal, is asked for when all else is worked out."""
    if not chains:
        monkeypatch.setattr(evaluate, "_chained", Mock(side_effect=OutOfReach("said so")))
    dams = [bought(f"f{i}", "female", genotype) for i, genotype in enumerate(["a/+", "+/+", "a/+"])]
    groups = [bought("m", "male", "a/+"), *dams, held("s", [{"a": "visual"}, {}], "male", count=2)]
    groups += [held("g", [{"a": "visual"}], count=2), held("h", [{"a": "normal"}], count=2)]
    for group in groups[4:]:
        group["from"] = ["p0", "p1", "p2"]
    pairings = [*(pairing(f"p{i}", ["m"], [f"f{i}"]) for i in range(3)), pairing("q", ["s"], ["g", "h"])]
    plan = route_of(groups, pairings, VISUAL, seasons, clutch={"fixed": 1})
    assert not chains or not wrong_with(plan)
    read = read_plan(json.dumps(plan).encode())
    assert evaluate_route(read, read.routes[0]).method == ("exact" if chains else "simulated")


@st.composite
def crowds(draw: DrawFn) -> Json:
    """Dams in pairings of their own, and groups of up to four that are held from some of them."""
    dams = [bought(f"f{i}", "female", draw(st.sampled_from(["a/+", "+/+"]))) for i in range(draw(st.integers(1, 3)))]
    pairings = [pairing(f"p{i}", ["m"], [dam["id"]]) for i, dam in enumerate(dams)]
    sources = st.lists(st.sampled_from([row["id"] for row in pairings]), min_size=1, unique=True)
    pick = st.lists(st.sampled_from([{}, {"a": "normal"}, {"a": "visual"}]), min_size=1, max_size=2)
    groups = [bought("m", "male", "a/+"), *dams]
    for number, sex in enumerate(draw(st.lists(st.sampled_from(["male", "female"]), min_size=2, max_size=3))):
        young = held(f"h{number}", draw(pick), sex, count=draw(st.integers(1, 4)))
        groups.append(young | {"from": draw(sources)})
    return route_of(groups, pairings, VISUAL, draw(st.integers(1, 2)))


@pytest.mark.parametrize("left_out", ["exact_counts", "_chained", "nothing"])
@settings(FIXED, max_examples=EXAMPLES // 3)
@given(crowds())
def test_whatever_is_held_there_is_an_answer(left_out: str, plan: Json) -> None:
    """Played, where it is too much: nobody finds out when there are answers already."""
    read = read_plan(json.dumps(plan | {"simulation": {"runs": 1, "seed": 1}}).encode())
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(evaluate, left_out, Mock(side_effect=OutOfReach("said so")), raising=False)
        assert evaluate_route(read, read.routes[0]).method in ("exact", "simulated")
