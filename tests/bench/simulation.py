"""How long a simulation takes, against drawing one number for each egg laid in it.

Run as `python -m tests.bench.simulation`; prints one line a route, measured in turns, medians of several. A run of a
plan is several plays (`PLAYS_A_RUN`); all their eggs are counted.
"""

from __future__ import annotations

import json
import statistics
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np

from core.plan.read import read_plan
from core.progress import finished
from core.routes.prepare import prepare
from core.routes.problem import Problem
from core.routes.result import PLAYS_A_RUN
from core.routes.simulation import Played, play_route, stream

RUNS = 20_000
TURNS = 9
SAMPLE = Path(__file__).parents[1] / "data" / "amel-lavender.plan.json"


def held(name: str, sex: str, count: int, source: str, *pick: dict[str, str]) -> dict[str, Any]:
    return {"id": name, "sex": sex, "count": count, "origin": "hold", "from": [source], "pick": list(pick)}


def three_generations() -> dict[str, Any]:
    """Two visual lines crossed, their young bred together, and the best of those bred together again."""
    plan: dict[str, Any] = json.loads(SAMPLE.read_text("utf-8"))
    amel, lavender = {"amel": "amelanistic"}, {"lav": "lavender"}
    plan["genes"].append({"id": "dil", "name": "Dilute", "alleles": ["d"], "forms": {"d/d": "dilute"}})
    plan["goal"] |= {"want": [{"forms": amel | lavender | {"dil": "dilute"}, "sex": "female"}], "seasons": 11}
    sire = {"id": "sire", "sex": "male", "count": 1, "carries": {"lav": "l/l", "dil": "d/+"}, "price": 240}
    dams = {"id": "dams", "sex": "female", "count": 2, "carries": {"amel": "a/a", "dil": "d/+"}, "price": 120}
    plan["routes"] = [
        {
            "id": "three-generations",
            "name": "Three generations",
            "groups": [
                sire | {"origin": "buy", "until": 3},
                dams | {"origin": "buy", "until": 3},
                held("sons", "male", 1, "first", {}),
                held("daughters", "female", 4, "first", {}),
                held("grandsons", "male", 1, "second", amel | lavender, amel, lavender),
                held("granddaughters", "female", 4, "second", amel | lavender, amel, lavender),
            ],
            "pairings": [
                {"id": "first", "males": ["sire"], "females": ["dams"]},
                {"id": "second", "males": ["sons"], "females": ["daughters"]},
                {"id": "third", "males": ["grandsons"], "females": ["granddaughters"]},
            ],
        }
    ]
    return plan


def problems() -> list[Problem]:
    """The three-generation route and the routes of the sample plan that hold young back."""
    found = []
    for raw in (three_generations(), json.loads(SAMPLE.read_text("utf-8"))):
        plan = read_plan(json.dumps(raw).encode())
        found += [p for p in (prepare(plan, route) for route in plan.routes) if p.holds]
    return found


def play(problem: Problem) -> Played:
    """Play to the end."""
    steps = play_route(problem, RUNS * PLAYS_A_RUN, stream(1))
    return finished(steps)


def seconds(work: Callable[[], object]) -> float:
    # Nothing here waits or runs beside itself, so time of the processor tells the same and others disturb it less.
    begin = time.process_time()
    work()
    return time.process_time() - begin


def measure(problem: Problem) -> None:
    eggs = int(play(problem).laid.sum())
    rng = np.random.default_rng(1)
    # Memory that has been written to before: the system's handing it out is no drawing.
    numbers = np.zeros(eggs, dtype=np.float32)
    ratios, plays = [], []
    for _ in range(TURNS):
        drawing = seconds(lambda: rng.random(dtype=np.float32, out=numbers))
        plays.append(seconds(lambda: play(problem)))
        ratios.append(plays[-1] / drawing)
    own = statistics.median(plays)
    print(
        f"{problem.route.id}: {RUNS:,} runs in {own * 1e3:.0f} ms, {own / eggs * 1e9:.1f} ns an egg, "
        f"{statistics.median(ratios):.2f} times one draw an egg ({min(ratios):.2f} to {max(ratios):.2f})"
    )


if __name__ == "__main__":
    for each in problems():
        measure(each)
