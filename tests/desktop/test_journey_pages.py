"""Through the real main(), without a mouse: every page is opened, used and left."""

from __future__ import annotations

import re

import pytest
from editing import press, tab_to, write
from main_run import play
from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QListView, QMenu, QPlainTextEdit
from pytestqt.qtbot import QtBot

from desktop.assumptions.page import AssumptionsPage
from desktop.editor.page import Editor
from desktop.new_route.page import NewRoute
from desktop.paste.window import PasteWindow
from desktop.plan_files import SAMPLES
from desktop.why.page import WhyPage
from desktop.window import MainWindow
from desktop.worth.page import WorthPage

CONTROL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier
FEW_ROUTES = SAMPLES / "corn-linked.plan.json"


def begin(window: MainWindow, qtbot: QtBot) -> None:
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    worked_out(window, qtbot)


def worked_out(window: MainWindow, qtbot: QtBot) -> None:
    qtbot.waitUntil(lambda: window.document.complete, timeout=30_000)


def back(window: MainWindow) -> None:
    """Escape leads to the comparison, with the keyboard on something of use."""
    for _ in range(3):
        if window.views.page() is None:
            break
        press(Qt.Key.Key_Escape)
    assert window.views.page() is None
    focused = QApplication.focusWidget()
    assert focused is not None
    assert focused.focusPolicy() & Qt.FocusPolicy.TabFocus
    assert focused.isVisible()


def test_assumptions(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    def journey(window: MainWindow) -> None:
        begin(window, qtbot)
        press(Qt.Key.Key_Comma, CONTROL)
        page = window.views.page()
        assert isinstance(page, AssumptionsPage)
        while page.sections.currentIndex().data() != "Costs":
            press(Qt.Key.Key_Down)
        tab_to("To set up")
        QTest.keySequence(QApplication.focusWidget(), QKeySequence(QKeySequence.StandardKey.SelectAll))
        write("333")
        assert window.document.plan.costs.setup == 333
        back(window)

    play(monkeypatch, journey, FEW_ROUTES)


def test_editor(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    def journey(window: MainWindow) -> None:
        begin(window, qtbot)
        tab_to(window.page.routes.accessibleName())
        press(Qt.Key.Key_Return)
        assert isinstance(window.views.page(), Editor)
        tab_to("Add animals")
        back(window)

    play(monkeypatch, journey, FEW_ROUTES)


def test_why(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    def journey(window: MainWindow) -> None:
        begin(window, qtbot)
        press(Qt.Key.Key_I, CONTROL)
        page = window.views.page()
        assert isinstance(page, WhyPage)
        qtbot.waitUntil(lambda: page.is_settled, timeout=30_000)
        press(Qt.Key.Key_I, CONTROL | SHIFT)
        qtbot.waitUntil(lambda: page.is_settled, timeout=30_000)
        assert page.tabs.currentIndex() == 1
        back(window)

    play(monkeypatch, journey, FEW_ROUTES)


def test_worth_paying_and_what_matters(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    def journey(window: MainWindow) -> None:
        begin(window, qtbot)
        press(Qt.Key.Key_M, CONTROL)
        page = window.views.page()
        assert isinstance(page, WorthPage)
        qtbot.waitUntil(lambda: page.worth.table.rowCount() > 0, timeout=30_000)
        tab_to(page.worth.table.accessibleName())
        press(Qt.Key.Key_Down)
        assert page.worth.table.currentRow() == 1
        press(Qt.Key.Key_M, CONTROL | SHIFT)
        qtbot.waitUntil(lambda: page.matters.table.rowCount() > 0, timeout=30_000)
        tab_to(page.matters.table.accessibleName())
        press(Qt.Key.Key_Down)
        assert page.matters.table.currentRow() == 1
        tab_to(page.matters.range.low.accessibleName())
        back(window)

    play(monkeypatch, journey, FEW_ROUTES)


def test_new_route(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    def journey(window: MainWindow) -> None:
        begin(window, qtbot)
        before = len(window.document.plan.routes)
        press(Qt.Key.Key_R, CONTROL)
        page = window.views.page()
        assert isinstance(page, NewRoute)
        qtbot.waitUntil(page.add.isEnabled, timeout=30_000)
        tab_to(page.add.text())
        press(Qt.Key.Key_Space)
        assert len(window.document.plan.routes) == before + 1
        back(window)

    play(monkeypatch, journey, FEW_ROUTES)


def test_cautions_and_charts(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    def journey(window: MainWindow) -> None:
        begin(window, qtbot)
        tab_to(window.page.steps.tabs.accessibleName())
        press(Qt.Key.Key_Right)
        assert window.page.steps.cautions is not None
        assert window.page.steps.cautions.isVisible()
        chart = window.page.money.chart
        qtbot.waitUntil(lambda: chart.is_current)
        tab_to(chart.canvas.view.accessibleName())
        press(Qt.Key.Key_Right)
        assert chart.canvas.reading is not None
        press(Qt.Key.Key_Escape)
        assert chart.canvas.reading is None

    play(monkeypatch, journey, FEW_ROUTES)


def test_paste(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    def journey(window: MainWindow) -> None:
        begin(window, qtbot)
        before = len(window.document.plan.for_sale)
        press(Qt.Key.Key_Comma, CONTROL)
        sections = QApplication.focusWidget()
        assert isinstance(sections, QListView)
        while sections.currentIndex().data() != "What is for sale":
            press(Qt.Key.Key_Down)
        tab_to("Paste a list…")
        press(Qt.Key.Key_Space)
        dialog = window.findChild(PasteWindow)
        assert dialog is not None
        qtbot.waitUntil(dialog.isActiveWindow)
        text = QApplication.focusWidget()
        assert isinstance(text, QPlainTextEdit)
        QTest.keyClicks(text, "0.1 normal 40")
        qtbot.waitUntil(dialog.add.isEnabled)
        tab_to(dialog.add.text())
        press(Qt.Key.Key_Space)
        assert len(window.document.plan.for_sale) == before + 1

    play(monkeypatch, journey, FEW_ROUTES)


def test_a_key_means_one_thing(monkeypatch: pytest.MonkeyPatch, qtbot: QtBot) -> None:
    def journey(window: MainWindow) -> None:
        begin(window, qtbot)
        keys: dict[str, str] = {}
        for action in window.findChildren(QAction):
            if action.shortcutContext() is Qt.ShortcutContext.WidgetShortcut:
                continue
            for key in action.shortcuts():
                assert keys.setdefault(key.toString(), action.text()) == action.text()
        for menu in (window.menuBar(), *window.menuBar().findChildren(QMenu)):
            letters = re.findall("&(\\w)", " ".join(action.text() for action in menu.actions()).lower())
            assert len(letters) == len(set(letters)), menu.actions()[0].text()

    play(monkeypatch, journey, FEW_ROUTES)
