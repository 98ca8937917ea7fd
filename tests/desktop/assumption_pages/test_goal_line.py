"""The goal line: looks chosen below their word, more rows, the outright price, by mouse and by keyboard."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot
from windows import Open

from core.plan.model import Want
from desktop.panels.wanted_picker import WantedPicker
from desktop.window import MainWindow


@pytest.fixture
def window(start: Open) -> MainWindow:
    return start()


def picker_of(window: MainWindow) -> WantedPicker:
    found = [one for one in window.findChildren(WantedPicker) if one.isVisible()]
    assert len(found) == 1
    return found[0]


def type_into(window: MainWindow, place: str, text: str) -> None:
    field = window.page.goal.fields[place]
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, text)
    QTest.keyClick(field, Qt.Key.Key_Return)


def test_a_look_is_chosen_below_its_word(window: MainWindow, qtbot: QtBot) -> None:
    word = window.page.goal.rows[0].look
    assert word.text() == "amel + lavender visual"
    qtbot.mouseClick(word, Qt.MouseButton.LeftButton)
    picker = picker_of(window)
    assert picker.head.text() == "opal (amel + lavender visual)"
    names = [[one.text() for one in row.choice_buttons()] for row in picker.panel.rows]
    assert names == [["none of these", "opal"], ["any", "normal", "amel"], ["any", "normal", "lavender"]]
    picker.panel.rows[1].choice_buttons()[0].click()
    assert window.document.plan.goal.want == (Want(forms={"lav": "lavender"}, sex="female"),)
    assert word.text() == "lavender visual"
    assert picker.isVisible()
    picker.panel.rows[0].choice_buttons()[1].click()
    assert word.text() == "amel + lavender visual"
    qtbot.mouseClick(picker.finish, Qt.MouseButton.LeftButton)


def test_a_look_by_keyboard(window: MainWindow) -> None:
    word = window.page.goal.rows[0].look
    word.setFocus()
    QTest.keyClick(word, Qt.Key.Key_Space)
    picker = picker_of(window)
    first = picker.panel.rows[0].choice_buttons()
    assert first[1].isChecked()
    QTest.keyClick(first[1], Qt.Key.Key_Left)
    assert window.document.plan.goal.want[0].forms == {}
    assert word.text() == "animal"
    QTest.keyClick(picker, Qt.Key.Key_Escape)
    assert not picker.isVisible()


def test_another_animal_is_wanted_and_left_out_again(window: MainWindow, qtbot: QtBot) -> None:
    goal = window.page.goal
    before = window.document.plan
    qtbot.mouseClick(goal.add_row, Qt.MouseButton.LeftButton)
    assert len(window.document.plan.goal.want) == 2
    picker = picker_of(window)
    picker.panel.rows[2].choice_buttons()[0].click()
    picker.close()
    row = goal.rows[1]
    row.sex.choice.setCurrentIndex(2)
    row.sex.choice.activated.emit(2)
    type_into(window, "goal.want[1].count", "2")
    assert window.document.plan.goal.want[1] == Want(forms={"amel": "amel"}, sex="male", count=2)
    assert "1 female amel + lavender visual and 2 males amel visual" in goal.text()
    row.open_choices()
    qtbot.mouseClick(picker_of(window).leave_out, Qt.MouseButton.LeftButton)
    assert window.document.plan == before
    assert len(goal.rows) == 1
    window.menus.undo.trigger()
    assert len(goal.rows) == 2


def test_the_price_bought_finished(window: MainWindow) -> None:
    type_into(window, "goal.outright_price", "2,100")
    type_into(window, "goal.outright_change", "-2.5")
    goal = window.document.plan.goal
    assert (goal.outright_price, goal.outright_change) == (2100, -0.025)
    field = window.page.goal.fields["goal.outright_price"]
    field.setFocus()
    field.clear()
    QTest.keyClick(field, Qt.Key.Key_Return)
    assert window.document.plan.goal.outright_price == 2100
    assert window.page.goal.refusal.text() == (
        "What they cost bought finished: the route “Double hets, then buy” buys the finished animal, "
        "so it needs this price. Nothing was changed."
    )


def test_a_narrow_window_wraps_the_sentence(window: MainWindow, qtbot: QtBot) -> None:
    tall = window.page.goal.height()
    window.resize(700, 800)
    qtbot.waitUntil(lambda: window.page.goal.height() > tall)
    assert window.page.goal.fields["goal.budget"].isVisible()
