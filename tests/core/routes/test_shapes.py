"""Routes drawn from lists: every shape is a valid plan that breeds, or says what it lacks."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import msgspec
import pytest

from core.plan.check import check_plan
from core.plan.model import Animal, Bought, ForSale, Held, Owned, Plan, Route, Want
from core.plan.read import load_plan
from core.routes.evaluate import evaluate_route
from core.routes.lists import Lists
from core.routes.pairs import Pairs, Shape
from core.routes.shapes import SHAPES, Shapes

SAMPLES = sorted((Path(__file__).parents[3] / "assets" / "samples").glob("*.plan.json"))
SAMPLE = load_plan(next(path for path in SAMPLES if path.name.startswith("amel")))


def goal(plan: Plan, **changes: Any) -> Plan:
    return msgspec.structs.replace(plan, goal=msgspec.structs.replace(plan.goal, **changes))


def drawn(plan: Plan, shape: Shape, **picks: str) -> Route:
    route = Shapes(plan).propose(shape, picks).route
    assert route is not None
    return route


def bought(route: Route, name: str) -> Bought:
    group = next(one for one in route.groups if one.id == name)
    assert isinstance(group, Bought)
    return group


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
@pytest.mark.parametrize("shape", SHAPES)
def test_every_shape_is_valid_or_says_what_it_lacks(path: Path, shape: Shape) -> None:
    plan = load_plan(path)
    proposal = Shapes(plan).propose(shape)
    assert (proposal.route is None) == (proposal.lack is not None)
    if proposal.route is not None:
        assert check_plan(msgspec.structs.replace(plan, routes=(*plan.routes, proposal.route))) == ()


def test_the_guess_is_sensible() -> None:
    assert bought(drawn(SAMPLE, "straight"), "sire").carries == {"lav": "l/l", "amel": "a/+"}
    assert bought(drawn(SAMPLE, "finished male"), "sire").price == 700
    back = drawn(SAMPLE, "daughters back")
    assert bought(back, "dams").until == 1
    assert [group.pick for group in back.groups if isinstance(group, Held)] == [({"amel": "amel"},)]
    together = drawn(SAMPLE, "young together")
    assert (bought(together, "sire").carries["lav"], bought(together, "dams").carries["amel"]) == ("l/l", "a/a")


@pytest.mark.parametrize("shape", ["straight", "young together", "daughters back", "finished male", "breed then buy"])
def test_what_is_drawn_can_reach_the_goal(shape: Shape) -> None:
    plan = msgspec.structs.replace(SAMPLE, simulation=msgspec.structs.replace(SAMPLE.simulation, runs=400))
    assert evaluate_route(plan, drawn(plan, shape)).chance_by_season[-1] > 0


def test_another_animal_can_be_put_in_a_role() -> None:
    proposal = Shapes(SAMPLE).propose("straight", {"sire": "sale:dh-m"})
    assert proposal.route is not None
    assert bought(proposal.route, "sire").price == 160
    sire = proposal.roles[0]
    assert [one.source.id for one in sire.fits] == ["dh-m", "lav-het-m", "opal-m"]


def test_my_own_animal_is_used() -> None:
    mine = Animal(id="M1", sex="male", name="Flint", carries={"amel": "a/a", "lav": "l/l"})
    plan = msgspec.structs.replace(SAMPLE, my_animals=(mine,))
    route = drawn(plan, "finished male")
    assert route.groups[0] == Owned(id="sire", sex="male", animals=("M1",))


@pytest.mark.parametrize(
    ("plan", "shape", "lack"),
    [
        (msgspec.structs.replace(SAMPLE, for_sale=()), "straight", "nothing listed"),
        (msgspec.structs.replace(SAMPLE, for_sale=SAMPLE.for_sale[:1]), "straight", "no female"),
        (msgspec.structs.replace(SAMPLE, for_sale=SAMPLE.for_sale[1:3]), "straight", "no male"),
        (goal(SAMPLE, outright_price=None), "buy", "no price"),
        (goal(SAMPLE, outright_price=None), "breed then buy", "no price"),
        (goal(SAMPLE, seasons=3), "daughters back", "too few seasons"),
        (goal(SAMPLE, seasons=1), "breed then buy", "too few seasons"),
    ],
)
def test_a_shape_that_cannot_be_made_says_why(plan: Plan, shape: Shape, lack: str) -> None:
    proposal = Shapes(plan).propose(shape)
    assert proposal.route is None
    assert proposal.lack == lack


def wanting(*rows: dict[str, Any]) -> Plan:
    return goal(SAMPLE, want=msgspec.convert(rows, tuple[Want, ...]))


BOTH = {"amel": "amel", "lav": "lavender"}


def test_one_pair_for_every_row_of_the_goal() -> None:
    """The first row alone is cheapest with amels, which give no lavender."""
    plan = wanting({"forms": {"amel": "amel"}}, {"forms": {"lav": "lavender"}, "sex": "male"})
    for shape in ("straight", "daughters back", "breed then buy"):
        proposal = Shapes(plan).propose(shape)
        assert proposal.left == ()
        for role in proposal.roles:
            assert role.chosen is not None
        few = msgspec.structs.replace(plan, simulation=msgspec.structs.replace(plan.simulation, runs=400))
        assert proposal.route is not None
        bred = msgspec.structs.replace(proposal.route, buy_outright=None)
        assert evaluate_route(few, bred).chance_by_season[-1] > 0.1
    alone = Shapes(wanting({"forms": {"amel": "amel"}})).propose("straight")
    assert alone.route != Shapes(plan).propose("straight").route


def test_the_row_that_takes_most_decides_what_a_pair_takes() -> None:
    money = []
    for many in (1, 4):
        plan = wanting({"forms": BOTH, "sex": "female"}, {"forms": BOTH, "sex": "male", "count": many})
        pairs = Pairs(plan, [Lists(plan, row) for row in (0, 1)])
        sires, dams = pairs.fitting("straight")
        assert (len(sires), len(dams)) == (3, 2)
        money.append(pairs.best("straight", sires, dams).guess.money)
    assert money[1] > money[0]


def test_the_row_that_a_shape_can_serve() -> None:
    """Without a male that may carry both, a pair for the first row that has one."""
    some = tuple(one for one in SAMPLE.for_sale if one.sex == "female" or "lav" not in one.carries)
    amel = ForSale(id="amel-m", sex="male", carries={"amel": "a/a"}, price=40)
    plan = wanting({"forms": {"lav": "lavender"}}, {"forms": {"amel": "amel"}})
    proposal = Shapes(msgspec.structs.replace(plan, for_sale=(*some, amel))).propose("straight")
    assert proposal.left == (0,)
    assert proposal.route is not None
    assert proposal.lack is None


def test_rows_that_ask_for_two_forms_of_one_gene() -> None:
    plan = load_plan(next(path for path in SAMPLES if "hognose" in path.name))
    rows = ({"forms": {"sand": "caramel"}}, {"forms": {"sand": "toffee"}})
    plan = goal(plan, want=msgspec.convert(rows, tuple[Want, ...]))
    proposal = Shapes(plan).propose("straight")
    assert proposal.left == ()
    assert proposal.route is not None
    assert evaluate_route(plan, proposal.route).chance_by_season[-1] > 0


def test_who_is_bought_comes_when_the_mate_is_grown() -> None:
    small = ForSale(id="y", sex="male", carries={"amel": "a/a", "lav": "l/l"}, price=1, ready_in=2)
    plan = msgspec.structs.replace(SAMPLE, for_sale=(small, *(o for o in SAMPLE.for_sale if o.sex == "female")))
    route = drawn(plan, "straight")
    assert (bought(route, "sire").season, bought(route, "dams").season) == (1, 3)


def test_sold_out_and_small_animals() -> None:
    sold_out = ForSale(id="x", sex="male", carries={"amel": "a/a", "lav": "l/l"}, price=1, quantity=0)
    small = ForSale(id="y", sex="female", carries={"amel": "a/a"}, price=1, ready_in=2)
    plan = msgspec.structs.replace(SAMPLE, for_sale=(sold_out, small, *SAMPLE.for_sale[:1]))
    route = drawn(plan, "daughters back")
    assert bought(route, "sire").price == 160
    assert (bought(route, "dams").ready_in, bought(route, "dams").until) == (2, 3)
    assert route.pairings[0].seasons == (3, 3)


def test_ids_stay_free() -> None:
    route = drawn(SAMPLE, "empty")
    with_it = msgspec.structs.replace(SAMPLE, routes=(*SAMPLE.routes, route))
    assert drawn(with_it, "empty").id != route.id
