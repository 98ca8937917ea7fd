"""The helper, a second process: the same answers, every route once, and nothing lost where it fails or ends."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable, Generator, Iterator, Sequence
from contextlib import closing, contextmanager
from pathlib import Path

import helper_engines as engines
import msgspec
import pytest
import window_double as double
from pytestqt.qtbot import QtBot

from core.plan.model import Plan, Route
from core.routes.evaluate import evaluate_route
from core.routes.report import route_json
from core.routes.result import RouteResult
from desktop.beside.helper import GivenBack, Helper, Job, News
from desktop.beside.sharing import shared_steps
from desktop.evaluation import (
    Engine,
    Finished,
    RecentEngine,
    RouteAnswer,
    RouteFailure,
    Step,
    core_engine,
    nothing_first,
)
from desktop.evaluator import Evaluator
from desktop.plan_files import SAMPLE, open_plan

ROOT = Path(__file__).resolve().parents[2]
# Longer than a process takes to be there on the busiest machine.
PATIENCE_S = 60.0


@pytest.fixture
def hire() -> Iterator[Callable[[Callable[[], Engine]], Helper]]:
    """Starts helpers that are ready to be asked, and ends them."""
    hired: list[Helper] = []

    def ready(source: Callable[[], Engine]) -> Helper:
        helper = Helper(source)
        hired.append(helper)
        helper.start()
        helper.news(PATIENCE_S)
        assert helper.is_free
        return helper

    yield ready
    for helper in hired:
        helper.stop()


Hire = Callable[[Callable[[], Engine]], Helper]


@pytest.fixture(scope="module")
def jobs() -> list[Job]:
    plan = open_plan(SAMPLE)
    assert isinstance(plan, Plan)
    return [(plan, route) for route in plan.routes]


def told(helper: Helper) -> News:
    """What becomes of the question that was asked."""
    while True:
        news = helper.news(PATIENCE_S)
        assert news, "nothing came in time"
        if isinstance(news[-1], RouteAnswer | GivenBack):
            return news[-1]


def nobody_knows(_job: Job) -> bool:
    return False


def shared(jobs: Sequence[Job], engine: Engine, helper: Helper) -> list[Step]:
    return [step for step in shared_steps(jobs, engine, helper, nobody_knows, nothing_first) if step]


def answered(steps: Sequence[Step]) -> list[str]:
    return sorted(step.id for step in steps if isinstance(step, RouteAnswer))


def all_of(jobs: Sequence[Job]) -> list[str]:
    return sorted(route.id for _, route in jobs)


def test_its_answers_are_the_same(hire: Hire, jobs: list[Job]) -> None:
    helper = hire(engines.without_qt)
    for plan, route in jobs:
        helper.ask((plan, route))
        answer = told(helper)
        assert isinstance(answer, RouteAnswer)
        here = evaluate_route(plan, route)
        assert msgspec.json.encode(route_json(answer.drawn)) == msgspec.json.encode(route_json(here))
        best = here.at_cheapest or here
        assert msgspec.json.encode(route_json(answer.cheapest)) == msgspec.json.encode(route_json(best))


def test_every_route_is_answered_once_with_both_at_work(hire: Hire, jobs: list[Job]) -> None:
    helper = hire(engines.without_qt)
    here: list[str] = []
    steps: list[Step] = []

    def engine(plan: Plan, route: Route) -> Generator[float, None, RouteResult]:
        here.append(route.id)
        # Until the helper has its first answer, this one has none.
        while not answered(steps):
            yield 0.0
        return (yield from double.route_steps(plan, route))

    for step in shared_steps(jobs, engine, helper, nobody_knows, nothing_first):
        steps += [step] if step else []
    assert answered(steps) == all_of(jobs)
    assert sum(isinstance(step, Finished) for step in steps) == 1
    assert isinstance(steps[-1], Finished)
    assert 0 < len(here) < len(jobs)


def test_what_it_has_no_answer_to_is_worked_out_here(hire: Hire, jobs: list[Job]) -> None:
    steps = shared(jobs, double.route_steps, hire(engines.failing))
    assert answered(steps) == all_of(jobs)


def test_a_fault_is_told_as_it_is_found_here(hire: Hire, jobs: list[Job]) -> None:
    def fault(_plan: Plan, _route: Route) -> Generator[float, None, RouteResult]:
        yield 0.0
        raise ValueError("This route cannot be worked out.")

    steps = shared(jobs, fault, hire(engines.failing))
    failures = {step.id: step.reason for step in steps if isinstance(step, RouteFailure)}
    assert failures == dict.fromkeys(all_of(jobs), "This route cannot be worked out.")


def test_a_helper_that_ends_is_done_without(hire: Hire, jobs: list[Job]) -> None:
    helper = hire(engines.ending)
    helper.ask(jobs[0])
    assert told(helper) == GivenBack(jobs[0])
    assert helper.is_gone
    assert answered(shared(jobs, double.route_steps, helper)) == all_of(jobs)


def test_where_no_process_can_be_had_none_is_needed(monkeypatch: pytest.MonkeyPatch, jobs: list[Job]) -> None:
    def refused(_process: object) -> None:
        raise OSError("no more processes")

    monkeypatch.setattr("multiprocessing.context.SpawnProcess.start", refused)
    helper = Helper(core_engine)
    helper.start()
    assert helper.is_gone
    assert answered(shared(jobs, double.route_steps, helper)) == all_of(jobs)
    helper.stop()


def test_what_nobody_waits_for_any_more_is_given_up(hire: Hire, jobs: list[Job]) -> None:
    helper = hire(engines.endless)
    plan = msgspec.structs.replace(jobs[0][0], title="endless")
    with closing(shared_steps([(plan, plan.routes[0])], stuck, helper, nobody_knows, nothing_first)) as steps:
        next(steps)
        assert helper.is_busy
    assert not helper.is_busy
    helper.news(PATIENCE_S)
    assert helper.is_free
    helper.ask(jobs[0])
    assert isinstance(told(helper), RouteAnswer)


def stuck(_plan: Plan, _route: Route) -> Generator[float, None, RouteResult]:
    raise AssertionError("the helper has it")
    yield 0.0


def test_a_route_at_another_price_goes_to_who_knows_it(hire: Hire, jobs: list[Job]) -> None:
    helper = hire(RecentEngine())
    plan, route = jobs[0]
    helper.ask((plan, route))
    told(helper)
    assert helper.knows((plan, route))
    dearer = msgspec.structs.replace(plan, costs=msgspec.structs.replace(plan.costs, setup=77))
    assert helper.knows((dearer, route))
    steps = shared([(dearer, route)], stuck, helper)
    assert answered(steps) == [route.id]
    other = msgspec.structs.replace(plan, species=msgspec.structs.replace(plan.species, lays=0.31))
    assert not helper.knows((other, route))


def test_it_is_not_asked_for_what_is_known_here(hire: Hire, jobs: list[Job]) -> None:
    helper = hire(engines.ending)
    steps = shared_steps(jobs, double.route_steps, helper, lambda _job: True, nothing_first)
    assert answered([step for step in steps if step]) == all_of(jobs)
    assert not helper.is_gone


def test_what_is_waited_for_most_is_worked_out_first(hire: Hire, jobs: list[Job]) -> None:
    helper = hire(engines.without_qt)
    seen = {jobs[2][1].id, jobs[3][1].id}
    begun: list[str] = []

    def engine(plan: Plan, route: Route) -> Generator[float, None, RouteResult]:
        begun.append(route.id)
        return (yield from double.route_steps(plan, route))

    with closing(shared_steps(jobs, engine, helper, nobody_knows, lambda: seen)) as steps:
        next(steps)
        assert helper.is_busy
        assert len(begun) == 1
        assert set(begun) < seen


def test_it_ends_with_the_process_that_started_it() -> None:
    # The helper has its output from there: it is read to its end only once both are gone.
    code = """
import os
from desktop.beside.helper import Helper
from desktop.evaluation import core_engine
if __name__ == "__main__":
    helper = Helper(core_engine)
    helper.start()
    helper.news(60)
    assert helper.is_free
    print("started", flush=True)
    os._exit(0)
"""
    done = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, timeout=PATIENCE_S, check=True
    )
    assert done.stdout == "started\n"
    assert done.stderr == ""


@contextmanager
def evaluated(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, jobs: list[Job]) -> Iterator[Helper]:
    """The helper of a window on a machine with two cores, once every route is answered."""
    monkeypatch.setattr("desktop.evaluator.QThread.idealThreadCount", lambda: 2)
    evaluator = Evaluator()
    arrived: list[Step] = []
    evaluator.arrived.connect(arrived.extend)
    evaluator.start(jobs[0][0])
    qtbot.waitUntil(lambda: bool(arrived) and isinstance(arrived[-1], Finished))
    assert answered(arrived) == all_of(jobs)
    assert evaluator.helper is not None
    yield evaluator.helper
    evaluator.stop()


def test_the_window_has_one_once_it_comes_to_rest(
    qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, jobs: list[Job]
) -> None:
    monkeypatch.setattr("desktop.evaluator._AT_REST_MS", 1)
    with evaluated(qtbot, monkeypatch, jobs) as helper:
        qtbot.waitUntil(lambda: helper.is_started)
    assert helper.is_gone


def test_what_takes_long_gets_one_on_the_way(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, jobs: list[Job]) -> None:
    monkeypatch.setattr("desktop.beside.sharing._LONG_S", 0.0)
    with evaluated(qtbot, monkeypatch, jobs) as helper:
        assert helper.is_started


@pytest.mark.usefixtures("qapp")
def test_a_machine_with_one_core_has_none(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("desktop.evaluator.QThread.idealThreadCount", lambda: 1)
    evaluator = Evaluator()
    assert evaluator.helper is None
    evaluator.stop()
