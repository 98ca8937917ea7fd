"""Chances worked out without any money are those of the whole answer."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from core.genetics.compile import compile_genetics
from core.plan.model import Held
from core.plan.read import load_plan
from core.routes.evaluate import evaluate_route
from core.routes.exact.reach import exact_route, workshop
from core.routes.exact.solve import chances
from core.routes.prepare import prepare

SAMPLES = sorted((Path(__file__).parents[3] / "assets" / "samples").glob("*.plan.json"))


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.name.split(".")[0])
def test_chances_alone_are_those_of_the_whole_answer(path: Path) -> None:
    plan = load_plan(path)
    genetics = compile_genetics(plan.genes, plan.linkage, plan.species)
    # The search asks for chances alone where young are held back.
    held = [one for one in plan.routes if any(isinstance(group, Held) for group in one.groups)]
    for route in held:
        whole = evaluate_route(plan, route)
        if whole.method == "exact" and not route.buy_outright:
            problem = prepare(plan, route, genetics, crowded=True)
            alone = chances(exact_route(problem, workshop(problem)))
            np.testing.assert_allclose(alone, whole.chance_by_season, atol=1e-9)
