"""Every sample plan tells a story: several named routes to an invented goal, some of which get there."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from core.plan.read import load_plan
from core.routes.assemble import settled
from core.routes.evaluate import evaluate

SAMPLES = sorted((Path(__file__).parents[3] / "assets" / "samples").glob("*.plan.json"))


def test_there_is_a_choice_of_samples_and_the_first_stays_first() -> None:
    assert len(SAMPLES) >= 7
    assert SAMPLES[0].name == "amel-lavender.plan.json"
    assert len({load_plan(path).title for path in SAMPLES}) == len(SAMPLES)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.name.split(".")[0])
def test_sample(path: Path) -> None:
    plan = load_plan(path)
    assert "invented" in plan.notes
    assert 3 <= len(plan.routes) <= 7
    assert all(0 < len(route.name) <= 28 for route in plan.routes)
    comparison = evaluate(plan)
    reached = [route.to_goal is not None for route in comparison.routes]
    assert any(reached)
    assert not all(reached)
    assert comparison.cheapest != "outright"


def test_what_cannot_be_is_told_as_nothing_and_what_must_be_as_certain() -> None:
    rounded = np.array([-2e-16, 2e-16, 1e-9, 0.5, 1 - 2e-16, 1 + 2e-16])
    assert settled(rounded).tolist() == [0.0, 0.0, 1e-9, 0.5, 1.0, 1.0]
