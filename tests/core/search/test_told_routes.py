"""What found routes are called, and why they are there."""

from __future__ import annotations

from dataclasses import replace
from itertools import product
from typing import Any

import pytest

from core.plan.model import Owned, Plan, Route
from core.progress import finished
from core.routes.evaluate import evaluate_route
from core.search.candidate import Candidate
from core.search.drawing import Drawing
from core.search.find import Search, find
from core.search.found import Found
from core.search.reasons import why
from core.search.stock import Stock
from core.search.telling import title, told_apart, what
from tests.core.search.search_cases import HET, sheet

WAYS = ("straight", "then buy", "back", "second male", "together", "son", "outright")
MATES = [*product(("sire", "brothers", "second male"), repeat=2)]


@pytest.fixture(scope="module")
def plan() -> Plan:
    return sheet()


@pytest.fixture(scope="module")
def found(plan: Plan) -> Found:
    return finished(find(plan))


def told(plan: Plan, one: Candidate) -> tuple[str, str]:
    drawing = Drawing(plan, Stock(plan))
    return title(plan, drawing, one), what(plan, drawing, one)


def test_every_way_has_a_name_and_a_sentence_of_its_own(plan: Plan) -> None:
    parts: Any = {"sire": 1, "dams": 2, "second": 3, "goes": 1, "buy": 3}
    every = [told(plan, Candidate(way, **parts)) for way in WAYS]
    every += [told(plan, Candidate("three generations", **parts, mates=mates)) for mates in MATES]
    names, sentences = zip(*every, strict=True)
    assert len({*names}) == len({*sentences}) == len(WAYS) + len(MATES)
    assert not [text for text in (*names, *sentences) if "{" in text or "  " in text or text[0].islower()]


def test_daughters_are_named_by_what_they_are_chosen_for(plan: Plan) -> None:
    one = Candidate("back", 1, 2, goes=None, pick={"lav": "lavender"})
    assert told(plan, one) == (
        "50 % het lavender × het lavender, lavender visual daughters back",
        "Holds back lavender visual daughters and puts them to their sire",
    )
    twice = Candidate("three generations", 1, 2, goes=1, later={"lav": "lavender"}, mates=("sire", "sire"))
    assert told(plan, twice) == (
        "50 % het lavender × het lavender, daughters and granddaughters back",
        "Holds back daughters for their sire, then lavender visual granddaughters for him, too",
    )


def test_who_is_bought_later_is_said() -> None:
    young = {"id": "m", "sex": "male", "carries": {"lav": "l/l"}, "price": 5, "ready_in": 2}
    dam = {"id": "f", "sex": "female", "carries": {"lav": "l/l"}, "price": 5}
    plan = sheet(for_sale=[young, dam])
    _, sentence = told(plan, Candidate("straight", 0, 0))
    assert sentence == "Lets the male grow, buys females when he has, and breeds them with nothing held back"


def test_what_the_trade_calls_alike_goes_by_its_name_in_the_list() -> None:
    """Two genes that most likely travel together, or apart: both are double hets, of unknown sides."""
    genes = [{"id": gene, "name": gene, "alleles": ["x"], "forms": {"x/x": gene}} for gene in ("lav", "amel")]
    males = [
        {"id": "near", "sex": "male", "carries": likely("2/3", "1/3"), "price": 5, "label": "Double het, of opals"},
        {"id": "far", "sex": "male", "carries": likely("1/3", "2/3"), "price": 6},
        {"id": "sure", "sex": "male", "carries": {"lav amel": "x +/+ x"}, "price": 7},
    ]
    dam = {"id": "f", "sex": "female", "carries": {"lav amel": "x x/+ +"}, "price": 5}
    linkage = [{"genes": ["lav", "amel"], "recombination": [0.1]}]
    plan = sheet(
        genes=genes, linkage=linkage, for_sale=[*males, dam], goal={"want": [{"forms": {"lav": "lav", "amel": "amel"}}]}
    )
    names = [told(plan, Candidate("straight", n, 0))[0] for n in (0, 1, 2)]
    dams = "double het (together)"
    assert names == [f"Double het, of opals × {dams}", f"Far × {dams}", f"Double het (apart) × {dams}"]


def likely(together: str, apart: str) -> dict[str, dict[str, str]]:
    return {"lav amel": {"x x/+ +": together, "x +/+ x": apart}}


def test_every_route_says_why_it_is_there(found: Found) -> None:
    first, *others = found.proposals
    assert first.why.endswith(": the least money of all that was tried.")
    for one in (*others, *found.others):
        assert one.why.count("; ") >= 1
        assert one.why.endswith(".")


def test_names_are_told_apart(found: Found) -> None:
    names = [one.route.name for one in (*found.proposals, *found.others)]
    assert len({*names}) == len(names)


def test_alike_names_are_told_apart_by_numbers_and_then_by_seasons(plan: Plan) -> None:
    search = Search(plan)
    pair = Candidate("then buy", 0, 0, buy=2)
    back = Candidate("back", 0, 0, counts=(2,), goes=1)
    every = [pair, replace(pair, counts=(2,)), replace(pair, buy=3), back, replace(back, goes=2), replace(back, many=2)]
    names = told_apart([search.drawn(one, "r") for one in (*every, pair, Candidate("outright"))])
    assert [name.partition(" (")[2] for name in names] == [
        "1.1, bought in season 2)",
        "1.2)",
        "1.1, bought in season 3)",
        "1.1, two held back, dams until season 1)",
        "1.1, two held back, dams until season 2)",
        "1.2, two held back)",
        "1.1, bought in season 2) 2",
        "",
    ]
    long = Route(id="r", name="x" * 400)
    assert [len(one) <= 400 for one in told_apart([long, long])] == [True, True]


def test_several_are_wanted_and_bought_in_the_plural() -> None:
    two = sheet(goal={"want": [{"forms": {"lav": "lavender"}, "count": 2}]})
    assert told(two, Candidate("outright")) == (
        "Buy the finished animals",
        "Pays for the finished animals and has them now",
    )
    assert "buys the finished animals if they are not there" in told(two, Candidate("then buy", 0, 0, buy=3))[1]


@pytest.mark.parametrize(
    ("parts", "told"),
    [
        ({"sire": 0}, "without the male"),
        ({"second": 1, "way": "second male", "sire": 0}, "with some of the animals of the cheapest"),
        ({"dams": 0}, "without the females"),
        ({"dams": 0, "other": 2, "others": 1}, "with some of the animals of the cheapest"),
        ({"way": "son"}, "another way with the animals of the cheapest"),
    ],
)
def test_what_is_done_without_is_not_in_the_route(plan: Plan, parts: dict[str, Any], told: str) -> None:
    """Nothing else speaks for these: the same figures as those of the cheapest."""
    best = Candidate("straight", 1, 2)
    assert told in beside(plan, replace(best, **parts), best)
    # Where the cheapest breeds nothing it has no male to do without.
    assert "cheapest" not in beside(plan, replace(best, **parts), Candidate("outright"))


def test_some_of_my_animals_are_not_others() -> None:
    mine: list[dict[str, Any]] = [
        {"id": name, "name": name, "sex": sex, "carries": HET}
        for name, sex in (("Flint", "male"), ("Hazel", "female"), ("Ivy", "female"))
    ]
    plan = sheet(my_animals=mine, for_sale=[])
    kinds = [kind.group("g", 1) for kind in Stock(plan).females]
    one, both = (
        next(place for place, kind in enumerate(kinds) if isinstance(kind, Owned) and kind.animals == animals)
        for animals in (("Ivy",), ("Hazel", "Ivy"))
    )
    assert "without" not in beside(plan, Candidate("straight", 0, both), Candidate("straight", 0, one))


def beside(plan: Plan, one: Candidate, best: Candidate) -> str:
    result = evaluate_route(plan, Search(plan).drawn(Candidate("outright"), "r"))
    return why(plan, Drawing(plan, Stock(plan)), one, replace(result), (best, result))


def test_what_only_a_point_of_the_frontier_stands_for_says_so(plan: Plan) -> None:
    few = finished(find(plan, most=1))
    assert few.others
    for one in few.others:
        assert "; of all that was tried it takes the least money " in one.why
        assert one.route.id in {point.route for point in few.frontier}
