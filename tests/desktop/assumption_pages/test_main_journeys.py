"""The program started as it is, its assumptions changed, saved and read again."""

from __future__ import annotations

from pathlib import Path

import pytest
from main_run import play
from msgspec.structs import replace
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog, QWidget
from pytestqt.qtbot import QtBot

from core.plan.model import Gene
from core.plan.read import load_plan
from desktop.assumptions.items import Items
from desktop.assumptions.page import AssumptionsPage
from desktop.forms.fields import SentenceField
from desktop.paste.window import PasteWindow
from desktop.plan_files import SAMPLE
from desktop.window import MainWindow

ALL = Qt.KeyboardModifier.ControlModifier


def press(key: Qt.Key, modifier: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
    target = QApplication.focusWidget()
    assert target is not None
    QTest.keyClick(target, key, modifier)


def awake(window: MainWindow, qtbot: QtBot) -> None:
    window.activateWindow()
    # While routes are worked out, one can stop that with a word that Tab stops at.
    qtbot.waitUntil(lambda: window.isActiveWindow() and window.document.complete, timeout=20_000)


def page_of(window: MainWindow) -> AssumptionsPage:
    page = window.views.page()
    assert isinstance(page, AssumptionsPage)
    return page


def focused() -> QWidget:
    found = QApplication.focusWidget()
    assert found is not None
    return found


@pytest.fixture
def saved(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    path = tmp_path / "mine.plan.json"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(path), ""))
    return path


def test_by_keyboard_a_cost_is_changed_and_saved(saved: Path, monkeypatch: pytest.MonkeyPatch, qtbot: QtBot) -> None:
    def journey(window: MainWindow) -> None:
        awake(window, qtbot)
        window.page.goal.fields["goal.chance"].setFocus()
        press(Qt.Key.Key_Comma, ALL)
        page = page_of(window)
        assert focused() is page.sections
        while page.sections.currentIndex().data() != "Costs":
            press(Qt.Key.Key_Down)
        press(Qt.Key.Key_Tab)
        field = focused()
        assert isinstance(field, SentenceField)
        assert field.accessibleName() == "To set up"
        field.selectAll()
        QTest.keyClicks(field, "75")
        press(Qt.Key.Key_Return)
        assert window.document.plan.costs.setup == 75
        assert focused() is field
        press(Qt.Key.Key_Escape)
        assert window.views.page() is None
        assert focused() is window.page.goal.fields["goal.chance"]
        press(Qt.Key.Key_S, ALL)

    play(monkeypatch, journey)
    sample = load_plan(SAMPLE)
    assert load_plan(saved) == replace(sample, costs=replace(sample.costs, setup=75))


def test_by_mouse_a_gene_is_added_named_and_wanted(saved: Path, monkeypatch: pytest.MonkeyPatch, qtbot: QtBot) -> None:
    left = Qt.MouseButton.LeftButton

    def journey(window: MainWindow) -> None:
        awake(window, qtbot)
        QTest.mouseClick(window.page.goal.assumptions, left)
        page = page_of(window)
        row = next(i for i in range(12) if page.sections.model().index(i, 0).data() == "Genes")
        QTest.mouseClick(page.sections.viewport(), left, pos=_middle(page, row))
        items = page.section
        assert isinstance(items, Items)
        items.add_by(items.listing.adding(window.document.plan)[0])
        name = focused()
        assert isinstance(name, SentenceField)
        QTest.keyClicks(name, "Ember")
        press(Qt.Key.Key_Return)
        QTest.mouseClick(page.head.finish, left)
        assert [gene.name for gene in window.document.plan.genes] == ["Amelanistic", "Lavender", "Ember"]
        window.menus.save.trigger()

    play(monkeypatch, journey)
    added = load_plan(saved).genes[2]
    assert added == Gene(id="gene-1", name="Ember", alleles=("b",), forms={"b/b": "ember"})


def _middle(page: AssumptionsPage, row: int) -> QPoint:
    return page.sections.visualRect(page.sections.model().index(row, 0)).center()


@pytest.mark.parametrize(("section", "place"), [("sale", 0), ("mine", 1)])
def test_a_list_is_pasted_where_its_animals_are_listed(
    monkeypatch: pytest.MonkeyPatch, qtbot: QtBot, section: str, place: int
) -> None:
    def journey(window: MainWindow) -> None:
        window.show_assumptions(section)
        part = page_of(window).section
        assert isinstance(part, Items)
        qtbot.mouseClick(part.paste, Qt.MouseButton.LeftButton)
        dialog = window.findChild(PasteWindow)
        assert dialog is not None
        assert dialog.target.currentIndex() == place
        dialog.reject()
        window.show_assumptions("genes")
        other = page_of(window).section
        assert isinstance(other, Items)
        assert not other.paste.isVisible()

    play(monkeypatch, journey)
