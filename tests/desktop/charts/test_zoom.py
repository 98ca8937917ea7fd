"""Zooming and moving, by wheel, box, words and keys."""

from __future__ import annotations

from pathlib import Path

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from windows import Open

from core.plan.read import load_plan
from core.plan.write import write_plan
from desktop.panels.charts.canvas import Canvas
from desktop.panels.charts.frame import Frame
from desktop.panels.charts.viewport import Sight
from desktop.plan_files import SAMPLE

LEFT, NONE, CTRL = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.ControlModifier
WHOLE = Sight(0.0, 100.0)


def frame_of(canvas: Canvas) -> Frame:
    frame = canvas.frame()
    assert frame is not None
    return frame


def wheel(canvas: Canvas, at: QPoint, held: Qt.KeyboardModifier) -> None:
    port = canvas.view.viewport()
    spot = QPointF(at)
    event = QWheelEvent(
        spot, port.mapToGlobal(spot), QPoint(), QPoint(0, 120), Qt.MouseButton.NoButton, held,
        Qt.ScrollPhase.NoScrollPhase, False,
    )  # fmt: skip
    QApplication.sendEvent(port, event)


def test_words_zoom_and_show_the_whole_again(start: Open) -> None:
    place = start().page.money
    whole = frame_of(place.chart.canvas).sight
    assert not place.tools.whole.isVisible()
    place.tools.zoom_in.click()
    near = frame_of(place.chart.canvas).sight
    assert near.high - near.low == pytest.approx((whole.high - whole.low) * 0.6)
    assert (near.bottom, near.top) == (whole.bottom, whole.top)
    assert place.tools.whole.isVisible()
    place.tools.zoom_in.click()
    place.tools.whole.click()
    assert frame_of(place.chart.canvas).sight == whole


def test_the_wheel_zooms_what_it_is_over(start: Open) -> None:
    canvas = start().page.money.chart.canvas
    whole = frame_of(canvas).sight
    area = frame_of(canvas).area
    middle = area.center().toPoint()
    canvas.view.clearFocus()
    wheel(canvas, middle, NONE)
    assert not canvas.is_zoomed
    wheel(canvas, QPoint(middle.x(), int(area.bottom()) + 8), NONE)
    assert frame_of(canvas).sight.top == whole.top
    assert frame_of(canvas).sight.high < whole.high
    canvas.show_whole()
    wheel(canvas, QPoint(8, middle.y()), NONE)
    assert frame_of(canvas).sight.high == whole.high
    assert frame_of(canvas).sight.top < whole.top
    canvas.show_whole()
    wheel(canvas, middle, CTRL)
    assert frame_of(canvas).sight.high < whole.high
    assert frame_of(canvas).sight.top < whole.top


def test_a_box_is_zoomed_into_and_the_chart_moved(start: Open) -> None:
    canvas = start().page.eggs.chart.canvas
    area, port = frame_of(canvas).area, canvas.view.viewport()
    start_at, end_at = QPoint(int(area.left()) + 40, int(area.top()) + 20), area.center().toPoint()
    low, high = frame_of(canvas).x_of(start_at.x()), frame_of(canvas).x_of(end_at.x())
    QTest.mousePress(port, LEFT, Qt.KeyboardModifier.ShiftModifier, start_at)
    QTest.mouseMove(port, end_at)
    QTest.mouseRelease(port, LEFT, Qt.KeyboardModifier.ShiftModifier, end_at)
    sight = frame_of(canvas).sight
    assert (sight.low, sight.high) == pytest.approx((low, high), rel=1e-6)
    spot = QPoint(int(area.left()) + 100, int(area.bottom()) - 12)
    QTest.mousePress(port, LEFT, NONE, spot)
    QTest.mouseMove(port, spot + QPoint(-50, 0))
    QTest.mouseRelease(port, LEFT, NONE, spot + QPoint(-50, 0))
    assert frame_of(canvas).sight.low > sight.low
    QTest.mouseDClick(port, LEFT, NONE, spot)
    assert not canvas.is_zoomed


def test_reading_by_keys_moves_a_zoomed_chart_along(start: Open) -> None:
    canvas = start().page.eggs.chart.canvas
    for key in (Qt.Key.Key_Plus, Qt.Key.Key_Plus, Qt.Key.Key_End):
        QTest.keyClick(canvas.view, key)
    assert canvas.reading is not None
    assert frame_of(canvas).shows(canvas.reading)
    QTest.keyClick(canvas.view, Qt.Key.Key_0)
    assert not canvas.is_zoomed


_INSIDE = st.floats(0, 100)
_BY = st.floats(0.05, 20)


@given(st.lists(st.tuples(_INSIDE, st.floats(0, 1), _BY, _BY, st.floats(-50, 50)), max_size=8))
def test_a_sight_stays_within_the_whole(steps: list[tuple[float, float, float, float, float]]) -> None:
    sight = WHOLE
    for x, y, wide, high, move in steps:
        sight = sight.zoomed(WHOLE, (x, y), (wide, high)).moved(WHOLE, move, move / 100)
        assert WHOLE.low - 1e-9 <= sight.low < sight.high <= WHOLE.high + 1e-9
        assert WHOLE.bottom - 1e-9 <= sight.bottom < sight.top <= WHOLE.top + 1e-9


def test_a_goal_reached_before_a_curve_leaves_the_ground_has_a_span(start: Open, tmp_path: Path) -> None:
    plan = load_plan(SAMPLE)
    goal = msgspec.structs.replace(plan.goal, chance=0.01, budget=None, outright_price=None)
    path = tmp_path / "mine.plan.json"
    path.write_bytes(write_plan(msgspec.structs.replace(plan, goal=goal, routes=plan.routes[:1])))
    sight = frame_of(start(path).page.money.chart.canvas).sight
    assert sight.low < 919 < sight.high
