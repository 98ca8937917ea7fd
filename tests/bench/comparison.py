"""Times one comparison of eight exact routes, every reported key included: `python -m tests.bench.comparison`.

The kernel beside it is a fixed piece of numpy work, run in turn with it, so that the ratio of the medians holds when
the machine's speed drifts.
"""

from __future__ import annotations

import gc
import json
import time
from collections.abc import Callable
from statistics import median

import numpy as np

from core.genetics.compile import compile_genetics
from core.plan.model import Plan, Route
from core.routes.assemble import compare
from core.routes.evaluate import evaluate_route
from tests.bench.plans import eight_routes

_TURNS = 25


def main() -> None:
    """Print the medians and their ratio."""
    routes = eight_routes()
    assert all(evaluate_route(plan, route).method == "exact" for plan, route in routes)
    alone, comparison = [], []
    # As the program does: what the start has loaded stays, and garbage is looked for between two answers.
    gc.freeze()
    gc.disable()
    for _ in range(_TURNS):
        gc.collect(0)
        alone.append(_timed(kernel))
        comparison.append(_timed(lambda: _compare(routes)))
    told = {
        "comparison_ms": round(1000 * median(comparison), 2),
        "kernel_ms": round(1000 * median(alone), 2),
        "ratio": round(median(comparison) / median(alone), 2),
        "least_ms": round(1000 * min(comparison), 2),
    }
    print(json.dumps(told))


def _compare(routes: list[tuple[Plan, Route]]) -> None:
    """As a window does it: a plan's genetics are compiled once for all its routes."""
    compiled = {}
    results = []
    for plan, route in routes:
        if id(plan) not in compiled:
            compiled[id(plan)] = compile_genetics(plan.genes, plan.linkage, plan.species)
        results.append(evaluate_route(plan, route, compiled[id(plan)]))
    compare(results)


def kernel() -> None:
    """Ten transforms of 7 x 4,096 complex numbers and a hundred products of them, with numpy's own buffer."""
    before = np.setbufsize(8192)
    numbers = np.ones((7, 4096), dtype=complex)
    for _ in range(10):
        numbers = np.fft.ifft(np.fft.fft(numbers, axis=1), axis=1)
        for _ in range(10):
            numbers = numbers * numbers
    np.setbufsize(before)


def _timed(work: Callable[[], None]) -> float:
    begun = time.perf_counter()
    work()
    return time.perf_counter() - begun


if __name__ == "__main__":
    main()
