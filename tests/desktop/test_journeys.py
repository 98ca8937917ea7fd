"""What people do with the window, through its real widgets."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from PySide6.QtCore import QModelIndex, QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QWidget
from pytestqt.qtbot import QtBot
from windows import Open

from desktop.evaluation import Engine
from desktop.faults_dialog import FaultsDialog
from desktop.panels.routes.columns import COLUMNS
from desktop.plan_files import SAMPLE
from desktop.theme import DARK, colours_of
from desktop.window import MainWindow

HOSTILE = '<img src="x"> & <b>bold</b>'


def shown_in(window: MainWindow, row: int, head: str) -> str:
    column = next(place for place, column in enumerate(COLUMNS) if column.head == head)
    return str(window.page.routes.model().index(row, column).data())


def sample_with(tmp_path: Path, **changes: object) -> Path:
    plan = json.loads(SAMPLE.read_text("utf-8")) | changes
    path = tmp_path / "changed.plan.json"
    path.write_text(json.dumps(plan), "utf-8")
    return path


def test_the_sample_opens_with_an_answer(start: Open) -> None:
    page = start().page
    assert page.goal.text() == (
        "I want 1 female amel + lavender visual, 80 % sure, within 7 seasons, for at most 1,800 USD"
    )
    assert page.answer.head.text() == "Cheapest: Lavender sire, double hets. Set aside 1,556."
    assert page.answer.people.dots.share() == 80
    assert page.footer.text().startswith("Odds, not promises.")
    assert "invented" in page.footer.text()


def test_the_cheapest_stands_first_and_is_named(start: Open) -> None:
    window = start()
    assert shown_in(window, 0, "Route") == "Lavender sire, double hets"
    assert shown_in(window, 0, "Set aside") == "1,556"
    assert shown_in(window, 0, "With") == "1.2"
    assert shown_in(window, 6, "Set aside") == "not in 7 seasons"
    assert window.page.routes.rows.cell(0, 0).winner
    assert "cheapest" in window.page.routes.model().index(0, 0).data(Qt.ItemDataRole.AccessibleTextRole)


def test_a_row_is_chosen_by_keyboard(start: Open) -> None:
    page = start().page
    page.routes.setFocus()
    QTest.keyClick(page.routes, Qt.Key.Key_Down)
    assert page.steps.name.text() == "Double hets, bred together"
    QTest.keyClick(page.routes, Qt.Key.Key_End, Qt.KeyboardModifier.ControlModifier)
    assert page.steps.name.text() == "Visuals, young together"


def test_sorting_keeps_the_choice_and_puts_the_unreached_last(start: Open) -> None:
    window = start()
    table = window.page.routes
    header = table.horizontalHeader()
    spot = QPoint(header.sectionViewportPosition(0) + 40, 10)
    QTest.mouseClick(header.viewport(), Qt.MouseButton.LeftButton, pos=spot)
    names = [shown_in(window, row, "Route") for row in range(table.model().rowCount())]
    assert names[:5] == sorted(names[:5])
    assert shown_in(window, 5, "Set aside") == "not in 7 seasons"
    assert shown_in(window, table.currentIndex().row(), "Route") == "Lavender sire, double hets"


def test_a_broken_file_is_told_and_the_plan_stays(start: Open, qtbot: QtBot, tmp_path: Path) -> None:
    window = start()
    broken = tmp_path / "broken.plan.json"
    broken.write_text('{"format": "pairwright-plan", "version": 1, "title": 3}', "utf-8")
    window.filing.open(broken)
    dialog = window.findChild(FaultsDialog)
    assert dialog is not None
    qtbot.waitUntil(dialog.isVisible)
    assert dialog.head.text().startswith("broken.plan.json was not opened:")
    assert "title" in dialog.list.toPlainText()
    assert window.page.answer.head.text().startswith("Cheapest: Lavender sire")
    dialog.reject()


def test_a_broken_file_on_the_command_line_opens_the_sample(start: Open, tmp_path: Path) -> None:
    window = start(tmp_path / "absent.plan.json")
    dialog = window.findChild(FaultsDialog)
    assert dialog is not None
    assert (
        dialog.head.text() == "absent.plan.json was not opened: it is no plan that can be read. Your plan is as it was."
    )
    assert window.page.answer.head.text().startswith("Cheapest:")
    dialog.reject()


def test_another_plan_replaces_the_first(start: Open, qtbot: QtBot, tmp_path: Path) -> None:
    window = start()
    window.filing.open(sample_with(tmp_path, title="Another", currency="EUR"))
    qtbot.waitUntil(lambda: window.document.complete)
    assert window.windowTitle().startswith("Another")
    assert window.page.goal.text().endswith("EUR")
    window.menus.samples.aboutToShow.emit()
    window.menus.samples.actions()[0].trigger()
    qtbot.waitUntil(lambda: window.page.goal.text().endswith("USD"))


def test_names_from_strangers_are_shown_as_typed(start: Open, tmp_path: Path) -> None:
    plan = json.loads(SAMPLE.read_text("utf-8"))
    for route in plan["routes"]:
        route["name"] = HOSTILE
    path = sample_with(tmp_path, title=HOSTILE, notes=HOSTILE, routes=plan["routes"])
    window = start(path)
    assert window.page.answer.head.text() == f"Cheapest: {HOSTILE}. Set aside 1,556."
    assert window.page.steps.name.text() == HOSTILE
    tip = window.page.routes.model().index(0, 0).data(Qt.ItemDataRole.ToolTipRole)
    assert "<img" not in tip
    assert "&lt;img" in tip
    for label in window.findChildren(QLabel):
        assert label.textFormat() == Qt.TextFormat.PlainText
    assert not window.grab().isNull()


def test_a_failure_becomes_a_sentence(start: Open) -> None:
    def engine() -> Engine:
        raise RuntimeError("nothing a person should read")

    window = start(engine=engine)
    assert window.page.answer.head.text() == "No route could be worked out."
    assert "nothing a person" not in window.page.answer.lead.text()
    assert shown_in(window, 0, "Set aside") == "not worked out"


def test_chance_by_season_is_one_tab_away(start: Open) -> None:
    eggs = start().page.eggs
    eggs.tabs.setFocus()
    QTest.keyClick(eggs.tabs, Qt.Key.Key_Right)
    assert eggs.tabs.currentIndex() == 1
    assert eggs.current().accessibleDescription().startswith("Chance by season")


def test_dark_is_chosen_from_the_menu(start: Open, qtbot: QtBot) -> None:
    window = start()
    window.menus.schemes.actions()[2].trigger()
    qtbot.waitUntil(lambda: colours_of(window.page.palette()).dark)
    picture = window.grab().toImage()
    plot = window.page.money.chart.canvas.view
    for spot in (QPoint(4, 400), plot.mapTo(window, QPoint(4, 90))):
        assert picture.pixelColor(spot).name().upper() == DARK.page


def test_everything_that_takes_focus_has_a_name(start: Open) -> None:
    window = start()
    nameless = [
        type(widget).__name__
        for widget in window.page.findChildren(QWidget)
        if widget.focusPolicy() & Qt.FocusPolicy.TabFocus and not widget.focusProxy() and not widget.accessibleName()
    ]
    assert nameless == []


@pytest.mark.parametrize("name", ["money", "eggs"])
def test_five_hundred_repaints(start: Open, name: str) -> None:
    window = start()
    canvas = getattr(window.page, name).chart.canvas
    canvas.setFixedSize(440, 168)
    for _ in range(500):
        canvas.grab()
    assert window.page.routes.model().rowCount(QModelIndex()) == 7
