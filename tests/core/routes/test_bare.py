"""Chances and money alone are those of the whole answer, whichever way they are worked out."""

from __future__ import annotations

from pathlib import Path
from unittest.mock import Mock

import msgspec
import numpy as np
import pytest

from core.plan.model import Held, Plan, Route
from core.plan.read import load_plan
from core.progress import finished
from core.routes import evaluate
from core.routes.evaluate import Engined, engine_steps
from core.routes.exact.limits import OutOfReach, OutOfRoom, Room
from core.routes.exact.plain import Workshop


def short(plan: Plan) -> Plan:
    """No more seasons than it takes."""
    return msgspec.structs.replace(plan, goal=msgspec.structs.replace(plan.goal, seasons=4))


SAMPLES = sorted((Path(__file__).parents[3] / "assets" / "samples").glob("*.plan.json"))
HELD = [
    pytest.param(plan, route, id=f"{path.name.split('.')[0]}-{route.id}")
    for path in SAMPLES
    for plan in [short(load_plan(path))]
    for route in plan.routes
    if any(isinstance(group, Held) for group in route.groups)
]


# What is said of other ways to answer, so that one alone is left.
WAYS: dict[str, dict[str, type[OutOfReach]]] = {
    "as usual": {},
    "chains": {"exact_counts": OutOfReach},
    "pieces": {"exact_counts": OutOfRoom, "_chained": OutOfReach},
}


@pytest.mark.parametrize("left_out", WAYS.values(), ids=WAYS)
@pytest.mark.parametrize(("plan", "route"), HELD)
def test_chances_and_money_alone_are_those_of_the_whole_answer(
    plan: Plan, route: Route, left_out: dict[str, type[OutOfReach]], monkeypatch: pytest.MonkeyPatch
) -> None:
    for name, said in left_out.items():
        monkeypatch.setattr(evaluate, name, Mock(side_effect=said("said so")))
    whole, bare = (worked(plan, route, bare=bare) for bare in (False, True))
    assert bare.counts == whole.counts
    if whole.played is not None or bare.played is not None:
        return
    for ours, other in zip(bare.answers, whole.answers, strict=True):
        assert ours.grid == other.grid
        np.testing.assert_allclose(ours.chance, other.chance, atol=1e-12)
        np.testing.assert_allclose(ours.by_money, other.by_money, atol=1e-12)
        with pytest.raises(LookupError):
            ours.eggs()
    with pytest.raises(LookupError):
        bare.expectations(0)


@pytest.mark.parametrize(("plan", "route"), HELD)
def test_what_counts_share_gives_way_where_there_is_little_room(
    plan: Plan, route: Route, monkeypatch: pytest.MonkeyPatch
) -> None:
    usual = worked(plan, route, bare=True)
    monkeypatch.setattr(Room, "fills", True)
    forgotten = Mock(wraps=Workshop.forget)
    monkeypatch.setattr(Workshop, "forget", lambda shop: forgotten(shop))
    tight = worked(plan, route, bare=True)
    assert tight.played or forgotten.call_count > len(tight.problems)
    for ours, other in zip(tight.answers, usual.answers, strict=True):
        np.testing.assert_allclose(ours.by_money, other.by_money, atol=1e-12)


def worked(plan: Plan, route: Route, *, bare: bool) -> Engined:
    return finished(engine_steps(plan, route, bare=bare))
