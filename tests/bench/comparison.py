"""Times one comparison of eight exact routes, every reported key included: `python -m tests.bench.comparison`.

In one process, and as the window does it, with its helper in another. The kernel beside them is a fixed piece of numpy
work, run in turn with them, so that the ratios of the medians hold when the machine's speed drifts.
"""

from __future__ import annotations

import gc
import json
import time
from collections.abc import Callable, Generator, Sequence
from statistics import median

import msgspec
import numpy as np

from core.genetics.compile import Genetics, compile_genetics
from core.plan.model import Plan, Route
from core.progress import finished
from core.routes.assemble import compare
from core.routes.evaluate import evaluate_route, evaluate_steps
from core.routes.result import RouteResult
from desktop.beside.helper import Helper, Job
from desktop.beside.sharing import shared_steps
from desktop.evaluation import Engine, RouteAnswer, nothing_first
from tests.bench.plans import eight_routes

_TURNS = 25
_PATIENCE_S = 60.0


class Forgetful:
    """An engine that keeps nothing but a plan's genetics, compiled once for all its routes."""

    def __init__(self) -> None:
        self._known: tuple[Plan, Genetics] | None = None

    def __call__(self) -> Engine:
        """The engine."""
        return self._steps

    def _steps(self, plan: Plan, route: Route) -> Generator[float, None, RouteResult]:
        if self._known is None or self._known[0] is not plan:
            self._known = plan, compile_genetics(plan.genes, plan.linkage, plan.species)
        return (yield from evaluate_steps(plan, route, self._known[1]))


def main() -> None:
    """Print the medians and their ratios."""
    routes = eight_routes()
    assert all(evaluate_route(plan, route).method == "exact" for plan, route in routes)
    helper = Helper(Forgetful())
    helper.start()
    helper.news(_PATIENCE_S)
    works: dict[str, Callable[[], None]] = {
        "kernel": kernel,
        "comparison": lambda: _compare(routes),
        "with_helper": lambda: _compare_with(helper, routes),
    }
    works["with_helper"]()
    taken: dict[str, list[float]] = {name: [] for name in works}
    # As the program does: what the start has loaded stays, and garbage is looked for between two answers.
    gc.freeze()
    gc.disable()
    for _ in range(_TURNS):
        gc.collect(0)
        for name, work in works.items():
            taken[name].append(_timed(work))
    helper.stop()
    told = {f"{name}_ms": round(1000 * median(times), 2) for name, times in taken.items()}
    alone = median(taken["kernel"])
    ratios = {f"{name}_ratio": round(median(taken[name]) / alone, 2) for name in ("comparison", "with_helper")}
    print(json.dumps(told | ratios))


def _compare(routes: Sequence[Job]) -> None:
    """In one process."""
    steps = Forgetful()()
    compare([finished(steps(plan, route)) for plan, route in routes])


def _compare_with(helper: Helper, routes: Sequence[Job]) -> None:
    """As a window does it."""
    # Plans that the helper has not seen before: it is told them, and compiles their genetics.
    plans = {id(plan): msgspec.structs.replace(plan) for plan, _ in routes}
    jobs = [(plans[id(plan)], route) for plan, route in routes]
    steps = shared_steps(jobs, Forgetful()(), helper, lambda _job: False, nothing_first)
    answers = {step.id: step.drawn for step in steps if isinstance(step, RouteAnswer)}
    compare([answers[route.id] for _, route in routes])


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
