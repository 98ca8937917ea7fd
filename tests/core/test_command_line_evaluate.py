"""`python -m core evaluate FILE`, as run from a shell."""

from __future__ import annotations

import copy
import json
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

import core.__main__
import core.routes.evaluate
from core.genetics.compile import Genetics
from core.plan.model import Plan, Route
from core.progress import Long
from core.routes.evaluate import evaluate_steps

ROOT = Path(__file__).parents[2]
KEYS = {
    "id",
    "chance_by_season",
    "chance_by_eggs",
    "chance_by_money",
    "paid_by_season",
    "up_front",
    "sales_by_season",
    "young",
    "surplus",
    "peak_animals",
    "peak_young",
    "per_egg",
    "inbreeding",
    "method",
    "budget_curve",
    "to_goal",
    "as_drawn",
    "to_goal_by_season",
    "chance_at_budget",
}
PLAYED_KEYS = {"runs", "seed", "chance_by_season_se"}
TO_GOAL_KEYS = {"count", "money", "season", "eggs", "chance"}

Json = dict[str, Any]


def sketch() -> Json:
    """A route answered exactly, one with grandchildren, which is played, and the finished animal bought."""
    het = {"amel": "a/+"}
    founders = [
        {"id": "sire", "sex": "male", "count": 1, "carries": het, "origin": "buy", "price": 100},
        {"id": "dam", "sex": "female", "count": 1, "carries": het, "origin": "buy", "price": 100},
    ]
    first = {"id": "first", "males": ["sire"], "females": ["dam"]}
    held = [
        {"id": name, "sex": "female", "count": 1, "origin": "hold", "from": [source], "pick": [{}]}
        for name, source in (("daughter", "first"), ("granddaughter", "second"))
    ]
    later = [
        {"id": "second", "males": ["sire"], "females": ["daughter"]},
        {"id": "third", "males": ["sire"], "females": ["granddaughter"]},
    ]
    return {
        "format": "pairwright-plan",
        "version": 1,
        "title": "A sketch",
        "currency": "USD",
        "genes": [{"id": "amel", "name": "Amelanistic", "alleles": ["a"], "forms": {"a/a": "amelanistic"}}],
        "species": {
            "name": "Some snake",
            "sex_system": "ZW",
            "clutch": {"fixed": 2},
            "matures": {"male": 1, "female": 1},
        },
        "goal": {
            "want": [{"forms": {"amel": "amelanistic"}}],
            "chance": 0.8,
            "seasons": 3,
            "budget": 300,
            "outright_price": 900,
        },
        "simulation": {"runs": 500, "seed": 7},
        "routes": [
            {"id": "hets", "name": "Two hets", "groups": founders, "pairings": [first]},
            {
                "id": "grandchildren",
                "name": "Two generations",
                "groups": [*founders, *held],
                "pairings": [first, *later],
            },
            {"id": "outright", "name": "Buy it", "buy_outright": 1},
        ],
    }


def run(plan: Json, folder: Path) -> subprocess.CompletedProcess[str]:
    file = folder / "some.plan.json"
    file.write_text(json.dumps(plan), "utf-8")
    command = [sys.executable, "-m", "core", "evaluate", str(file)]
    return subprocess.run(command, cwd=ROOT, capture_output=True, text=True, timeout=60, check=False)


@pytest.fixture(scope="module")
def printed(tmp_path_factory: pytest.TempPathFactory) -> Json:
    done = run(sketch(), tmp_path_factory.mktemp("plans"))
    assert (done.returncode, done.stderr) == (0, "")
    return json.loads(done.stdout)  # type: ignore[no-any-return]


def test_every_key_of_the_page_is_there(printed: Json) -> None:
    assert set(printed) == {"routes", "cheapest"}
    assert [route["id"] for route in printed["routes"]] == ["hets", "grandchildren", "outright"]
    assert [route["method"] for route in printed["routes"]] == ["exact", "simulated", "exact"]
    for route in printed["routes"]:
        assert set(route) == KEYS | (PLAYED_KEYS if route["method"] == "simulated" else set())


def test_the_shape_of_every_value(printed: Json) -> None:
    for route in printed["routes"]:
        for key in ("chance_by_season", "paid_by_season", "sales_by_season", "to_goal_by_season"):
            assert len(route[key]) == 3
        assert set(route["chance_by_money"]) == {"money", "chance"}
        assert set(route["budget_curve"]) == {"money", "chance", "count"}
        for curve in (route["chance_by_money"], route["budget_curve"]):
            assert len({len(column) for column in curve.values()}) == 1
        ways = [route["to_goal"], route["as_drawn"], *route["to_goal_by_season"]]
        assert all(way is None or set(way) == TO_GOAL_KEYS for way in ways)
        assert 0 <= route["chance_at_budget"] <= 1
    assert set(printed["routes"][0]["per_egg"]) == set(printed["routes"][0]["inbreeding"]) == {"first"}
    assert len(printed["routes"][1]["chance_by_season_se"]) == 3
    assert (printed["routes"][1]["runs"], printed["routes"][1]["seed"]) == (500, 7)


def test_the_cheapest_is_named(printed: Json) -> None:
    money = {route["id"]: route["to_goal"]["money"] for route in printed["routes"] if route["to_goal"]}
    assert printed["cheapest"] == min(money, key=lambda name: money[name])
    assert money["outright"] == 900


def test_the_same_plan_prints_the_same(printed: Json, tmp_path: Path) -> None:
    assert json.loads(run(sketch(), tmp_path).stdout) == printed


def test_a_faulty_plan_prints_no_answers(tmp_path: Path) -> None:
    plan = copy.deepcopy(sketch())
    plan["routes"][0]["groups"][0]["price"] = -1
    done = run(plan, tmp_path)
    assert (done.returncode, done.stdout) == (2, "")
    assert "routes[0].groups[0].price" in done.stderr


def test_a_plan_without_routes(tmp_path: Path) -> None:
    plan = sketch()
    del plan["routes"]
    assert json.loads(run(plan, tmp_path).stdout) == {"routes": [], "cheapest": None}


def test_a_route_that_takes_long_says_so_on_the_way(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capfdbinary: pytest.CaptureFixture[bytes]
) -> None:
    def steps(plan: Plan, route: Route, genetics: Genetics) -> Iterator[float]:
        if route.id == "hets":
            yield from (0.0, Long(0.1), Long(0.2))
        return (yield from evaluate_steps(plan, route, genetics))

    monkeypatch.setattr(core.routes.evaluate, "evaluate_steps", steps)
    file = tmp_path / "some.plan.json"
    plan = sketch()
    plan["routes"][0]["name"] = "Two \x1b[31mhets"
    file.write_text(json.dumps(plan), "utf-8")
    assert core.__main__.main(["evaluate", str(file)]) == 0
    told = capfdbinary.readouterr()
    assert told.err.decode().splitlines() == ['"Two \\u001b[31mhets": the exact answer may take a few minutes.']
    assert [route["id"] for route in json.loads(told.out)["routes"]] == ["hets", "grandchildren", "outright"]
