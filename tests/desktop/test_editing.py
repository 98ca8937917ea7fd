"""Changing the goal, taking it back and saving, through real widgets."""

from __future__ import annotations

from pathlib import Path

import msgspec
import pytest
from editing import type_into
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFileDialog, QMessageBox
from pytestqt.qtbot import QtBot
from windows import Open

from core.plan.read import load_plan
from desktop.forms.fields import SentenceField
from desktop.forms.goal_fields import BUDGET, SEASONS, SURE
from desktop.plan_files import SAMPLE
from desktop.window import MainWindow


def field_of(window: MainWindow, place: str) -> SentenceField:
    return window.page.goal.fields[place]


def test_a_change_is_worked_out_and_taken_back(start: Open, qtbot: QtBot) -> None:
    window = start()
    before = window.document.plan
    type_into(field_of(window, SURE.place), "90")
    assert window.document.plan.goal.chance == 0.9
    assert "90 % sure" in window.page.goal.text()
    assert window.menus.undo.text() == "Undo change how sure you want to be, in percent"
    qtbot.waitUntil(lambda: window.document.complete)
    window.menus.undo.trigger()
    assert window.document.plan == before
    assert field_of(window, SURE.place).text() == "80"
    window.menus.redo.trigger()
    assert window.document.plan.goal.chance == 0.9
    qtbot.waitUntil(lambda: window.document.complete)
    window.document.history.set_clean()


def test_a_budget_may_be_empty(start: Open, qtbot: QtBot) -> None:
    window = start()
    field = field_of(window, BUDGET.place)
    field.setFocus()
    field.clear()
    QTest.keyClick(field, Qt.Key.Key_Return)
    assert window.document.plan.goal.budget is None
    assert field.placeholderText() == "any sum"
    qtbot.waitUntil(lambda: window.document.complete)
    window.document.history.set_clean()


@pytest.mark.parametrize(
    ("place", "typed", "said"),
    [(SURE.place, "120", "How sure you want to be"), (SEASONS.place, "soon", "“soon” is not a whole number")],
)
def test_what_cannot_be_is_refused_beside_the_field(start: Open, place: str, typed: str, said: str) -> None:
    window = start()
    before = window.document.plan
    type_into(field_of(window, place), typed)
    assert window.page.goal.refusal.isVisible()
    assert said in window.page.goal.refusal.text()
    assert window.document.plan == before
    QTest.keyClick(field_of(window, place), Qt.Key.Key_Escape)
    assert window.page.goal.fields[place].text() in ("80", "7")


def test_changes_are_saved_under_a_name_of_their_own(
    start: Open, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    window = start()
    type_into(field_of(window, SEASONS.place), "5")
    assert window.isWindowModified()
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(tmp_path / "mine"), ""))
    window.menus.save.trigger()
    assert not window.isWindowModified()
    saved = load_plan(tmp_path / "mine.plan.json")
    original = load_plan(SAMPLE)
    assert saved == msgspec.structs.replace(original, goal=msgspec.structs.replace(original.goal, seasons=5))
    qtbot.waitUntil(lambda: window.document.complete)


def test_a_folder_that_cannot_be_written_to_is_told(start: Open, qtbot: QtBot, tmp_path: Path) -> None:
    window = start()
    type_into(field_of(window, SEASONS.place), "6")
    assert window.filing.save_to(tmp_path / "missing" / "mine.plan.json") is False
    box = window.findChild(QMessageBox)
    assert box is not None
    assert "was not saved" in box.text()
    box.close()
    assert window.document.has_unsaved_changes
    qtbot.waitUntil(lambda: window.document.complete)
    window.document.history.set_clean()
