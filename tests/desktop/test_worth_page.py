"""What people do to learn what an animal is worth, and what the answer hangs on, through the window's real widgets."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel
from pytestqt.qtbot import QtBot
from windows import Open

from core.plan.model import Bought
from desktop.assumptions.items import Items
from desktop.assumptions.page import AssumptionsPage
from desktop.evaluation import core_engine
from desktop.forms.fields import SentenceField
from desktop.plan_files import SAMPLES
from desktop.window import MainWindow
from desktop.worth import page as page_module
from desktop.worth.page import MATTERS, WORTH, WorthPage
from desktop.worth.table import SentenceTable

ROYALS = SAMPLES / "royal-possible-hets.plan.json"
ASKED, UP_TO, BUY, OTHERWISE = 1, 2, 4, 5
HOSTILE = '<img src="x"> & <b>bold</b>'


@pytest.fixture(autouse=True)
def _without_the_search(monkeypatch: pytest.MonkeyPatch) -> None:
    """It takes a while, and begins only once nothing else is asked."""
    monkeypatch.setattr(page_module, "PATIENCE_MS", 3_600_000)


@pytest.fixture
def window(start: Open) -> MainWindow:
    return start(ROYALS, engine=core_engine)


@pytest.fixture
def short(start: Open, tmp_path: Path) -> MainWindow:
    """One route over three seasons, so that what takes long takes little."""
    plan = json.loads(ROYALS.read_text("utf-8"))
    plan["goal"]["seasons"], plan["routes"] = 3, plan["routes"][-1:]
    path = tmp_path / "short.plan.json"
    path.write_text(json.dumps(plan), "utf-8")
    return start(path, engine=core_engine)


def settled(qtbot: QtBot, window: MainWindow) -> WorthPage:
    """The open page, once it answers the plan as it is."""
    page = window.views.page()
    assert isinstance(page, WorthPage)
    qtbot.waitUntil(lambda: page.is_settled, timeout=20_000)
    return page


def cells(table: SentenceTable, row: int) -> list[str]:
    return [cell.text for cell in table.rows[row].cells]


def test_what_is_worth_paying(window: MainWindow, qtbot: QtBot) -> None:
    QTest.mouseClick(window.page.route_bar.worth, Qt.MouseButton.LeftButton)
    page = window.views.page()
    assert isinstance(page, WorthPage)
    # What is coming stands where it will be, in the size of an answer.
    assert page.waiting.isVisible()
    assert page.waiting.text() == "Finding out the most that each animal is worth…"
    page = settled(qtbot, window)
    assert not page.waiting.isVisible()
    table = page.worth.table
    assert page.worth.head.text() == "Best buy: Double het female, worth up to 631."
    assert "20 plans compared." in page.worth.lead.text()
    assert cells(table, 0) == [
        "Double het female",
        "500",
        "631",
        "asked 500, worth up to 631",
        "yes, 131 under what it is worth to you",
        "Double het male × Ghost female, 66 % het pied: 2,890",
    ]
    assert [row.cells[BUY].text.partition(",")[0] for row in table.rows] == ["yes", "yes", "no", "no", "no"]
    table.setFocus()
    QTest.keyClick(table, Qt.Key.Key_Down)
    assert page.worth.reason.text() == (
        "The best plan with it is “Double hets, bred together”: set aside 2,626. "
        "“Pied sire, double hets” takes 2,689: above 413 it is cheaper."
    )
    QTest.keyClick(table, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    assert len(QGuiApplication.clipboard().text().splitlines()) == 6


def test_better_plans_are_searched_for(short: MainWindow, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(page_module, "PATIENCE_MS", 0)
    said: list[str] = []
    short.show_worth(WORTH)
    page = short.views.page()
    assert isinstance(page, WorthPage)
    qtbot.waitUntil(lambda: "Searching" in page.state.text() and page.worth.table.rowCount() > 0, timeout=20_000)
    few = page.worth.lead.text()
    qtbot.waitUntil(lambda: page.is_settled and page.worth.lead.text() != few, timeout=20_000)
    said += cells(page.worth.table, 0)
    # It is kept for the next time.
    short.views.close_page()
    short.show_worth(WORTH)
    page = settled(qtbot, short)
    assert cells(page.worth.table, 0) == said


def test_at_its_worth_the_answer_changes_hands(window: MainWindow, qtbot: QtBot) -> None:
    document = window.document
    assert document.verdict.winner == "hets"
    plan = document.plan
    dearer = tuple(
        replace(route, groups=tuple(_at(group, 414) if isinstance(group, Bought) else group for group in route.groups))
        for route in plan.routes
    )
    assert not document.edit(replace(plan, routes=dearer), "a price")
    qtbot.waitUntil(lambda: document.complete)
    assert document.verdict.winner == "pied-sire"


def _at(group: Bought, price: int) -> Bought:
    return replace(group, price=price) if group.sex == "male" and group.price == 350 else group


def test_what_matters_most(window: MainWindow, qtbot: QtBot) -> None:
    window.menus.matters.trigger()
    page = settled(qtbot, window)
    sheet = page.matters
    assert sheet.head.text() == "Males that breed: this matters most to Double hets, bred together."
    assert cells(sheet.table, 0) == [
        "Males that breed",
        "80 %: out of reach, 71 in 100; 100 %: 2,516",
        "At 90 %: Pied sire, double hets; at 80 %: Buy the finished snake\nAt 97 % or more: Pied sire, double hets",
    ]
    assert sheet.reason.text().splitlines() == [
        "Common practice, without a source. Some males never do; a proven one has shown that he does.",
        "With the animals as they are now, the chance by season 6 goes from 71 to 88 in 100 over that range; "
        "84 as planned.",
        "At 90 %, “Pied sire, double hets” is cheapest: set aside 2,838. At 80 %, “Buy the finished snake” is "
        "cheapest. At 97 % or more, “Pied sire, double hets” is cheapest: set aside 2,395. "
        "At 91 % and at 96 % it is still “Double hets, bred together”.",
    ]
    assert sheet.idle.text().startswith("No difference here within its range: females that one male serves")
    QTest.keyClick(sheet.head.choice, Qt.Key.Key_Down)
    assert sheet.head.text().endswith("this matters most to Pied sire, double hets.")
    assert "As planned it asks for 2,689." in sheet.lead.text()


def test_every_value_is_tried_for_who_stays(short: MainWindow, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(page_module, "PATIENCE_MS", 0)
    short.show_worth(MATTERS)
    page = short.views.page()
    assert isinstance(page, WorthPage)
    table = page.matters.table
    qtbot.waitUntil(lambda: "Trying every value" in page.state.text() and table.rowCount() > 0, timeout=20_000)
    assert {row.cells[-1].text for row in table.rows} == {"not at either end"}
    table.selectRow(table.rowCount() - 1)
    chosen = table.rows[-1].key
    qtbot.waitUntil(lambda: table.rows[0].cells[-1].text == "never", timeout=20_000)
    assert {row.cells[-1].text for row in table.rows} == {"never"}
    assert table.rows[table.currentRow()].key == chosen
    assert settled(qtbot, short) is page


def typed(field: SentenceField, text: str) -> None:
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, text)
    QTest.keyClick(field, Qt.Key.Key_Return)


def test_a_range_of_ones_own(window: MainWindow, qtbot: QtBot) -> None:
    window.show_worth(MATTERS)
    page = settled(qtbot, window)
    sheet = page.matters
    assert (sheet.range.low.text(), sheet.range.high.text()) == ("80", "100")
    assert not sheet.range.usual.isVisible()
    typed(sheet.range.low, "93")
    settled(qtbot, window)
    row = sheet.table.currentRow()
    assert row > 0
    assert cells(sheet.table, row)[0] == "Males that breed"
    assert cells(sheet.table, row)[1].startswith("93 %: 2,")
    assert sheet.reason.text().startswith("Your own range.")
    assert sheet.range.low.hasFocus()
    typed(sheet.range.low, "97")
    assert sheet.range.refusal.text() == ("A range goes up from one end to the other, and holds 95 %, as planned.")
    QTest.keyClick(sheet.range.low, Qt.Key.Key_Escape)
    assert not sheet.range.refusal.isVisible()
    assert sheet.range.low.text() == "93"
    typed(sheet.range.high, "most")
    assert "is not a number" in sheet.range.refusal.text()
    QTest.keyClick(sheet.range.high, Qt.Key.Key_Escape)
    QTest.mouseClick(sheet.range.usual, Qt.MouseButton.LeftButton)
    settled(qtbot, window)
    assert cells(sheet.table, 0)[1].startswith("80 %: out of reach")


def test_a_route_that_is_out_of_reach_shows_chances(window: MainWindow, qtbot: QtBot) -> None:
    window.document.select(next(one for one in window.document.found if one.id == "ph50"))
    window.show_worth(MATTERS)
    sheet = settled(qtbot, window).matters
    assert sheet.lead.text().startswith("As planned it is out of reach, ")
    assert sheet.table.horizontalHeaderItem(1).text() == "Chance at both ends of its range"
    assert " in 100" in cells(sheet.table, 0)[1]


def test_the_row_stays_when_the_plan_changes(window: MainWindow, qtbot: QtBot) -> None:
    window.show_worth(WORTH)
    page = settled(qtbot, window)
    table = page.worth.table
    table.setFocus()
    table.setCurrentCell(2, 0)
    chosen = cells(table, 2)[0]
    plan = window.document.plan
    goal = replace(plan.goal, outright_price=2650)
    assert not window.document.edit(replace(plan, goal=goal), "the price of the finished animal")
    settled(qtbot, window)
    assert cells(table, table.currentRow())[0] == chosen
    assert table.hasFocus()
    assert cells(table, 0)[OTHERWISE].startswith("Buy the finished snake: 2,650")
    window.document.undo()
    settled(qtbot, window)
    assert cells(table, 0)[UP_TO] == "631"


def test_a_plan_behind_a_price_becomes_a_route(window: MainWindow, qtbot: QtBot) -> None:
    window.show_worth(WORTH)
    page = settled(qtbot, window)
    before = cells(page.worth.table, 0)
    assert not page.worth.add_with.isVisible()
    QTest.mouseClick(page.worth.add_without, Qt.MouseButton.LeftButton)
    settled(qtbot, window)
    assert window.document.plan.routes[-1].name == "Double het male × Ghost female, 66 % het pied"
    # It was compared before, so that no price moves.
    assert cells(page.worth.table, 0) == before
    assert not page.worth.add_without.isVisible()
    window.document.undo()
    settled(qtbot, window)
    assert page.worth.add_without.isVisible()


def test_a_hidden_route_has_no_say(window: MainWindow, qtbot: QtBot) -> None:
    window.document.hide(["pied-sire"], "a route")
    window.show_worth(MATTERS)
    sheet = settled(qtbot, window).matters
    assert all(
        "Pied sire, double hets" not in text
        for row in range(sheet.table.rowCount())
        for text in cells(sheet.table, row)
    )


def test_from_what_is_for_sale_and_back_by_escape(window: MainWindow, qtbot: QtBot) -> None:
    window.show_assumptions("sale")
    assumptions = window.views.page()
    assert isinstance(assumptions, AssumptionsPage)
    section = assumptions.section
    assert isinstance(section, Items)
    QTest.mouseClick(section.worth, Qt.MouseButton.LeftButton)
    page = settled(qtbot, window)
    assert page.tabs.currentIndex() == WORTH
    QTest.keyClick(page.tabs, Qt.Key.Key_Escape)
    qtbot.waitUntil(lambda: window.views.page() is None)


def test_left_at_once_it_gives_up(window: MainWindow, qtbot: QtBot) -> None:
    window.show_worth(WORTH)
    window.views.close_page()
    window.show_worth(MATTERS)
    page = settled(qtbot, window)
    assert page.matters.table.rowCount() > 5


def test_nothing_to_tell(start: Open, qtbot: QtBot, tmp_path: Path) -> None:
    plan = json.loads(ROYALS.read_text("utf-8"))
    plan["for_sale"], plan["routes"] = [], plan["routes"][-1:]
    path = tmp_path / "bare.plan.json"
    path.write_text(json.dumps(plan), "utf-8")
    window = start(path, engine=core_engine)
    window.show_worth(WORTH)
    page = settled(qtbot, window)
    assert page.worth.head.text() == "Nothing is for sale in this plan, and no route buys anything."
    page.show_tab(MATTERS)
    settled(qtbot, window)
    assert page.matters.head.text().startswith("Price of the finished animals: this matters most to")


def test_before_there_are_routes(start: Open, qtbot: QtBot, tmp_path: Path) -> None:
    plan = json.loads(ROYALS.read_text("utf-8"))
    plan["routes"] = []
    path = tmp_path / "new.plan.json"
    path.write_text(json.dumps(plan), "utf-8")
    window = start(path, engine=core_engine, wait=False)
    window.menus.worth.trigger()
    page = settled(qtbot, window)
    # What can be bought is compared all the same, as pairs.
    assert cells(page.worth.table, 0)[0] == "Double het female"
    assert page.worth.add_with.isVisible()
    page.show_tab(MATTERS)
    settled(qtbot, window)
    assert page.state.text() == "There is no route with an answer yet."
    assert not page.matters.isVisible()


def test_names_from_strangers_are_shown_as_typed(start: Open, qtbot: QtBot, tmp_path: Path) -> None:
    plan = json.loads(ROYALS.read_text("utf-8"))
    for route in plan["routes"]:
        route["name"] = HOSTILE
    for offer in plan["for_sale"]:
        offer["label"] = HOSTILE
    path = tmp_path / "hostile.plan.json"
    path.write_text(json.dumps(plan), "utf-8")
    window = start(path, engine=core_engine)
    for tab in (WORTH, MATTERS):
        window.show_worth(tab)
        page = settled(qtbot, window)
        assert all(label.textFormat() == Qt.TextFormat.PlainText for label in page.findChildren(QLabel))
    assert cells(page.worth.table, 0)[0].partition(" (")[0] == HOSTILE
    assert not window.grab().isNull()
