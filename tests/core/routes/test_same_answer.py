"""Plans that say the same in other words get the same answer, count by count, without any reference."""

from __future__ import annotations

import copy
import json
from collections.abc import Callable
from typing import Any

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.strategies import DataObject
from test_exact_enumeration import EXAMPLES, FIXED, Json
from test_exact_holds import deeper

from core.plan.read import read_plan
from core.progress import finished
from core.routes.answer import InSteps
from core.routes.evaluate import engine_steps

Told = list[dict[str, Any]]
# Another way to say a plan, made of a copy of it; None where there is nothing to say otherwise.
Change = Callable[[Json, DataObject], Json | None]
EXPECTED = ("paid", "sales", "reached", "present", "young", "surplus", "up_front")


def told(plan: Json) -> Told | None:
    """What is said at every count; None where it is played."""
    read = read_plan(json.dumps(plan | {"simulation": {"runs": 1, "seed": 1}}).encode())
    said = finished(engine_steps(read, read.routes[0]))
    if said.played:
        return None
    each = []
    for place, answer in enumerate(said.answers):
        for _ in said.expectations.steps(place) if isinstance(said.expectations, InSteps) else ():
            pass
        expected = said.expectations(place)
        eggs = answer.eggs().sum(axis=0)
        each.append(
            {"chance": answer.chance, "eggs": np.trim_zeros(eggs, "b"), "grid": answer.grid, "money": answer.by_money}
            | {name: np.asarray(getattr(expected, name)) for name in EXPECTED}
        )
    return each


def apart(ours: Told, other: Told, seasons: int | None = None) -> list[str]:
    """What differs; through so many seasons of ours only."""
    assert len(ours) == len(other)
    wrong = []
    for place, (one, two) in enumerate(zip(ours, other, strict=True)):
        names = ["chance", *EXPECTED[:-1]] if seasons is None else ["chance", "paid", "sales", "reached", "young"]
        if seasons is None and one["grid"] == two["grid"]:
            names.append("money")
        here = np.asarray(one["reached"]) > 1e-9
        for name in names:
            a, b = (np.where(here, own[name], 0) if name == "present" else own[name] for own in (one, two))
            b = b if seasons is None else b[:seasons]
            if not np.allclose(a, b, rtol=1e-8, atol=1e-8):
                wrong.append(f"{name} of count {place}: {a} and {b}")
        length = min(len(one["eggs"]), len(two["eggs"]))
        if seasons is None and not np.allclose(one["eggs"][:length], two["eggs"][:length], rtol=0, atol=1e-8):
            wrong.append(f"eggs of count {place}")
    return wrong


def a_group_in_two(plan: Json, data: DataObject) -> Json | None:
    """A group of females is two groups, one after the other wherever it stands."""
    [route] = plan["routes"]
    scaled = route.get("scale", {}).get("groups", [])
    able = [g for g in route["groups"] if g["sex"] == "female" and g.get("count", 1) > 1 and g["id"] not in scaled]
    if not able or not scaled:
        return None
    one = data.draw(st.sampled_from(able))
    other = copy.deepcopy(one) | {"id": "other", "count": 1}
    one["count"] -= 1
    route["groups"].insert(route["groups"].index(one) + 1, other)
    for row in route["pairings"]:
        if one["id"] in row["females"]:
            row["females"].insert(row["females"].index(one["id"]) + 1, "other")
    return plan


def a_pairing_in_two(plan: Json, data: DataObject) -> Json | None:
    """One pairing through some seasons, another through those after."""
    [route] = plan["routes"]
    row = data.draw(st.sampled_from(route["pairings"]))
    first, last = row.get("seasons", [None, None])
    cut = data.draw(st.integers(1, plan["goal"]["seasons"]))
    if (first or 1) > cut or (last is not None and last <= cut):
        return None
    other = copy.deepcopy(row) | {"id": "other", "seasons": [cut + 1, last]}
    row["seasons"] = [first, cut]
    route["pairings"].insert(route["pairings"].index(row) + data.draw(st.integers(0, 1)), other)
    _from_both(route, row["id"])
    return plan


def a_pairing_again(plan: Json, data: DataObject) -> Json:
    """Who is left over is tried once more with the same males: they have no time."""
    [route] = plan["routes"]
    row = data.draw(st.sampled_from(route["pairings"]))
    route["pairings"].insert(route["pairings"].index(row) + 1, copy.deepcopy(row) | {"id": "other"})
    _from_both(route, row["id"])
    return plan


def _from_both(route: Json, source: str) -> None:
    for group in route["groups"]:
        if source in group.get("from", []):
            group["from"].append("other")


def never_there(plan: Json, data: DataObject) -> Json:
    """Males who would come after the last season are tried first, or last."""
    [route] = plan["routes"]
    late = {"id": "late", "sex": "male", "count": 2, "origin": "buy", "price": 3, "carries": {}}
    route["groups"].insert(0, late | {"season": plan["goal"]["seasons"] + 1})
    for row in route["pairings"]:
        row["males"].insert(data.draw(st.sampled_from([0, len(row["males"])])), "late")
    return plan


def founders_in_another_order(plan: Json, data: DataObject) -> Json:
    """Only who holds first, and who is listed first in a pairing, makes a difference."""
    [route] = plan["routes"]
    held = [group for group in route["groups"] if group["origin"] == "hold"]
    rest = data.draw(st.permutations([group for group in route["groups"] if group["origin"] != "hold"]))
    if "scale" in route:
        route["groups"] = [*held, *rest]
    return plan


CHANGES = [a_group_in_two, a_pairing_in_two, a_pairing_again, never_there, founders_in_another_order]


@settings(FIXED, max_examples=EXAMPLES // 2)
@given(deeper(), st.sampled_from(CHANGES), st.data())
def test_in_other_words(plan: Json, change: Change, data: DataObject) -> None:
    other = change(copy.deepcopy(plan), data)
    ours = told(plan) if other else None
    theirs = told(other) if other and ours else None
    if ours and theirs:
        assert not apart(theirs, ours)


@settings(FIXED, max_examples=EXAMPLES // 4)
@given(deeper())
def test_each_count_by_itself(plan: Json) -> None:
    scale, ours = plan["routes"][0].get("scale"), told(plan)
    for place, count in enumerate(scale["counts"] if scale and ours else []):
        alone = copy.deepcopy(plan)
        alone["routes"][0]["scale"]["counts"] = [count]
        for group in alone["routes"][0]["groups"]:
            group |= {"count": count} if group["id"] in scale["groups"] else {}
        theirs = told(alone)
        assert not ours or not theirs or not apart(theirs, [ours[place]])


@settings(FIXED, max_examples=EXAMPLES // 4)
@given(deeper())
def test_with_fewer_seasons_all_goes_as_it_did(plan: Json) -> None:
    ours = told(plan)
    for seasons in range(1, plan["goal"]["seasons"] if ours else 1):
        short = copy.deepcopy(plan)
        short["goal"]["seasons"] = seasons
        if short["routes"][0].get("buy_outright", 0) > seasons:
            del short["routes"][0]["buy_outright"]
        theirs = told(short)
        assert not ours or not theirs or not apart(theirs, ours, seasons)
