"""This season, through the real window: a clutch entered, the answer moved, carried on, saved and read again."""

from __future__ import annotations

from pathlib import Path

import msgspec
import pytest
from main_run import play
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFileDialog
from pytestqt.qtbot import QtBot

from core.plan.model import Owned
from core.plan.read import load_plan
from core.season.believed import GeneBelief
from desktop.assumptions.page import AssumptionsPage
from desktop.files.saving import save_plan
from desktop.plan_files import SAMPLES
from desktop.season.page import CARRY_ON, HATCHED, MY_ANIMALS, NEXT, SeasonPage
from desktop.window import MainWindow
from desktop.words.carry_on import GOES, goes
from desktop.words.my_animals import belief_words
from desktop.words.numbers import PlainNumbers

MINE = SAMPLES / "boa-my-animals.plan.json"


@pytest.fixture
def small(tmp_path: Path) -> Path:
    """The sample with small litters and few routes, so that it is answered quickly."""
    plan = load_plan(MINE)
    clutch = msgspec.structs.replace(plan.species.clutch, mean=6, sd=1, min=4, max=8)
    species = msgspec.structs.replace(plan.species, clutch=clutch)
    routes = tuple(route for route in plan.routes if route.id in ("mine", "buy-dams", "outright"))
    path = tmp_path / "mine.plan.json"
    assert save_plan(msgspec.structs.replace(plan, species=species, routes=routes), path) is None
    return path


def opened(window: MainWindow, qtbot: QtBot) -> SeasonPage:
    qtbot.waitUntil(lambda: window.document.complete, timeout=30_000)
    qtbot.mouseClick(window.page.route_bar.season, Qt.MouseButton.LeftButton)
    page = window.views.page()
    assert isinstance(page, SeasonPage)
    settle(page, qtbot)
    return page


def settle(page: SeasonPage, qtbot: QtBot) -> None:
    qtbot.waitUntil(lambda: page.is_settled, timeout=30_000)


def test_a_clutch_moves_the_answer_and_the_plan_goes_on(
    small: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, qtbot: QtBot
) -> None:
    copy = tmp_path / "later.plan.json"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(copy), ""))

    def journey(window: MainWindow) -> None:
        page, document = opened(window, qtbot), window.document
        before = next(one.chance for one in document.found if one.id == "mine")
        page.animals.list.setCurrentRow(1)
        assert "66 % → 16 % het coal after 8 normal young" in page.animals.beliefs.text()
        page.show_tab(HATCHED)
        settle(page, qtbot)
        form = page.hatched.form
        # Boas bear their young.
        assert (page.tabs.tabText(HATCHED), form.enter.text()) == ("What was born", "Enter this litter")
        coal = next(row for row in form.rows.rows if row.key == "coal")
        qtbot.mouseClick(coal.steppers["female"].more, Qt.MouseButton.LeftButton)
        qtbot.mouseClick(form.slugs.more, Qt.MouseButton.LeftButton)
        qtbot.waitUntil(lambda: page.hatched.told.text() == "Hazel: 16 % → 100 % het coal, proven")
        qtbot.mouseClick(form.enter, Qt.MouseButton.LeftButton)
        assert len(document.plan.clutch_records) == 2
        assert document.plan.clutch_records[-1].slugs == 1
        assert form.record() is None
        assert page.hatched.records.hasFocus()
        qtbot.waitUntil(lambda: document.complete and page.is_settled, timeout=30_000)
        after = next(one.chance for one in document.found if one.id == "mine")
        assert after > before
        assert "Hazel: 16 % → 100 % het coal, proven" in page.hatched.difference.animals.text()
        assert page.hatched.difference.routes.as_text().startswith("Route\tbefore\tnow\nMy pair, Flint and Hazel\t")
        page.show_tab(NEXT)
        assert page.onward.begun.text().startswith("A litter of season 1 is recorded, yet all 6 seasons count as still")
        page.show_tab(CARRY_ON)
        names = [route.name for route in document.plan.routes if route.groups]
        page.carry.head.choice.setCurrentIndex(names.index("Flint, bought double hets"))
        page.carry.head.choice.activated.emit(names.index("Flint, bought double hets"))
        page.carry.spent.setFocus()
        page.carry.spent.selectAll()
        QTest.keyClicks(page.carry.spent, "740")
        QTest.keyClick(page.carry.spent, Qt.Key.Key_Return)
        assert page.carry.tells.text() == "Dams 1 becomes yours. 5 seasons are left."
        qtbot.mouseClick(page.carry.go, Qt.MouseButton.LeftButton)
        assert page.tabs.currentIndex() == MY_ANIMALS
        assert document.plan.already_spent == 740
        assert window.notices.text("step") == (
            "Carried on with “Flint, bought double hets”. Dams 1 becomes yours. 5 seasons are left. "
            "Already spent, and left out of every figure: 740 USD."
        )
        settle(page, qtbot)
        assert page.animals.list.count() == 3
        page.show_tab(NEXT)
        settle(page, qtbot)
        assert page.onward.begun.text() == ""
        assert page.onward.spent.text() == "Already spent, and left out of every figure: 740 USD."
        window.menus.save_as.trigger()

    play(monkeypatch, journey, small)
    plan = load_plan(copy)
    assert (plan.already_spent, plan.goal.seasons, len(plan.my_animals)) == (740, 5, 3)
    carried = next(route for route in plan.routes if route.id == "buy-dams")
    assert all(isinstance(group, Owned) for group in carried.groups)


def test_what_cannot_be_is_refused_beside_the_form(small: Path, monkeypatch: pytest.MonkeyPatch, qtbot: QtBot) -> None:
    plan = load_plan(small)
    cleared = msgspec.structs.replace(plan.my_animals[1], carries={})
    path = small.with_name("cleared.plan.json")
    assert (
        save_plan(msgspec.structs.replace(plan, my_animals=(plan.my_animals[0], cleared), clutch_records=()), path)
        is None
    )

    def journey(window: MainWindow) -> None:
        page = opened(window, qtbot)
        page.show_tab(HATCHED)
        settle(page, qtbot)
        form = page.hatched.form
        form.another.click()
        row = form.rows.rows[-1]
        choice, seen = row.genes["coal"]
        choice.setCurrentIndex(seen.index("coal") + 1)
        choice.activated.emit(seen.index("coal") + 1)
        row.steppers["any"].more.click()
        qtbot.waitUntil(page.hatched.refused.isVisible)
        assert page.hatched.refused.text() == "This litter cannot be as it stands: Flint × Hazel, season 1: 1 coal."
        assert "It could be if 1 young taken for coal was something else." in page.hatched.slips.text()
        assert not form.enter.isEnabled()
        qtbot.mouseClick(form.clear, Qt.MouseButton.LeftButton)
        settle(page, qtbot)
        assert not page.hatched.refused.isVisible()

    play(monkeypatch, journey, path)


def test_a_record_is_changed_removed_and_undone(small: Path, monkeypatch: pytest.MonkeyPatch, qtbot: QtBot) -> None:
    def journey(window: MainWindow) -> None:
        page, document = opened(window, qtbot), window.document
        old = document.plan.clutch_records
        page.show_tab(HATCHED)
        settle(page, qtbot)
        qtbot.mouseClick(page.hatched.change, Qt.MouseButton.LeftButton)
        form = page.hatched.form
        assert form.record() == old[0]
        normal = next(row for row in form.rows.rows if row.key == "normal")
        qtbot.mouseClick(normal.steppers["any"].less, Qt.MouseButton.LeftButton)
        settle(page, qtbot)
        qtbot.mouseClick(form.enter, Qt.MouseButton.LeftButton)
        (changed,) = document.plan.clutch_records
        assert sum(row.count for row in changed.young) == sum(row.count for row in old[0].young) - 1
        assert form.number is None
        qtbot.mouseClick(page.hatched.remove, Qt.MouseButton.LeftButton)
        assert document.plan.clutch_records == ()
        assert page.hatched.none.isVisible()
        document.undo()
        document.undo()
        assert document.plan.clutch_records == old
        settle(page, qtbot)

    play(monkeypatch, journey, small)


def test_ways_on_are_ranked_with_a_rule_to_stop(small: Path, monkeypatch: pytest.MonkeyPatch, qtbot: QtBot) -> None:
    def journey(window: MainWindow) -> None:
        page = opened(window, qtbot)
        page.show_tab(NEXT)
        names = [route.name for route in window.document.plan.routes if route.groups]
        page.onward.head.choice.activated.emit(names.index("My pair, Flint and Hazel"))
        settle(page, qtbot)
        rows = page.onward.ways.as_text().splitlines()[1:]
        assert any(row.startswith("Carry on as planned\t") for row in rows)
        assert any(row.startswith("Buy the finished animal\t2,200\t1\t100 %") for row in rows)
        assert page.onward.best.text()
        assert page.onward.rules.text() == (
            "Even after 24 more normal young, going on with Hazel would be no worse than without."
        )
        page.onward.head.choice.activated.emit(names.index("Flint, bought double hets"))
        settle(page, qtbot)
        assert page.onward.begun.text() == ""
        assert page.onward.rules.text().startswith("Nothing is in doubt about your females that a few more normal")

    play(monkeypatch, journey, small)


def test_without_animals_the_page_says_what_to_do(
    small: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, qtbot: QtBot
) -> None:
    plan = load_plan(small)
    path = tmp_path / "bare.plan.json"
    bare = msgspec.structs.replace(plan, my_animals=(), clutch_records=(), routes=plan.routes[-1:])
    assert save_plan(bare, path) is None

    def journey(window: MainWindow) -> None:
        qtbot.waitUntil(lambda: window.document.complete)
        assert not window.page.route_bar.season.isVisible()
        window.menus.season.trigger()
        page = window.views.page()
        assert isinstance(page, SeasonPage)
        assert page.empty.isVisible()
        qtbot.mouseClick(page.empty.add, Qt.MouseButton.LeftButton)
        assert isinstance(window.views.page(), AssumptionsPage)

    play(monkeypatch, journey, path)


def test_of_a_series_the_gene_is_named() -> None:
    plan = load_plan(SAMPLES / "hognose-series.plan.json")
    series = next(gene for gene in plan.genes if len(gene.alleles) > 1)
    belief = GeneBelief(series.id, "open", 0.5, 0.25, 2)
    told = belief_words(plan, belief, PlainNumbers())
    assert told == f"50 % → 25 % het {series.name.lower()} after 2 normal young"


def test_what_a_plan_that_begins_today_cannot_know_is_said() -> None:
    plan, replace = load_plan(MINE), msgspec.structs.replace
    row = replace(plan.goal.want[0], count=1)
    one = replace(plan, goal=replace(plan.goal, want=(row,)), species=replace(plan.species, reaches_breeding=0.9))
    pair = replace(one, goal=replace(one.goal, want=(row, row)))
    assert goes(one, kept=False) == GOES
    assert goes(one, kept=True) == f"{GOES} Young kept so far are taken to grow up and breed for sure."
    assert goes(pair, kept=False) == (f"{GOES} The goal still asks for all 2 animals: take off those that you have.")
