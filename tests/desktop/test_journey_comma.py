"""The program started where numbers have a comma: typed, shown and printed with it; plans keep their point."""

from __future__ import annotations

import csv
import json
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from editing import type_into
from main_run import play
from PySide6.QtCore import QLocale
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QFileDialog
from pytestqt.qtbot import QtBot

from core.plan.read import load_plan
from desktop.forms.fields import SentenceField
from desktop.window import MainWindow


@pytest.fixture(autouse=True)
def _commas() -> Iterator[None]:
    before = QLocale()
    QLocale.setDefault(QLocale(QLocale.Language.German, QLocale.Country.Germany))
    yield
    QLocale.setDefault(before)


@pytest.fixture
def saved(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    path = tmp_path / "mine.plan.json"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(path), ""))
    return path


def field(window: MainWindow, place: str) -> SentenceField:
    found = window.page.goal.fields[place]
    assert isinstance(found, SentenceField)
    return found


def answered(window: MainWindow, qtbot: QtBot) -> None:
    chart = window.page.money.chart
    qtbot.waitUntil(lambda: window.document.complete and chart.is_current, timeout=30_000)


def test_numbers_are_typed_and_shown_with_a_comma(saved: Path, monkeypatch: pytest.MonkeyPatch, qtbot: QtBot) -> None:
    def journey(window: MainWindow) -> None:
        answered(window, qtbot)
        goal = window.page.goal
        for place, typed, kept, shown in (
            ("goal.budget", "1850,5", 1850.5, "1.850,50"),
            ("goal.budget", "2.100", 2100, "2.100"),
            ("goal.budget", "1850.25", 1850.25, "1.850,25"),
            ("goal.chance", "82,5", 0.825, "82,5"),
        ):
            type_into(field(window, place), typed)
            assert getattr(window.document.plan.goal, place.removeprefix("goal.")) == kept
            assert field(window, place).text() == shown
        answered(window, qtbot)
        assert "82,5 % sure" in goal.text()
        assert "at most 1.850,25 USD" in goal.text()
        assert re.search(r"Set aside \d\.\d{3}\.", window.page.answer.head.text())
        window.page.money.chart.copy_table()
        heads, *rows = [line.split("\t") for line in QGuiApplication.clipboard().text().split("\n")]
        assert heads[0] == "USD set aside"
        assert any(re.fullmatch(r"\d\.\d{3}", row[0]) for row in rows)
        window.filing.save_as()
        qtbot.waitUntil(saved.exists)

    play(monkeypatch, journey)
    goal = json.loads(saved.read_text("utf-8"))["goal"]
    assert (goal["budget"], goal["chance"]) == (1850.25, 0.825)
    assert load_plan(saved).goal.chance == 0.825


def test_a_table_for_a_spreadsheet_keeps_commas_apart(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, qtbot: QtBot
) -> None:
    path = tmp_path / "chart.csv"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(path), ""))

    def journey(window: MainWindow) -> None:
        answered(window, qtbot)
        window.page.route_actions.save.trigger()
        qtbot.waitUntil(lambda: path.exists() and path.stat().st_size > 0)

    play(monkeypatch, journey)
    heads, *rows = csv.reader(path.read_text("utf-8-sig").splitlines(), delimiter=";")
    assert len({len(row) for row in (heads, *rows)}) == 1
    assert any(re.fullmatch(r"\d\.\d{3}", cell) for row in rows for cell in row)
