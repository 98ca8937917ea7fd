"""An answer in pieces is the answer at once; what is too large for either is played, and says so in time."""

from __future__ import annotations

import numpy as np
import pytest

from core.plan.read import load_plan
from core.routes import evaluate
from core.routes.evaluate import evaluate_route
from core.routes.exact.limits import OutOfReach, OutOfRoom, Room
from desktop.plan_files import SAMPLE

ROUTES = ("double-hets", "daughters-back", "from-visuals")


@pytest.mark.parametrize("name", ROUTES)
def test_pieces_add_up(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    plan = load_plan(SAMPLE)
    route = next(one for one in plan.routes if one.id == name)
    whole = evaluate_route(plan, route)
    assert whole.method == "exact"

    def too_large(*_: object) -> None:
        raise OutOfRoom("said so")

    monkeypatch.setattr(evaluate, "check_at_once", too_large)
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


def test_room_ends() -> None:
    room = Room(10, 5)
    room.take(10)
    room.keep(5)
    with pytest.raises(OutOfRoom):
        room.take(1)
    with pytest.raises(OutOfReach):
        room.keep(1)
    Room().take(10**12)
