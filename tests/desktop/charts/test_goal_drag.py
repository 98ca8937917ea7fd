"""The goal line is dragged by its grip, or moved by keys."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot
from windows import Open

from core.plan.model import Plan
from desktop.panels.charts.canvas import Canvas
from desktop.window import MainWindow
from desktop.words.charts import CHANGE_CHANCE

LEFT = Qt.MouseButton.LeftButton


def grip_drag(canvas: Canvas, percent: int) -> None:
    """Takes the grip to a chance, without letting go."""
    grip, frame = canvas.grip, canvas.frame()
    assert frame is not None
    QTest.mousePress(grip, LEFT, pos=grip.rect().center())
    QTest.mouseMove(grip, QPoint(5, round(frame.py(percent / 100)) - grip.y()))


def crossing(window: MainWindow, name: str) -> float | None:
    picture = window.page.money.chart.canvas.picture
    assert picture is not None
    one = next(series for series in picture.series if series.id == name)
    return one.crossing.x if one.crossing else None


def assert_one_step(window: MainWindow, before: Plan) -> None:
    assert window.document.history.undo_what == CHANGE_CHANCE
    window.document.undo()
    assert window.document.plan == before
    assert window.document.history.undo_what is None


def test_a_drag_is_looked_at_and_then_becomes_one_step(start: Open, qtbot: QtBot) -> None:
    window = start()
    canvas = window.page.eggs.chart.canvas
    before = window.document.plan
    for percent in (75, 70, 60):
        grip_drag(canvas, percent)
    assert window.document.plan is before
    assert window.document.complete
    qtbot.waitUntil(lambda: crossing(window, "visual-sire") == 1413)
    assert window.page.answer.head.text() == "Cheapest: Finished sire, possible hets. Set aside 1,394."
    QTest.mouseRelease(canvas.grip, LEFT, pos=canvas.grip.rect().center())
    assert window.document.plan.goal.chance == pytest.approx(0.6)
    assert_one_step(window, before)
    qtbot.waitUntil(lambda: window.document.complete)


def test_only_the_goal_line_moves_while_dragged(start: Open, qtbot: QtBot) -> None:
    window = start()
    canvas = window.page.eggs.chart.canvas
    assert canvas.picture is not None
    span = canvas.picture.low, canvas.picture.high
    window.page.chance.look_ahead(30)
    qtbot.waitUntil(lambda: canvas.picture is not None and canvas.picture.goal == 0.3)
    assert (canvas.picture.low, canvas.picture.high) == span
    window.page.chance.give_up()
    qtbot.waitUntil(lambda: canvas.picture is not None and canvas.picture.goal == 0.8)


def test_escape_gives_a_drag_up(start: Open) -> None:
    window = start()
    canvas = window.page.money.chart.canvas
    grip_drag(canvas, 50)
    assert window.page.chance.is_ahead
    QTest.keyClick(canvas.grip, Qt.Key.Key_Escape)
    assert not window.page.chance.is_ahead
    assert window.document.history.undo_what is None


def test_a_press_without_a_move_changes_nothing(start: Open) -> None:
    window = start()
    grip = window.page.money.chart.canvas.grip
    QTest.mouseClick(grip, LEFT, pos=grip.rect().center())
    assert window.document.history.undo_what is None


def test_the_line_itself_can_be_taken_hold_of(start: Open, qtbot: QtBot) -> None:
    window = start()
    canvas = window.page.money.chart.canvas
    frame, plot = canvas.frame(), canvas.view.viewport()
    assert frame is not None
    x = round(frame.area.left()) + 5
    QTest.mousePress(plot, LEFT, pos=QPoint(x, round(frame.py(0.8))))
    QTest.mouseMove(plot, QPoint(x, round(frame.py(0.4))))
    assert window.page.chance.value == pytest.approx(0.4, abs=0.011)
    QTest.mouseRelease(plot, LEFT, pos=QPoint(x, round(frame.py(0.4))))
    assert window.document.history.undo_what == CHANGE_CHANCE
    qtbot.waitUntil(lambda: window.document.complete)


@pytest.mark.parametrize(
    ("keys", "chance"),
    [
        ((Qt.Key.Key_Up,), 0.81),
        ((Qt.Key.Key_Down, Qt.Key.Key_Down), 0.78),
        ((Qt.Key.Key_PageUp,), 0.85),
        ((Qt.Key.Key_PageDown, Qt.Key.Key_Down), 0.74),
    ],
)
def test_keys_move_the_goal(start: Open, qtbot: QtBot, keys: tuple[Qt.Key, ...], chance: float) -> None:
    window = start()
    before = window.document.plan
    grip = window.page.money.chart.canvas.grip
    grip.setFocus()
    for key in keys:
        QTest.keyClick(grip, key)
    assert window.document.plan.goal.chance == pytest.approx(chance)
    assert grip.hasFocus()
    assert_one_step(window, before)
    qtbot.waitUntil(lambda: window.document.complete)
