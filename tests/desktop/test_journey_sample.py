"""Through the real main(): a price that turns the answer, a pasted list to a first route, everything by keyboard."""

from __future__ import annotations

from pathlib import Path

import msgspec
import pytest
from editing import type_into
from files_cases import plan_file
from main_run import play
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from core.plan.model import Bought
from core.plan.read import load_plan
from core.routes.shapes import SHAPES
from desktop.editor.page import Editor
from desktop.files.saving import save_plan
from desktop.first.panel import FirstSteps
from desktop.forms.fields import SentenceField
from desktop.new_route.page import NewRoute
from desktop.paste.window import PasteWindow
from desktop.plan_files import SAMPLE
from desktop.window import MainWindow

CLEAR = ["0.1 amel het lav 230", "1.0 double het 160", "1.0 Lavender het amel 340"]
UNCLEAR = ["0.1 amel ph lav 150", "1.2 double het 500", "0.1 amel hett lav 190"]


def worked_out(window: MainWindow, qtbot: QtBot) -> str:
    qtbot.waitUntil(lambda: window.document.complete, timeout=30_000)
    return window.page.answer.head.text()


def test_a_price_is_raised_until_another_route_is_cheapest(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    def journey(window: MainWindow) -> None:
        first = worked_out(window, qtbot)
        before = window.document.plan
        chosen = window.document.selected
        assert chosen is not None
        assert first.startswith(f"Cheapest: {chosen.name}.")
        window.edit_route()
        editor = window.views.page()
        assert isinstance(editor, Editor)
        (sire,) = [one for one in chosen.route.groups if isinstance(one, Bought) and one.sex == "male"]
        line = next(one for one in editor.board.lines if one.key.kind == "group" and one.key.id == sire.id)
        price = line.sentence.fields["price"]
        assert isinstance(price, SentenceField)
        changes = 0
        while window.document.verdict.winner == chosen.id and changes < 12:
            changes += 1
            type_into(price, str(int(sire.price) + 100 * changes))
            worked_out(window, qtbot)
        editor.head.done.click()
        assert window.document.verdict.winner not in (chosen.id, None)
        assert not worked_out(window, qtbot).startswith(f"Cheapest: {chosen.name}.")
        while window.menus.undo.isEnabled():
            window.menus.undo.trigger()
        assert worked_out(window, qtbot) == first
        assert window.document.plan == before

    play(monkeypatch, journey)


def test_thirty_lines_three_unclear_to_a_first_route(
    qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    path = tmp_path / "mine.plan.json"
    plan = load_plan(SAMPLE)
    few = msgspec.structs.replace(plan.simulation, runs=100)
    assert save_plan(msgspec.structs.replace(plan, routes=(), for_sale=(), simulation=few), path) is None

    def journey(window: MainWindow) -> None:
        first = window.page.first
        assert isinstance(first, FirstSteps)
        first.rows["sale"].paste.click()
        dialog = window.findChild(PasteWindow)
        assert dialog is not None
        QApplication.clipboard().setText("\n".join([*CLEAR * 9, *UNCLEAR]))
        dialog.text.setFocus()
        dialog.text.paste()
        qtbot.waitUntil(lambda: dialog.summary.text() == "27 lines are clear, 3 still to settle.")
        for _ in UNCLEAR:
            if dialog.asking.choices:
                dialog.asking.choices[0].click()
                qtbot.waitUntil(lambda: not dialog.summary.text().startswith("Reading: "))
        qtbot.waitUntil(lambda: dialog.summary.text() == "30 lines are clear, 0 still to settle.")
        dialog.add.click()
        assert len(window.document.plan.for_sale) == 30
        first.rows["routes"].act.click()
        page = window.views.page()
        assert isinstance(page, NewRoute)
        page.shapes.setCurrentRow(SHAPES.index("straight"))
        qtbot.waitUntil(page.add.isEnabled, timeout=30_000)
        page.add.click()
        assert worked_out(window, qtbot).startswith("Cheapest: ")
        assert window.page.routes.isVisible()

    play(monkeypatch, journey, path)


def test_everything_by_keyboard(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    mine = plan_file(tmp_path)

    def journey(window: MainWindow) -> None:
        window.activateWindow()
        qtbot.waitUntil(window.isActiveWindow)
        worked_out(window, qtbot)
        tab_to(window.page.goal.fields["goal.seasons"])
        press(Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
        QTest.keyClicks(focused(), "5")
        press(Qt.Key.Key_Return)
        assert window.document.plan.goal.seasons == 5
        worked_out(window, qtbot)
        tab_to(window.page.routes)
        press(Qt.Key.Key_Down)
        chosen = window.document.selected
        assert chosen is not None
        assert window.page.steps.name.text() == chosen.name
        press(Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
        assert window.document.plan.goal.seasons == 7
        again = window.menus.redo.shortcut()[0]
        press(again.key(), again.keyboardModifiers())
        assert window.document.plan.goal.seasons == 5
        press(Qt.Key.Key_S, Qt.KeyboardModifier.ControlModifier)
        assert not window.document.has_unsaved_changes
        press(Qt.Key.Key_N, Qt.KeyboardModifier.ControlModifier)
        first = window.page.first
        assert isinstance(first, FirstSteps)
        tab_to(first.rows["mine"].leave_out)
        press(Qt.Key.Key_Space)
        assert first.rows["mine"].state.text() == "left out"

    play(monkeypatch, journey, mine)
    assert load_plan(mine).goal.seasons == 5


def focused() -> QWidget:
    found = QApplication.focusWidget()
    assert found is not None
    return found


def press(key: Qt.Key, modifier: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
    QTest.keyClick(QApplication.focusWidget() or QApplication.activeWindow(), key, modifier)


def tab_to(wanted: QWidget) -> None:
    """Tab until it is there, as somebody without a mouse does."""
    for _ in range(80):
        if QApplication.focusWidget() is wanted:
            return
        press(Qt.Key.Key_Tab)
    raise AssertionError(f"Tab never comes to {type(wanted).__name__}")
