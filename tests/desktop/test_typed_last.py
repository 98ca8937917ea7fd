"""What is still being typed is part of the plan: it is asked about on closing, and saved."""

from __future__ import annotations

from pathlib import Path

import pytest
from main_run import play
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFileDialog, QLineEdit
from pytestqt.qtbot import QtBot

from core.plan.read import load_plan
from desktop.files import asking
from desktop.files.asking import Choice
from desktop.window import MainWindow


def type_a_name(window: MainWindow, qtbot: QtBot) -> str:
    """Begins to rename the first route in the list, and gives its id."""
    qtbot.waitUntil(lambda: window.document.complete)
    routes = window.page.routes
    routes.setFocus()
    QTest.keyClick(routes, Qt.Key.Key_F2)
    editor = routes.findChild(QLineEdit)
    assert editor is not None
    QTest.keyClicks(editor, "My own way")
    assert window.document.selected is not None
    return window.document.selected.id


def name_of(window: MainWindow, route: str) -> str:
    return next(one.name for one in window.document.plan.routes if one.id == route)


@pytest.mark.parametrize("choice", [Choice.STAY, Choice.DROP])
def test_closing_asks_about_a_name_that_is_being_typed(
    monkeypatch: pytest.MonkeyPatch, qtbot: QtBot, choice: Choice
) -> None:
    asked: list[str] = []

    def about(_window: object, said: str, _question: str) -> Choice:
        asked.append(said)
        return choice

    monkeypatch.setattr(asking, "about_unsaved", about)

    def journey(window: MainWindow) -> None:
        route = type_a_name(window, qtbot)
        window.close()
        assert len(asked) == 1
        assert name_of(window, route) == "My own way"
        assert window.isVisible() == (choice is Choice.STAY)

    play(monkeypatch, journey)


def test_saving_takes_a_price_that_is_being_typed(
    monkeypatch: pytest.MonkeyPatch, qtbot: QtBot, tmp_path: Path
) -> None:
    file = tmp_path / "mine.plan.json"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(file), ""))

    def journey(window: MainWindow) -> None:
        qtbot.waitUntil(lambda: window.document.complete)
        field = window.page.goal.findChild(QLineEdit)
        assert field is not None
        field.setFocus()
        field.selectAll()
        QTest.keyClicks(field, "2")
        window.menus.save.trigger()
        assert not window.document.has_unsaved_changes
        assert field.hasFocus()
        assert load_plan(file) == window.document.plan
        assert sum(want.count for want in load_plan(file).goal.want) == 2

    play(monkeypatch, journey)
