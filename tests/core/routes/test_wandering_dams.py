"""Dams some of which do not work, and that go from the sire to his sons as these grow up."""

from __future__ import annotations

import gc
import json
import weakref
from collections.abc import Collection
from itertools import product
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.strategies import DrawFn
from test_exact_chain import FIRST, SIRE, begun, evaluated_exactly, out_of_reach, told
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
from core.progress import finished
from core.routes import evaluate
from core.routes.evaluate import evaluate_route
from core.routes.exact.chain import courses, efforts, listing
from core.routes.exact.chain.chain import Chain
from core.routes.exact.chain.choices import Levels, choices, count_choices
from core.routes.exact.chain.course import ANY, Course
from core.routes.exact.chain.parts import parts_of
from core.routes.exact.chain.route import ChainRoute
from core.routes.exact.clusters import States
from core.routes.exact.eggs import CHANCES
from core.routes.exact.plain import Workshop
from core.routes.exact.recent import Recent
from core.routes.prepare import prepare


@st.composite
def herds(draw: DrawFn, females_breed: st.SearchStrategy[float] = st.just(0.5)) -> Json:  # noqa: B008
    """A sire, or two, dams of one or two kinds, sons that are put to them, and daughters beside them."""
    one, half = st.sampled_from([{}, {"a": "normal"}, {"a": "visual"}]), st.sampled_from([1, 0.5])
    second = draw(st.booleans())
    dams = ["f", "g"] if second else ["f"]
    kinds = draw(st.sampled_from(["s", "s", "sh", "hs"]))
    groups = [
        bought("m", "male", draw(st.sampled_from(["a/+", "+/+"]))),
        *(
            bought(
                name, "female", draw(st.sampled_from(["a/+", "+/+"])), count=draw(st.integers(1, 1 if second else 3))
            )
            | {"until": draw(st.sampled_from([None, None, 2]))}
            for name in dams
        ),
        *(
            held(name, draw(st.lists(one, min_size=1, max_size=2)), "male" if name == "s" else "female")
            | {"count": draw(st.integers(1, 2)) if name == "s" else 1}
            for name in kinds
        ),
    ]
    first = pairing("p", ["m"], dams) | {"seasons": [1, draw(st.sampled_from([None, 2]))]}
    back = pairing("q", ["s", "m"] if draw(st.booleans()) else ["s"], [*(["h"] if "h" in kinds else []), *dams])
    want = [
        {"forms": {"a": "visual"}, "sex": draw(st.sampled_from(["any", "female"])), "count": draw(st.integers(1, 2))}
    ]
    risks = {name: draw(half) for name in ("lays", "reaches_breeding")}
    breeds = {"male": draw(half), "female": draw(females_breed)}
    served = draw(st.sampled_from([1, 2, 9]))
    pairings = draw(st.permutations([first, back]))
    plan = route_of(groups, pairings, want, 3, **risks, breeds=breeds, clutch={"fixed": 1}, females_per_male=served)
    plan["costs"] |= {"keep_young": 3, "per_young": 2, "surplus": [{"price": 5}]}
    return plan


@settings(FIXED, max_examples=EXAMPLES // 6)
@given(herds())
def test_dams_that_go_from_one_male_to_another(plan: Json) -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(evaluate, "exact_counts", out_of_reach)
        patch.setattr(listing, "_FEW_WORLDS", 0)
        assert evaluated_exactly(plan)
        held_to_the_reference(plan)


@settings(FIXED, max_examples=EXAMPLES // 6)
@given(herds(st.sampled_from([1, 0.5])))
def test_sons_of_whom_it_is_left_open_what_they_are(plan: Json) -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(evaluate, "exact_counts", out_of_reach)
        left_open(patch)
        assert evaluated_exactly(plan)
        held_to_the_reference(plan)


@pytest.mark.parametrize("pick", [[{}], [{"a": "visual"}, {}], [{"a": "normal"}, {"a": "visual"}]])
@pytest.mark.parametrize("seasons", [[1, 1], [None, None]])
def test_sons_in_lots_give_what_they_give_told_apart(pick: Json, seasons: list[int | None]) -> None:
    """Three sons of two kinds, held in one season or in two, with three dams of whom some do not work."""
    groups = [SIRE, bought("f", "female", "a/+", count=3), held("s", pick, "male", count=3)]
    pairings = [pairing("q", ["s"], ["f"]), FIRST | {"seasons": seasons}]
    risks = {"breeds": {"male": 0.9, "female": 0.9}, "reaches_breeding": 0.8, "females_per_male": 1}
    plan = route_of(groups, pairings, [{"forms": {"a": "visual"}, "count": 2}], 3, **risks, clutch={"fixed": 1})
    plan["costs"] |= {"keep_young": 3, "per_young": 2, "surplus": [{"price": 5}]}
    plan["routes"][0]["scale"] = {"groups": ["f"], "counts": [3]}
    read = read_plan(json.dumps(plan).encode())
    found = []
    for few in (0, 10**9):
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(evaluate, "exact_counts", out_of_reach)
            patch.setattr(listing, "_FEW_COURSES", few)
            found.append(evaluate_route(read, read.routes[0]))
    ours, theirs = found
    assert ours.method == theirs.method == "exact"
    for name, value in told(theirs).items():
        assert told(ours)[name] == pytest.approx(value, abs=1e-9, rel=1e-9), name
    assert ours.chance_by_money.chance == pytest.approx(theirs.chance_by_money.chance, abs=1e-9)


KINDS: tuple[States, ...] = (((0, 1.0),), ((1, 0.5), (2, 0.5)), ((3, 1.0),))


@pytest.mark.parametrize("merged", [None, 2])
@pytest.mark.parametrize("levels", [(KINDS,), (KINDS[:2], KINDS[2:])])
def test_lots_stand_for_every_order(levels: tuple[tuple[States, ...], ...], merged: int | None) -> None:
    """Put in order, and each order counted, they are the ways to say of every one what he is."""
    whens, every = (2, 2, 2, 3, 3), [*KINDS]
    kinds = [*[every] * 4, [ANY]]
    rank = {kind: place for place, level in enumerate(levels) for kind in level}
    listed = choices(7, whens, kinds, Levels(levels, merged))
    assert len(listed) == count_choices(whens, kinds, Levels(levels, merged))
    orders = 0
    for own in product(every, repeat=4):
        seasons = [[rank[kind] for kind in part] for part in (own[:3], own[3:])]
        some = seasons if merged is None or len(levels) == 1 else seasons[1:]
        orders += all(part == sorted(part) for part in some)
    assert sum(choice.times for choice in listed) == orders
    assert all(choice.members[4].kind == ANY for choice in listed)


def left_open(patch: pytest.MonkeyPatch) -> None:
    """Has it left open what sons are wherever it can be."""
    courses_of = listing._Listing.courses

    def favoured(own: Any, aside: frozenset[int], sons: Collection[int] = ()) -> Any:
        found = courses_of(own, aside, sons)
        return found._replace(many=0) if sons else found

    patch.setattr(listing, "_FEW_COURSES", 0)
    patch.setattr(listing._Listing, "courses", favoured)


def test_two_sons_back_to_eight_dams_are_in_reach() -> None:
    sons = held("s", [{}], "male", count=2)
    back = pairing("q", ["s"], ["f"])
    assert begun([SIRE, bought("f", "female", "a/+"), sons], [back, FIRST | {"seasons": [1, 2]}], seasons=6)


def test_daughters_that_never_meet_their_dams_leave_them_to_the_sire() -> None:
    """They come before the dams with the same male, but only when these are bred no more."""
    pairings = [pairing("q", ["m"], ["h"]), FIRST | {"seasons": [1, 1]}]
    groups = [SIRE, bought("f", "female", "a/+"), held("h", [{}])]
    assert begun(groups, pairings, seasons=6, females_per_male=8)
    few = [SIRE, bought("f", "female", "a/+", count=2), held("h", [{}])]
    plan = route_of(few, pairings, [{"forms": {"a": "visual"}}], 3, breeds={"male": 0.5, "female": 0.5}, lays=0.5)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(evaluate, "exact_counts", out_of_reach)
        assert not wrong_with(plan)


def test_who_works_of_dams_that_breed_apart_tells_which_egg_it_was() -> None:
    """Two go to two sons, one each: an egg of the second is the first of all where the other does not work."""
    groups = [SIRE, bought("f", "female", "a/+", count=3), held("s", [{"a": "visual"}, {}], "male", count=2)]
    pairings = [pairing("q", ["s"], ["f"]), FIRST | {"seasons": [1, 1]}]
    risks = {"breeds": {"male": 1, "female": 0.5}, "clutch": {"fixed": 1}}
    plan = route_of(groups, pairings, [{"forms": {"a": "visual"}, "sex": "female"}], 2, **risks)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(evaluate, "exact_counts", out_of_reach)
        patch.setattr(listing, "_FEW_WORLDS", 0)
        assert not wrong_with(plan)


def test_courses_are_let_go_of_when_all_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    """There may be thousands, and a route that is remembered would keep them."""
    listed = weakref.WeakSet[Course]()

    def seen(*told: Any) -> Course:
        course = Course(*told)
        listed.add(course)
        return course

    monkeypatch.setattr(courses, "Course", seen)
    monkeypatch.setattr(evaluate, "exact_counts", out_of_reach)
    groups = [SIRE, bought("f", "female", "a/+", count=2), held("s", [{}], "male")]
    plan = route_of(groups, [pairing("q", ["s"], ["f"]), FIRST], [{"forms": {"a": "visual"}}], 3)
    read, recent = read_plan(json.dumps(plan).encode()), Recent()
    told = finished(evaluate.evaluate_steps(read, read.routes[0], recent=recent))
    assert told.method == "exact"
    gc.collect()
    assert not listed


def test_the_forecast_looks_at_ways_on_which_young_are_held() -> None:
    """With a sire that does not work nothing is, but it is not said of any dam then that she does not work."""
    groups = [SIRE, bought("f", "female", "a/+", count=2), held("s", [{}], "male", count=2)]
    risks = {"breeds": {"male": 0.5, "female": 0.5}}
    plan = route_of(groups, [pairing("q", ["s"], ["f"]), FIRST], [{"forms": {"a": "visual"}}], 3, **risks)
    read = read_plan(json.dumps(plan).encode())
    problem = prepare(read, read.routes[0])
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(listing, "_FEW_WORLDS", 0)
        route = ChainRoute(problem, Workshop(problem, alike=False))
    chain, jobs = Chain(route, route.rows, route.goal, parts_of(CHANCES)[0]), route.jobs.by_world(slice(0, 1), 3)
    assert finished(efforts._of_one(chain, jobs, 3)) > 0
    # Of dams that meet many males in turn no more is kept than what they bred by then: once it was a gigabyte.
    assert not chain._breeding._paths
