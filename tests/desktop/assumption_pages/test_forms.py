"""Plan assumptions in sentences: numbers change the plan at once, and what cannot be is refused beside its field."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import msgspec
import pytest
from editing import type_into
from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot
from windows import Open

from core.plan.model import Clutch
from core.plan.places import value_at
from desktop.assumptions.counts import CountsSlot
from desktop.assumptions.page import AssumptionsPage
from desktop.assumptions.presets import PresetsSlot
from desktop.forms.fields import SentenceChoice, SentenceField
from desktop.forms.sheet import Sheet
from desktop.forms.slots import ChoiceSlot, ProseSlot, TextSlot
from desktop.window import MainWindow

OpenAt = Callable[[str], tuple[MainWindow, Sheet]]


@pytest.fixture
def open_at(start: Open) -> Any:
    def open_it(section: str) -> tuple[MainWindow, Sheet]:
        window = start()
        window.show_assumptions()
        page = window.views.page()
        assert isinstance(page, AssumptionsPage)
        page.show_section(section)
        assert isinstance(page.section, Sheet)
        return window, page.section

    return open_it


def field_at(sheet: Sheet, place: str) -> SentenceField:
    slot = sheet.slot_of(place)
    assert isinstance(slot, TextSlot)
    return slot.edit


def choose(sheet: Sheet, place: str, index: int) -> None:
    slot = sheet.slot_of(place)
    assert isinstance(slot, ChoiceSlot)
    slot.choice.setCurrentIndex(index)
    slot.choice.activated.emit(index)


@pytest.mark.parametrize(
    ("section", "place", "typed", "value"),
    [
        ("species", "species.lays", "72.5", 0.725),
        ("species", "species.lays", "2/3", "2/3"),
        ("species", "species.breeds.female", "100", 1),
        ("species", "species.matures.male", "3", 3),
        ("species", "species.clutch.sd", "2.5", 2.5),
        ("costs", "costs.keep_adult", "12.50", 12.5),
        ("about", "currency", "EUR", "EUR"),
        ("about", "simulation.runs", "5,000", 5000),
    ],
)
def test_a_typed_value_is_in_the_plan_and_undone(
    open_at: OpenAt, section: str, place: str, typed: str, value: object
) -> None:
    window, sheet = open_at(section)
    before = window.document.plan
    type_into(field_at(sheet, place), typed)
    assert value_at(window.document.plan, place) == value
    window.menus.undo.trigger()
    assert window.document.plan == before


@pytest.mark.parametrize(
    ("place", "typed", "said"),
    [
        ("species.lays", "120", "Females that lay: at most 100 %. Nothing was changed."),
        ("species.clutch.min", "30", "Fewest eggs: the most would be below the least, 30: change the other first."),
        ("species.clutch.sd", "0", "How far clutches vary: must be more than 0."),
        ("species.females_per_male", "few", "“few” is not a whole number"),
        ("species.matures.male", "0", "Seasons until a male breeds: at least 1."),
    ],
)
def test_what_cannot_be_is_refused_beside_its_field(open_at: OpenAt, place: str, typed: str, said: str) -> None:
    window, sheet = open_at("species")
    before = window.document.plan
    field, line = field_at(sheet, place), sheet.line_of(place)
    held = field.text()
    type_into(field, typed)
    assert line.refusal.text().startswith(said)
    assert line.refusal.isVisible()
    assert window.document.plan == before
    QTest.keyClick(field, Qt.Key.Key_Escape)
    assert field.text() == held
    assert not line.refusal.isVisible()
    assert window.views.page() is not None


def test_the_answer_stays_in_sight_and_escape_goes_back(open_at: OpenAt, qtbot: QtBot) -> None:
    window, sheet = open_at("species")
    page = window.views.page()
    assert isinstance(page, AssumptionsPage)
    assert page.answer.head.text() == window.page.answer.head.text()
    assert page.answer.isVisible()
    field = field_at(sheet, "species.lays")
    type_into(field, "84")
    assert QApplication.focusWidget() is field
    assert page.head.undo.text() == "Undo: change females that lay"
    QTest.keyClick(field, Qt.Key.Key_Escape)
    assert window.views.page() is None
    assert window.page.goal.isVisible()
    assert window.menus.assumptions.shortcut() == QKeySequence("Ctrl+,")
    qtbot.mouseClick(window.page.goal.assumptions, Qt.MouseButton.LeftButton)
    reopened = window.views.page()
    assert isinstance(reopened, AssumptionsPage)
    reopened.head.finish.click()
    assert window.views.page() is None


def test_an_ideal_risk_is_said_to_make_a_ceiling(open_at: OpenAt) -> None:
    _, sheet = open_at("species")
    line = sheet.line_of("species.clutch_lost")
    assert not line.ideal.isVisible()
    type_into(field_at(sheet, "species.clutch_lost"), "0")
    assert line.ideal.isVisibleTo(sheet)
    assert line.ideal.text() == "No clutch is lost. The chances are a ceiling."


def test_where_a_number_came_from_stands_beside_it(open_at: OpenAt) -> None:
    window, sheet = open_at("species")
    line = sheet.line_of("species.lays")
    assert line.origin.text() == "Invented for this example."
    type_into(field_at(sheet, "species.lays"), "80")
    assert line.origin.text() == ""
    assert sheet.line_of("species.sex_system").origin.text().startswith("Source: Caenophidian snakes")
    window.menus.undo.trigger()
    assert line.origin.text() == "Invented for this example."


def test_clutches_in_every_way(open_at: OpenAt) -> None:
    window, sheet = open_at("species")
    choose(sheet, "species.clutch", 0)
    assert window.document.plan.species.clutch == Clutch(fixed=12)
    assert sheet.line_of("species.clutch.fixed").isVisibleTo(sheet)
    assert not sheet.line_of("species.clutch.mean").isVisibleTo(sheet)
    choose(sheet, "species.clutch", 2)
    assert window.document.plan.species.clutch == Clutch(counts={"12": 1.0})
    counts = sheet.slot_of("species.clutch.counts")
    assert isinstance(counts, CountsSlot)
    type_into(counts.lines[0].share, "75")
    assert counts.why.text() == (
        "The shares sum to 75 %, not 100: 25 % still to give. Nothing is changed until they do."
    )
    assert window.document.plan.species.clutch == Clutch(counts={"12": 1.0})
    counts.add.click()
    assert window.document.plan.species.clutch == Clutch(counts={"12": 0.75, "13": 0.25})
    assert counts.why.text() == ""
    type_into(counts.lines[1].eggs, "12")
    assert "twice" in counts.why.text()
    counts.lines[1].remove.click()
    type_into(counts.lines[0].share, "100")
    choose(sheet, "species.clutch", 1)
    assert window.document.plan.species.clutch == Clutch(mean=12, sd=1, min=11, max=13)


def test_typing_a_note_is_one_step(open_at: OpenAt) -> None:
    window, sheet = open_at("about")
    slot = sheet.slot_of("notes")
    assert isinstance(slot, ProseSlot)
    before = window.document.plan.notes
    slot.edit.setFocus()
    QTest.keyClicks(slot.edit, "Mine. ")
    assert window.document.plan.notes == "Mine. " + before
    window.menus.undo.trigger()
    assert window.document.plan.notes == before
    assert slot.edit.toPlainText() == before


def test_undo_names_the_species_that_was_taken_over_last(open_at: OpenAt) -> None:
    window, sheet = open_at("species")
    slot = sheet.slot_of("species")
    assert isinstance(slot, PresetsSlot)
    names = [preset.name for preset in slot._presets]
    for name in ("Leopard gecko", "Royal python"):
        slot._take(names.index(name))
    assert window.menus.undo.text() == "Undo take over what is known of the Royal python"
    kept = msgspec.structs.replace(window.document.plan.species, name="Thistle gecko")
    assert slot.field.step(kept) == "take over Thistle gecko as you kept it"


def test_known_species_are_taken_over(open_at: OpenAt) -> None:
    window, sheet = open_at("species")
    slot = sheet.slot_of("species")
    choice = slot.widget.findChild(SentenceChoice)
    assert choice is not None
    type_into(field_at(sheet, "species.name"), "Leopard gecko")
    # Only the name: what is known still waits to be taken over.
    assert choice.currentIndex() == -1
    names = [preset.name for preset in slot._presets]
    slot._take(names.index("Leopard gecko"))
    species = window.document.plan.species
    assert (species.name, species.sex_system, species.clutch) == ("Leopard gecko", "temperature", Clutch(fixed=2))
    assert choice.currentText() == "Leopard gecko"
    assert window.menus.undo.text() == "Undo take over what is known of the Leopard gecko"
    type_into(field_at(sheet, "species.female_share"), "70")
    assert window.document.plan.species.female_share == 0.7
    choose(sheet, "species.sex_system", 1)
    assert window.document.plan.species.female_share is None
