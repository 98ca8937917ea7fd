"""Long work for one part of the window: the newest is told, older ones are dropped, nothing outlives the window."""

from __future__ import annotations

import time
from collections.abc import Generator
from threading import Event

import pytest
import window_double as double
from pytestqt.qtbot import QtBot

from desktop import evaluator as evaluator_module
from desktop.errand import Errand
from desktop.evaluator import Evaluator


def told(errand: Errand) -> list[object]:
    heard: list[object] = []
    errand.finished.connect(heard.append)
    errand.failed.connect(heard.append)
    return heard


def test_the_newest_is_told(qtbot: QtBot) -> None:
    gate, evaluator = Event(), Evaluator(double.engine)
    errand = Errand(evaluator)
    heard = told(errand)

    def slow() -> Generator[float, None, str]:
        yield 0.0
        gate.wait(5)
        yield 0.5
        return "old"

    def quick() -> Generator[float, None, str]:
        yield 0.0
        return "new"

    errand.start(slow)
    errand.start(quick)
    gate.set()
    qtbot.waitUntil(lambda: bool(heard))
    assert heard == ["new"]
    evaluator.stop()


def test_a_failure_becomes_a_sentence(qtbot: QtBot) -> None:
    evaluator = Evaluator(double.engine)
    errand = Errand(evaluator)
    heard = told(errand)

    def broken() -> Generator[float, None, None]:
        yield 0.0
        raise RuntimeError("nothing a person should read")

    def refused() -> Generator[float, None, None]:
        yield 0.0
        raise ValueError("the dams may be too much")

    errand.start(broken)
    qtbot.waitUntil(lambda: len(heard) == 1)
    errand.start(refused)
    qtbot.waitUntil(lambda: len(heard) == 2)
    assert "nothing a person" not in str(heard[0])
    assert heard[1] == "the dams may be too much"
    evaluator.stop()


@pytest.mark.usefixtures("qapp")
def test_stopping_ends_it_between_two_steps() -> None:
    evaluator = Evaluator(double.engine)
    errand = Errand(evaluator)
    begun = Event()

    def endless() -> Generator[float, None, None]:
        while True:
            begun.set()
            yield 0.0

    errand.start(endless)
    assert begun.wait(5)
    evaluator.stop()
    assert evaluator.is_idle()


def test_long_work_keeps_still_while_the_window_has_much_to_build(qtbot: QtBot) -> None:
    evaluator = Evaluator(double.engine)
    errand = Errand(evaluator)
    heard = told(errand)
    asked, taken = [0.0], [0.0]

    def work() -> Generator[float, None, str]:
        evaluator.give_way()
        asked[0] = time.monotonic()
        yield 0.5
        taken[0] = time.monotonic()
        return "done"

    errand.start(work)
    qtbot.waitUntil(lambda: bool(heard))
    assert heard == ["done"]
    assert taken[0] - asked[0] >= 0.05
    evaluator.stop()


@pytest.mark.usefixtures("qapp")
def test_a_window_that_closes_waits_for_no_rest(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(evaluator_module, "_REST_S", 60.0)
    evaluator = Evaluator(double.engine)
    evaluator.give_way()
    evaluator.queue(evaluator.rest)
    begun = time.monotonic()
    evaluator.stop()
    assert evaluator.is_idle()
    assert time.monotonic() - begun < 30
