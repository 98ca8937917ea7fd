"""The worker: the newest question is answered, older answers are dropped, nothing outlives the window."""

from __future__ import annotations

import gc
import time
from collections.abc import Generator
from threading import Event

import msgspec
import pytest
import window_double as double
from pytestqt.qtbot import QtBot

from core.plan.model import Plan, Route
from core.routes.result import RouteResult
from desktop.evaluation import Finished, RouteAnswer, Step, Underway
from desktop.evaluator import Evaluator
from desktop.plan_files import SAMPLE, open_plan


def sample() -> Plan:
    opened = open_plan(SAMPLE)
    assert isinstance(opened, Plan)
    return opened


def test_the_older_answer_is_dropped(qtbot: QtBot) -> None:
    gate = Event()

    def evaluate(plan: Plan, route: Route) -> Generator[float, None, RouteResult]:
        if plan.title == "old":
            gate.wait(5)
        return (yield from double.route_steps(plan, route))

    evaluator = Evaluator(lambda: evaluate)
    arrived: list[Step] = []
    evaluator.arrived.connect(arrived.extend)
    plan = sample()
    evaluator.start(msgspec.structs.replace(plan, title="old"))
    evaluator.start(msgspec.structs.replace(plan, routes=plan.routes[:1]))
    gate.set()
    qtbot.waitUntil(lambda: bool(arrived) and isinstance(arrived[-1], Finished))
    assert [type(step) for step in arrived] == [Underway, RouteAnswer, Finished]
    evaluator.stop()


def test_progress_is_told_at_most_thirty_times_a_second(qtbot: QtBot) -> None:
    def chatty(plan: Plan, route: Route) -> Generator[float, None, RouteResult]:
        for done in range(1, 2000):
            yield done / 2000
        return double.evaluate_route(plan, route)

    evaluator = Evaluator(lambda: chatty)
    signals: list[list[Step]] = []
    evaluator.arrived.connect(signals.append)
    begun = time.monotonic()
    evaluator.start(sample())
    qtbot.waitUntil(lambda: bool(signals) and isinstance(signals[-1][-1], Finished))
    assert len(signals) <= 7 + 7 + 30 * (1 + time.monotonic() - begun)
    evaluator.stop()


def test_every_route_is_answered(qtbot: QtBot) -> None:
    evaluator = Evaluator(double.engine)
    batches: list[list[Step]] = []
    evaluator.arrived.connect(batches.append)
    evaluator.start(sample())
    qtbot.waitUntil(lambda: bool(batches) and isinstance(batches[-1][-1], Finished))
    assert sum(isinstance(step, RouteAnswer) for batch in batches for step in batch) == 7
    evaluator.stop()


def test_routes_in_sight_are_answered_first_also_when_others_come_into_sight(qtbot: QtBot) -> None:
    plan = sample()
    ids = [route.id for route in plan.routes]

    def evaluate(one: Plan, route: Route) -> Generator[float, None, RouteResult]:
        # As if the person scrolled while the first route is worked out.
        evaluator.look_at(frozenset(ids[-3:-1]))
        return (yield from double.route_steps(one, route))

    evaluator = Evaluator(lambda: evaluate)
    arrived: list[Step] = []
    evaluator.arrived.connect(arrived.extend)
    evaluator.look_at(frozenset(ids[-1:]))
    evaluator.start(plan)
    qtbot.waitUntil(lambda: bool(arrived) and isinstance(arrived[-1], Finished))
    answered = [step.id for step in arrived if isinstance(step, RouteAnswer)]
    assert answered[0] == ids[-1]
    assert set(answered[1:3]) == set(ids[-3:-1])
    assert sorted(answered) == sorted(ids)
    evaluator.stop()


@pytest.mark.usefixtures("qapp")
def test_stopping_waits_for_the_thread() -> None:
    evaluator = Evaluator(double.engine)
    evaluator.start(sample())
    evaluator.stop()
    assert evaluator.is_idle()


@pytest.mark.usefixtures("qapp")
def test_nothing_is_begun_once_it_was_stopped() -> None:
    # Whatever a timer of a window that has closed begins might be the last to hold the evaluator, and free it there.
    evaluator, ran = Evaluator(double.engine), Event()
    evaluator.stop()
    for quick in (False, True):
        evaluator.queue(ran.set, quick=quick)
    evaluator.stop()
    assert not ran.is_set()


def test_a_question_that_nobody_waits_for_any_more_does_no_harm(qtbot: QtBot) -> None:
    gate, evaluator = Event(), Evaluator(lambda: double.route_steps)
    arrived: list[Step] = []
    evaluator.arrived.connect(arrived.extend)
    evaluator.queue(lambda: bool(gate.wait(5)))
    # While other work holds the thread up, each question gives way to the next, and garbage is looked for.
    for _ in range(200):
        evaluator.start(sample())
    gc.collect()
    gate.set()
    qtbot.waitUntil(lambda: bool(arrived) and isinstance(arrived[-1], Finished))
    evaluator.stop()
