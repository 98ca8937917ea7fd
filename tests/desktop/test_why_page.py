"""What people do to understand an answer, through the window's real widgets."""

from __future__ import annotations

import json
from itertools import pairwise
from pathlib import Path

import msgspec
import numpy as np
import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QWidget
from pytestqt.qtbot import QtBot
from windows import Open

from core.explain.ladder import Ladder, Rung
from core.explain.numbers import PlainNumbers
from core.explain.truths import TRUTHS
from core.plan.read import load_plan
from desktop.evaluation import core_engine
from desktop.plan_files import SAMPLE, SAMPLES
from desktop.why.formula import Formula
from desktop.why.grid_view import GridView
from desktop.why.ladder_rows import ladder_rows
from desktop.why.page import THIS_BEATS_THAT, WhyPage
from desktop.why.people_view import PeopleView
from desktop.why.trap_view import TrapView
from desktop.window import MainWindow

HELD, FINISHED, OUTRIGHT = 3, 2, 6
HOSTILE = '<img src="x"> & <b>bold</b>'


def settled(qtbot: QtBot, window: MainWindow) -> WhyPage:
    """The open explanation, once it answers what was asked."""
    page = window.views.page()
    assert isinstance(page, WhyPage)
    qtbot.waitUntil(lambda: page.is_settled, timeout=20_000)
    return page


def explained(start: Open, qtbot: QtBot, route: int, path: Path | None = None) -> tuple[MainWindow, WhyPage]:
    window = start(path, engine=core_engine)
    window.document.select(window.document.found[route])
    QTest.mouseClick(window.page.steps.chance, Qt.MouseButton.LeftButton)
    return window, settled(qtbot, window)


def texts(page: QWidget) -> list[str]:
    return [label.text() for label in (*page.findChildren(QLabel), *page.findChildren(Formula))]


def test_why_this_chance_of_a_route_that_holds_back(start: Open, qtbot: QtBot) -> None:
    _, page = explained(start, qtbot, HELD)
    assert page.head.name.text() == "Amel dams, daughters back"
    assert page.chance.head.text() == "Textbook odds say more than 99 in 100 by season 7. Real odds are 75 in 100."
    shown = texts(page.chance)
    for said in (
        "sire × daughters: female amel + lavender visual",
        "lavender: 1 of 4 = 1/4",
        "1/2 × 1/4 × 1/2 = 1/16",
        "4 females × 12 eggs × 6 seasons = 288 eggs, each missing 31 times in 32.",
        "The trap: 4 daughters, each with 1 chance in 2 to carry lavender",
        "When none carries it, no number of young helps. That is 1 in 16 of those who try it.",
        "About 75 of 100 people who try this reach the goal.",
    ):
        assert said in shown
    assert page.chance.findChildren(GridView)
    assert page.chance.findChildren(TrapView)
    rows = page.chance.ladder.rows()
    assert [row.kind for row in rows] == ["textbook", *["rung"] * 7, "real"]
    assert rows[-1].figures == ("75.7",)


def test_the_other_end_shares_the_points_differently(start: Open, qtbot: QtBot) -> None:
    window, page = explained(start, qtbot, HELD)
    before = {row.label: row.figures for row in page.chance.ladder.rows()}
    page.chance.turn.setFocus()
    QTest.keyClick(page.chance.turn, Qt.Key.Key_Space)
    settled(qtbot, window)
    rows = page.chance.ladder.rows()
    assert rows[1].label == "Waiting for them to mature"
    after = {row.label: row.figures for row in rows}
    assert after.keys() == before.keys()
    assert after["Real odds"] == before["Real odds"]
    assert after["One true genotype per animal"] != before["One true genotype per animal"]
    assert page.chance.turn.hasFocus()
    assert "from the last to the first" in page.chance.order.text()


def test_another_season(start: Open, qtbot: QtBot) -> None:
    window, page = explained(start, qtbot, HELD)
    page.chance.head.choice.setFocus()
    QTest.keyClick(page.chance.head.choice, Qt.Key.Key_Up)
    settled(qtbot, window)
    assert page.chance.head.choice.currentText() == "6"
    one = window.document.selected
    assert one is not None
    assert one.result is not None
    assert page.chance.ladder.rows()[-1].figures == (f"{100 * one.result.chance_by_season[5]:.1f}",)


def test_why_this_beats_that(start: Open, qtbot: QtBot) -> None:
    window, page = explained(start, qtbot, HELD)
    page.tabs.setFocus()
    QTest.keyClick(page.tabs, Qt.Key.Key_Right)
    settled(qtbot, window)
    assert page.beats.head.text() == "Amel dams, daughters back, against Lavender sire, double hets"
    assert page.beats.lead.text().startswith("“Lavender sire, double hets” beats “Amel dams, daughters back”: ")
    assert len(page.beats.ladder.rows()[-1].figures) == 3
    kinds = page.beats.kinds
    assert [kinds.item(row, 0).text() for row in range(kinds.rowCount())] == [
        "Buying", "Keeping", "Eggs and young", "Together",
    ]  # fmt: skip
    assert page.beats.seasons.rowCount() == 7
    QTest.keyClick(kinds, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    copied = QGuiApplication.clipboard().text().splitlines()
    assert copied[0] == "\tAmel dams, daughters back\tLavender sire, double hets\tdifference"
    assert len(copied) == 5
    QTest.keyClick(page.beats.head.choice, Qt.Key.Key_Up)
    settled(qtbot, window)
    assert page.beats.head.text() == "Amel dams, daughters back, against Double hets, bred together"
    assert "“Double hets, bred together” beats “Amel dams, daughters back”" in page.beats.lead.text()


def test_two_ladders_add_up_as_they_are_told() -> None:
    """Down each column, and the difference too, though every figure is rounded by itself."""
    ladders = [_ladder((0.9049, 0.8555, 0.7004, 0.7004)), _ladder((0.8049, 0.7444, 0.6996, 0.5151))]
    rows = ladder_rows(load_plan(SAMPLE), ladders, 1, PlainNumbers())
    first, *rungs, last = [[float(text.replace("−", "-")) for text in row.figures] for row in rows]
    for column in range(3):
        told = first[column] + sum(figures[column] for figures in rungs)
        assert told == pytest.approx(last[column])


def _ladder(chances: tuple[float, ...]) -> Ladder:
    """Of one season: the textbook's chance, and that after each truth."""
    steps = [np.array([chance]) for chance in chances]
    return Ladder(
        tuple(Rung(truth, *step, True) for truth, step in zip(TRUTHS, pairwise(steps), strict=False)), False, None
    )


def test_nothing_to_explain_where_it_is_bought(start: Open, qtbot: QtBot) -> None:
    _, page = explained(start, qtbot, OUTRIGHT)
    assert "Nothing is bred: the finished animals are bought in season 1, so nothing is left to chance." in texts(
        page.chance
    )
    assert page.chance.findChild(PeopleView).accessibleName().startswith("100 of 100 reach the goal")


@pytest.mark.parametrize("name", [path.name for path in sorted(SAMPLES.glob("*.plan.json"))])
def test_every_sample_is_explained(start: Open, qtbot: QtBot, name: str) -> None:
    window, page = explained(start, qtbot, 0, SAMPLES / name)
    window.show_why(THIS_BEATS_THAT)
    settled(qtbot, window)
    assert page.beats.lead.text()


def test_a_grid_that_goes_to_the_next_line_is_seen(start: Open, qtbot: QtBot) -> None:
    window, page = explained(start, qtbot, 1, SAMPLES / "gecko-three-generations.plan.json")
    window.resize(1060, 800)
    window.show()
    grids = page.findChildren(GridView)
    assert len(grids) > 6
    qtbot.waitUntil(lambda: len({grid.parentWidget().y() for grid in grids}) > 1)
    blocks = [grid.parentWidget() for grid in grids]
    # A row that wraps asks for its height, and gets it with the next round of layouts.
    qtbot.waitUntil(lambda: all(block.parentWidget().rect().contains(block.geometry()) for block in blocks))


def test_wide_grids_take_a_column_of_their_own(start: Open, qtbot: QtBot, tmp_path: Path) -> None:
    plan = json.loads((SAMPLES / "corn-linked.plan.json").read_text())
    for gene in plan["genes"]:
        gene["forms"] = {genotype: f"{form} morph" for genotype, form in gene["forms"].items()}
    for want in plan["goal"]["want"]:
        want["forms"] = {gene: f"{form} morph" for gene, form in want["forms"].items()}
    path = tmp_path / "wide.plan.json"
    path.write_text(json.dumps(plan))
    window, page = explained(start, qtbot, 0, path)
    window.resize(1280, 800)
    qtbot.waitUntil(lambda: page.chance.columns.right.parentWidget().x() == 0)
    assert page.area.horizontalScrollBar().maximum() == 0
    window.resize(1920, 1080)
    qtbot.waitUntil(lambda: page.chance.columns.right.parentWidget().x() > 0)


def test_an_edit_is_followed_and_undone(start: Open, qtbot: QtBot) -> None:
    window, page = explained(start, qtbot, HELD)
    plan = window.document.plan
    goal = msgspec.structs.replace(plan.goal, seasons=6)
    assert not window.document.edit(msgspec.structs.replace(plan, goal=goal), "the seasons")
    assert not page.is_settled
    settled(qtbot, window)
    assert page.chance.head.choice.count() == 6
    window.document.undo()
    settled(qtbot, window)
    assert page.chance.head.choice.count() == 7


def test_escape_leads_back_and_nothing_goes_on(start: Open, qtbot: QtBot) -> None:
    window, page = explained(start, qtbot, HELD)
    QTest.keyClick(page.tabs, Qt.Key.Key_Escape)
    qtbot.waitUntil(lambda: window.views.page() is None)
    window.menus.why_beats.trigger()
    again = settled(qtbot, window)
    assert again.tabs.currentIndex() == THIS_BEATS_THAT
    QTest.mouseClick(again.head.back, Qt.MouseButton.LeftButton)
    assert window.views.page() is None


def test_names_from_strangers_are_shown_as_typed(start: Open, qtbot: QtBot, tmp_path: Path) -> None:
    plan = json.loads(SAMPLE.read_text("utf-8"))
    for part in (*plan["routes"], *plan["genes"]):
        part["name"] = HOSTILE
    path = tmp_path / "hostile.plan.json"
    path.write_text(json.dumps(plan), "utf-8")
    window, page = explained(start, qtbot, HELD, path)
    window.show_why(THIS_BEATS_THAT)
    settled(qtbot, window)
    assert page.head.name.text() == HOSTILE
    for label in page.findChildren(QLabel):
        assert label.textFormat() == Qt.TextFormat.PlainText
    assert not window.grab().isNull()


def test_everything_that_takes_focus_has_a_name(start: Open, qtbot: QtBot) -> None:
    window, page = explained(start, qtbot, FINISHED)
    window.show_why(THIS_BEATS_THAT)
    settled(qtbot, window)
    nameless = [
        type(widget).__name__
        for widget in page.findChildren(QWidget)
        if widget.focusPolicy() & Qt.FocusPolicy.TabFocus
        and not (widget.accessibleName() or getattr(widget, "text", str)())
        and not widget.objectName().startswith("qt_")
    ]
    assert set(nameless) <= {"QScrollArea"}
