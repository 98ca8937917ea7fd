"""A chart's values are read out under the pointer and by keys."""

from __future__ import annotations

from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot
from windows import Open

from desktop.panels.charts.readout import ReadoutBox


def test_keys_move_through_the_eggs(start: Open) -> None:
    window = start()
    canvas = window.page.eggs.chart.canvas
    plot = canvas.view
    assert "needs 39" in plot.accessibleDescription()
    for _ in range(2):
        QTest.keyClick(plot, Qt.Key.Key_Right)
    assert canvas.reading == 1
    assert plot.accessibleDescription().startswith("after 1 egg: Finished sire, possible hets: 11 %")
    QTest.keyClick(plot, Qt.Key.Key_PageUp)
    assert canvas.reading == 11
    QTest.keyClick(plot, Qt.Key.Key_Home)
    assert canvas.reading == 0
    box = window.findChild(ReadoutBox)
    assert box is not None
    assert box.isVisible()
    QTest.keyClick(plot, Qt.Key.Key_Escape)
    assert canvas.reading is None
    assert not box.isVisible()
    assert "needs 39" in plot.accessibleDescription()


def test_keys_stop_where_a_route_reaches_the_goal(start: Open) -> None:
    canvas = start().page.money.chart.canvas
    canvas.read_at(1550.0)
    QTest.keyClick(canvas.view, Qt.Key.Key_Right)
    assert canvas.reading == 1556
    assert "Lavender sire, double hets: 80 %" in canvas.view.accessibleDescription()


def test_seasons_are_read_from_the_first_to_the_last(start: Open) -> None:
    eggs = start().page.eggs
    eggs.tabs.setCurrentIndex(1)
    canvas = eggs.chart.canvas
    for key, season in ((Qt.Key.Key_Home, 1), (Qt.Key.Key_Left, 1), (Qt.Key.Key_End, 7), (Qt.Key.Key_Right, 7)):
        QTest.keyClick(canvas.view, key)
        assert canvas.reading == season
    assert "± 0.3" in canvas.view.accessibleDescription()


def test_the_pointer_reads_and_leaves(start: Open, qtbot: QtBot) -> None:
    window = start()
    canvas = window.page.money.chart.canvas
    QTest.mouseMove(canvas.view.viewport(), QPoint(200, 60))
    qtbot.waitUntil(lambda: canvas.reading is not None)
    assert "set aside: " in canvas.view.accessibleDescription()
    canvas.read_at(None)
    assert canvas.reading is None


def test_the_box_stays_in_the_window(start: Open) -> None:
    window = start()
    for canvas in (window.page.money.chart.canvas, window.page.eggs.chart.canvas):
        for key in (Qt.Key.Key_Home, Qt.Key.Key_End):
            QTest.keyClick(canvas.view, key)
            boxes = [box for box in window.findChildren(ReadoutBox) if box.isVisible()]
            assert len(boxes) == 1
            assert window.rect().contains(boxes[0].geometry())
        canvas.read_at(None)
