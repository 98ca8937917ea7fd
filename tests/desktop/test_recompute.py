"""An edit has only those routes worked out whose answer can have changed; long work can be stopped."""

from __future__ import annotations

from collections.abc import Generator
from threading import Event

import msgspec
import pytest
import window_double as double
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot
from windows import Open

from core.plan.model import Plan, Route
from core.plan.read import load_plan
from core.routes.result import RouteResult
from desktop.document import Document
from desktop.evaluation import Engine, evaluation_steps
from desktop.plan_files import SAMPLE
from desktop.window import MainWindow

replace = msgspec.structs.replace


def answered() -> Document:
    document = Document(load_plan(SAMPLE))
    document.take(list(evaluation_steps(document.plan, double.engine())))
    assert document.complete
    return document


def with_route(plan: Plan, place: int, **changes: object) -> Plan:
    routes = list(plan.routes)
    routes[place] = replace(routes[place], **changes)
    return replace(plan, routes=tuple(routes))


@pytest.mark.usefixtures("qapp")
def test_names_and_notes_ask_for_nothing() -> None:
    document = answered()
    asked: list[bool] = []
    document.asked.connect(lambda: asked.append(True))
    plan = replace(document.plan, title="Other", notes="Other", for_sale=())
    plan = replace(plan, genes=tuple(replace(gene, name="Other") for gene in plan.genes))
    document.edit(with_route(plan, 0, name="Other"), "change names")
    assert document.complete
    assert not asked
    assert document.found[0].name == "Other"
    assert not any(one.stale for one in document.found)


def test_a_changed_route_is_asked_for_alone(qtbot: QtBot) -> None:
    document = answered()
    winner = document.verdict.winner
    document.edit(with_route(document.plan, 1, setup=10), "change what it costs")
    assert document.pending == {document.plan.routes[1].id}
    assert [one.stale for one in document.found] == [place == 1 for place in range(7)]
    # For a moment the answer that stands there stays, as the new one may be about to come.
    assert document.verdict.winner == winner
    qtbot.waitUntil(lambda: not document.patient)
    assert document.verdict.winner is None


@pytest.mark.usefixtures("qapp")
def test_quick_answers_to_an_edit_are_shown_together() -> None:
    document = answered()
    plan = document.plan
    shown: list[int] = []
    document.answers_changed.connect(lambda: shown.append(sum(one.stale for one in document.found)))
    document.edit(replace(plan, costs=replace(plan.costs, setup=77)), "change it")
    for step in evaluation_steps(document.plan, double.engine()):
        document.take([step])
    assert document.complete
    assert shown == [0]
    assert not document.patient


@pytest.mark.parametrize("part", ["costs", "species", "goal"])
@pytest.mark.usefixtures("qapp")
def test_what_all_routes_share_asks_for_all(part: str) -> None:
    document = answered()
    changes: dict[str, object] = {"costs": {"setup": 77}, "species": {"lays": 0.5}, "goal": {"chance": 0.7}}
    plan = document.plan
    document.edit(replace(plan, **{part: replace(getattr(plan, part), **changes[part])}), "change it")
    assert len(document.pending) == 7
    document.undo()
    assert document.complete
    assert document.verdict.winner is not None


@pytest.mark.usefixtures("qapp")
def test_a_copy_of_a_route_is_answered_at_once() -> None:
    document = answered()
    copy = replace(document.plan.routes[2], id="copy", name="Copy")
    document.edit(replace(document.plan, routes=(*document.plan.routes, copy)), "copy a route")
    assert document.complete
    result = document.found[-1].result
    assert result is not None
    assert result.id == "copy"


@pytest.mark.usefixtures("qapp")
def test_going_back_while_at_work_forgets_the_question() -> None:
    document = answered()
    first, second = (route.id for route in document.plan.routes[:2])
    document.edit(with_route(document.plan, 0, setup=10), "first")
    document.edit(with_route(document.plan, 1, setup=10), "second")
    assert document.pending == {first, second}
    asked: list[frozenset[str]] = []
    document.asked.connect(lambda: asked.append(document.pending))
    document.undo()
    assert asked == [frozenset({first})]
    document.undo()
    assert asked[-1] == frozenset()


class Slow:
    """An engine whose routes that hold young back wait for `gate`."""

    def __init__(self) -> None:
        self.gate = Event()

    def __call__(self) -> Engine:
        return self.steps

    def steps(self, plan: Plan, route: Route) -> Generator[float, None, RouteResult]:
        if route.id in double._SIMULATED:
            while not self.gate.wait(0.005):
                yield 0.25
        return (yield from double.route_steps(plan, route))


def begun(start: Open, qtbot: QtBot, slow: Slow) -> MainWindow:
    window: MainWindow = start(engine=slow, wait=False)
    qtbot.waitUntil(window.page.answer.working.isVisible)
    return window


def test_long_work_is_cancelled_and_taken_up_again(start: Open, qtbot: QtBot) -> None:
    slow = Slow()
    window = begun(start, qtbot, slow)
    answer, document = window.page.answer, window.document
    assert answer.head.text().startswith("Cheapest so far")
    qtbot.mouseClick(answer.working, Qt.MouseButton.LeftButton)
    assert document.complete
    assert "Two routes were stopped and left out." in answer.lead.text()
    assert "Go on" in answer.working.text()
    model = window.page.routes.model()
    assert "stopped" in [str(model.index(row, 2).data()) for row in range(model.rowCount())]
    slow.gate.set()
    qtbot.mouseClick(answer.working, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: document.complete)
    assert not answer.working.isVisible()
    assert answer.head.text().startswith("Cheapest: ")


def test_nothing_moves_when_answers_come(start: Open, qtbot: QtBot) -> None:
    slow = Slow()
    window = start(engine=slow, wait=False)
    page = window.page
    panels = (page.answer, page.routes, page.evidence, page.money.chart.canvas, page.steps)
    QApplication.processEvents()
    waiting = [panel.geometry() for panel in panels]
    # The word for stopping comes with the first slow route, and goes with the last.
    qtbot.waitUntil(lambda: page.answer.working.isVisible() and page.answer.people.isVisible())
    QApplication.processEvents()
    assert [panel.geometry() for panel in panels] == waiting
    slow.gate.set()
    qtbot.waitUntil(lambda: window.document.complete and not page.answer.working.isVisible())
    QApplication.processEvents()
    assert [panel.geometry() for panel in panels] == waiting


def test_old_answers_stay_grey_until_the_new_ones_come(start: Open, qtbot: QtBot) -> None:
    slow = Slow()
    slow.gate.set()
    window = start(engine=slow)
    slow.gate.clear()
    document = window.document
    place = next(i for i, route in enumerate(document.plan.routes) if route.id in double._SIMULATED)
    old = document.found[place].result
    document.edit(with_route(document.plan, place, setup=5), "change what it costs")
    qtbot.waitUntil(lambda: not document.patient)
    assert document.found[place].result is old
    assert window.page.chance.outdated() == {document.plan.routes[place].id}
    assert window.page.answer.head.text().startswith("Cheapest so far")
    slow.gate.set()
    qtbot.waitUntil(lambda: document.complete)
    assert document.found[place].result is not old
    document.history.set_clean()
