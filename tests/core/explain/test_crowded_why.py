"""A route with many named animals is explained, though what they carry together cannot be listed."""

from __future__ import annotations

import json
from typing import Any

import pytest

from core.explain.money import spending_steps
from core.explain.why import why_steps
from core.plan.read import read_plan
from core.progress import finished
from core.routes.evaluate import evaluate_route

MANY = 16


def plan() -> Any:
    maybe = {gene: {f"{gene}/+": 0.5, "+/+": 0.5} for gene in "ab"}
    sexes = ["male"] * (MANY // 2) + ["female"] * (MANY // 2)
    names = [f"{sex[0]}{place}" for place, sex in enumerate(sexes)]
    group = {"origin": "own", "kept_anyway": True}
    return {
        "format": "pairwright-plan", "version": 1, "title": "Invented", "currency": "USD",
        "genes": [{"id": g, "name": g, "alleles": [g], "forms": {f"{g}/{g}": f"v{g}"}} for g in "ab"],
        "species": {"name": "Any", "sex_system": "ZW", "clutch": {"fixed": 6}, "matures": {"male": 1, "female": 1},
                    "lays": 0.8},
        "goal": {"want": [{"forms": {"a": "va", "b": "vb"}}], "chance": 0.8, "seasons": 3},
        "my_animals": [{"id": n, "sex": s, "carries": maybe} for n, s in zip(names, sexes, strict=True)],
        "routes": [{"id": "r", "name": "R", "groups": [
            {"id": "males", "sex": "male", "animals": names[: MANY // 2], **group},
            {"id": "females", "sex": "female", "animals": names[MANY // 2 :], **group}],
            "pairings": [{"id": "p", "males": ["males"], "females": ["females"]}]}],
        "simulation": {"runs": 200, "seed": 1},
    }  # fmt: skip


def test_many_named_animals() -> None:
    told = read_plan(json.dumps(plan()).encode())
    route = told.routes[0]
    result = evaluate_route(told, route)
    assert result.method == "simulated"
    why = finished(why_steps(told, route, result, 3))
    assert why.traps == ()
    # An egg of two animals that may each be het for two genes, averaged: (1/2 x 1/2 x 1/4) squared.
    miss = (1 - (1 / 16) ** 2) ** (6 * MANY // 2 * 3)
    assert why.ladder.textbook[-1] == pytest.approx(1 - miss)
    assert finished(spending_steps(told, route, result)).total == pytest.approx(result.paid_by_season, abs=1e-6)
