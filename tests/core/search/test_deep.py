"""Three generations: every way to go on, drawn as it is named, and worked out by the slow reference."""

from __future__ import annotations

import json
import math
from itertools import product
from typing import Any

import msgspec
import numpy as np
import pytest

from core.plan.check import check_plan
from core.plan.model import Bought, Held, Plan
from core.plan.write import write_plan
from core.progress import finished
from core.routes.evaluate import evaluate_route
from core.search.candidate import Candidate
from core.search.find import Search, find
from tests.core.search.search_cases import sheet
from tests.reference.enumerate import enumerate_route

GENES = [{"id": gene, "name": gene, "alleles": ["x"], "forms": {"x/x": gene}} for gene in ("lav", "amel")]
BOTH = [{"forms": {"lav": "lav", "amel": "amel"}}]
MATES = [*product(("sire", "brothers", "second male"), repeat=2)]


def two_genes(carried: tuple[dict[str, Any], ...], **goal: Any) -> Plan:
    """Males of these kinds, and plain females."""
    males = [{"id": f"m{n}", "sex": "male", "carries": one, "price": 50 + n} for n, one in enumerate(carried)]
    plain = {"id": "f", "sex": "female", "carries": {}, "price": 5}
    return sheet(
        genes=GENES, for_sale=[*males, plain], simulation={"runs": 200, "seed": 3}, species={"clutch": {"fixed": 8}},
        goal={"want": BOTH, "seasons": 5, "outright_price": None, "chance": 0.5, **goal},
    )  # fmt: skip


def deep(plan: Plan, limit: float = math.inf) -> list[Candidate]:
    return [one for one in Search(plan).space.deep(limit) if one is not None]


def test_three_generations_where_two_are_not_enough() -> None:
    """A double het sire and plain dams: what is wanted takes daughters, and theirs."""
    plan = two_genes(({"lav": "x/+", "amel": "x/+"},))
    every = finished(find(plan))
    found = [one for one in (*every.proposals, *every.others) if one.way == "three generations"]
    assert found
    assert check_plan(msgspec.structs.replace(plan, routes=(found[0].route,))) == ()
    assert found[0].result.method == "simulated"
    assert evaluate_route(plan, found[0].route).to_goal == found[0].result.to_goal


def test_what_two_males_carry_comes_together_in_the_third_generation() -> None:
    """Of a visual of one gene and a visual of the other, daughters of the first bred to the second are double hets."""
    plan = two_genes(({"lav": "x/x"}, {"amel": "x/x"}), seasons=4, chance=0.1)
    mates = {one.mates for one in deep(plan)}
    assert ("second male", "brothers") in mates
    # What either carries alone is not enough.
    assert not mates & {("sire", "sire"), ("brothers", "brothers"), ("sire", "brothers"), ("brothers", "sire")}
    assert finished(find(plan)).proposals[0].way == "three generations"


@pytest.fixture(scope="module")
def tiny() -> Plan:
    """Two eggs a clutch and three seasons: the third generation breeds in the last of them."""
    males = [{"id": f"m{n}", "sex": "male", "carries": {"lav": "l/+"}, "price": 40, "ready_in": n} for n in (0, 1)]
    dam = {"id": "f", "sex": "female", "carries": {}, "price": 5}
    return sheet(
        for_sale=[*males, dam], species={"clutch": {"fixed": 2}}, simulation={"runs": 4_000, "seed": 1},
        goal={"seasons": 3, "outright_price": None, "chance": 0.05},
    )  # fmt: skip


@pytest.mark.parametrize("mates", MATES, ids=str)
def test_every_way_to_go_on_gives_what_the_reference_says(tiny: Plan, mates: tuple[Any, Any]) -> None:
    search = Search(tiny)
    drawn = next(one for one in search.space.deep(math.inf) if one is not None and one.mates == mates)
    route = msgspec.structs.replace(search.drawn(drawn, "r"), scale=None)
    groups = tuple(msgspec.structs.replace(one, count=1) if isinstance(one, Held) else one for one in route.groups)
    route = msgspec.structs.replace(route, groups=groups)
    assert check_plan(msgspec.structs.replace(tiny, routes=(route,))) == ()
    document = json.loads(write_plan(msgspec.structs.replace(tiny, routes=(route,))))
    slow = enumerate_route(document, document["routes"][0])
    result = evaluate_route(tiny, route)
    exact = np.array([float(one) for one in slow.chance_by_season()])
    assert exact[-1] > 0.01
    assert np.abs(result.chance_by_season - exact).max() < 4 * 0.5 / math.sqrt(4_000)
    # Nobody comes before he is needed, or stays on.
    second = next((one for one in route.groups if isinstance(one, Bought) and one.id == "second-male"), None)
    assert (second is not None) == ("second male" in mates)
    if second is not None:
        assert second.season + second.ready_in == 2 + (mates[0] != "second male")


def test_no_more_than_there_is_room_and_money_for() -> None:
    plan = two_genes(({"lav": "x/+", "amel": "x/+"}, {"lav": "x/x"}))
    assert deep(plan)
    assert deep(plan, 20) == []
    assert deep(two_genes(({"lav": "x/+", "amel": "x/+"},), housing=4)) == []
    assert deep(two_genes(({"lav": "x/+", "amel": "x/+"},), seasons=2)) == []
