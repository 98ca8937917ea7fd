"""An answer in pieces is the answer at once; what is too large for either is played, and says so in time."""

from __future__ import annotations

from unittest.mock import DEFAULT, Mock

import msgspec
import numpy as np
import pytest

from core.plan.model import Plan, Scale
from core.plan.read import load_plan
from core.routes import evaluate
from core.routes.evaluate import evaluate_route
from core.routes.exact import in_pieces, limits, plain
from core.routes.exact.limits import MOST_KEPT, OutOfReach, OutOfRoom, Room
from core.routes.exact.sparse import Sparse
from desktop.plan_files import SAMPLE

ROUTES = ("double-hets", "daughters-back", "from-visuals")


def too_large(*_: object, **__: object) -> None:
    raise OutOfRoom("said so")


def in_turn(plan: Plan) -> Plan:
    """Daughters that are laid with before their mothers: the engine that follows nurseries one by one."""
    route = next(one for one in plan.routes if one.id == "daughters-back")
    first, then = route.pairings
    mixed = msgspec.structs.replace(then, females=(*then.females, "dams"))
    changed = msgspec.structs.replace(
        route, id="in-turn", pairings=(first, mixed), scale=Scale(groups=("dams",), counts=(1, 2))
    )
    short = msgspec.structs.replace(plan.goal, seasons=5)
    return msgspec.structs.replace(plan, goal=short, routes=(*plan.routes, changed))


@pytest.mark.parametrize("kept", [MOST_KEPT, 150_000])
@pytest.mark.parametrize("name", [*ROUTES, "in-turn"])
def test_pieces_add_up(name: str, kept: int, monkeypatch: pytest.MonkeyPatch) -> None:
    plan = in_turn(load_plan(SAMPLE)) if name == "in-turn" else load_plan(SAMPLE)
    route = next(one for one in plan.routes if one.id == name)
    whole = evaluate_route(plan, route)
    assert whole.method == "exact"
    monkeypatch.setattr(evaluate, "check_at_once", too_large)
    monkeypatch.setattr(evaluate, "_chained", too_large)
    monkeypatch.setattr(plain, "MOST_KEPT", kept)
    parts = evaluate_route(plan, route)
    assert parts.method == "exact"
    for key in ("chance_by_season", "chance_by_eggs", "paid_by_season", "sales_by_season"):
        assert getattr(parts, key) == pytest.approx(getattr(whole, key), abs=1e-9)
    assert (parts.young, parts.surplus, parts.peak_animals) == pytest.approx(
        (whole.young, whole.surplus, whole.peak_animals), abs=1e-9
    )
    for ours, other in zip(parts.to_goal_by_season, whole.to_goal_by_season, strict=True):
        assert (ours and (ours.count, ours.season, ours.eggs)) == (other and (other.count, other.season, other.eggs))
    assert parts.chance_by_money.money == pytest.approx(whole.chance_by_money.money)
    assert parts.chance_by_money.chance == pytest.approx(whole.chance_by_money.chance, abs=1e-9)
    assert np.array_equal(parts.budget_curve.count, whole.budget_curve.count)


def test_where_the_first_piece_has_no_room_for_what_is_expected_another_tells(monkeypatch: pytest.MonkeyPatch) -> None:
    plan = load_plan(SAMPLE)
    route = next(one for one in plan.routes if one.id == "double-hets")
    whole, tried = evaluate_route(plan, route), Mock(wraps=in_pieces.expected)
    tried.side_effect = [OutOfRoom("said so"), *[DEFAULT] * 99]
    monkeypatch.setattr(evaluate, "check_at_once", too_large)
    monkeypatch.setattr(in_pieces, "expected", tried)
    parts = evaluate_route(plan, route)
    assert tried.call_count > 1
    assert parts.chance_by_eggs == pytest.approx(whole.chance_by_eggs, abs=1e-9)
    assert parts.paid_by_season == pytest.approx(whole.paid_by_season, abs=1e-9)


def test_many_small_pieces_are_given_up_before_they_take_minutes(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is left is judged by what was done so far, calls and numbers."""
    monkeypatch.setattr(evaluate, "check_at_once", too_large)
    monkeypatch.setattr(evaluate, "_chained", too_large)
    plan = load_plan(SAMPLE)
    route = next(one for one in plan.routes if one.id == "daughters-back")
    took = Mock(wraps=in_pieces.unmet)
    monkeypatch.setattr(in_pieces, "unmet", took)
    assert evaluate_route(plan, route).method == "exact"
    whole = took.call_count
    took.reset_mock()
    monkeypatch.setattr(limits, "_AT_EACH", 1_000_000_000)
    assert evaluate_route(plan, route).method == "simulated"
    assert took.call_count < whole / 2


def test_room_tells_calls_from_numbers() -> None:
    few, many = Room(), Room()
    few.take(1000)
    for _ in range(1000):
        many.take(1)
    assert few.used == many.used
    assert many.effort > 100 * few.effort


def test_room_ends() -> None:
    room = Room(10, 5)
    room.take(10)
    room.keep(5)
    with pytest.raises(OutOfRoom):
        room.take(1)
    with pytest.raises(OutOfReach):
        room.keep(1)
    Room().take(10**12)


def test_a_step_begins_with_all_its_room() -> None:
    room = Room(10)
    room.take(10)
    room.rest()
    room.take(10)
    assert room.used == 20
    with pytest.raises(OutOfRoom):
        room.take(1)


def test_chances_by_egg_are_kept_small_and_come_back_as_they_were() -> None:
    chances = np.zeros((3, 2000))
    chances[1, 700:710], chances[2, 705] = 0.01, 0.5
    kept = Sparse(chances)
    assert np.array_equal(kept.whole(), chances)
    assert kept.size < 20
