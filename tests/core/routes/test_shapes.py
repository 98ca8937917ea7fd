"""Routes drawn from lists: every shape is a valid plan that breeds, or says what it lacks."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import msgspec
import pytest

from core.plan.check import check_plan
from core.plan.model import Animal, Bought, ForSale, Held, Owned, Plan, Route
from core.plan.read import load_plan
from core.routes.evaluate import evaluate_route
from core.routes.shapes import SHAPES, Shape, Shapes

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
