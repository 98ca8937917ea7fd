"""Lists of the plan in the window: added, changed, moved and taken out again, each one step."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from editing import type_into
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QMenu, QWidget
from pytestqt.qtbot import QtBot
from windows import Open

from core.plan.model import Combination, Linkage
from core.plan.places import value_at
from core.plan.removals import without_gene
from desktop.assumptions.gene_panels import AllelesSlot, GenotypesSlot
from desktop.assumptions.items import Items
from desktop.assumptions.keeping import KeepGeneSlot
from desktop.assumptions.linked_panel import LinkedSlot
from desktop.assumptions.page import AssumptionsPage
from desktop.assumptions.panels import CarriesSlot, FormsSlot, ParentsSlot
from desktop.assumptions.sections import SECTIONS
from desktop.forms.fields import SentenceField
from desktop.forms.slots import ChoiceSlot, TextSlot
from desktop.plan_files import SAMPLES
from desktop.window import MainWindow

OpenAt = Callable[..., tuple[MainWindow, Items]]


@pytest.fixture
def open_at(start: Open) -> OpenAt:
    def open_it(section: str, sample: str = "amel-lavender") -> tuple[MainWindow, Items]:
        path = SAMPLES / f"{sample}.plan.json"
        # The double knows the routes of one sample; the others need not be worked out here.
        window = start(path, wait=sample == "amel-lavender")
        window.show_assumptions()
        page = window.views.page()
        assert isinstance(page, AssumptionsPage)
        page.show_section(section)
        assert isinstance(page.section, Items)
        return window, page.section

    return open_it


def text_at(items: Items, place: str) -> SentenceField:
    slot = items.sheet.slot_of(place)
    assert isinstance(slot, TextSlot)
    return slot.edit


def choose(items: Items, place: str, index: int) -> None:
    slot = items.sheet.slot_of(place)
    assert isinstance(slot, ChoiceSlot)
    slot.choice.setCurrentIndex(index)
    slot.choice.activated.emit(index)


def test_an_animal_for_sale_from_nothing_to_a_price(open_at: OpenAt, qtbot: QtBot) -> None:
    window, items = open_at("sale")
    before = window.document.plan
    qtbot.mouseClick(items.add, Qt.MouseButton.LeftButton)
    assert items.current == len(before.for_sale)
    type_into(text_at(items, "for_sale[].label"), "<b>Rose</b>")
    type_into(text_at(items, "for_sale[].price"), "230")
    carried = items.sheet.slot_of("for_sale[].carries")
    assert isinstance(carried, CarriesSlot)
    carried.panel.rows[0].choice_buttons()[1].click()
    choose(items, "for_sale[].sex", 0)
    row = window.document.plan.for_sale[-1]
    assert (row.label, row.price, row.sex, row.carries) == ("<b>Rose</b>", 230, "male", {"amel": "a/+"})
    assert items.rows.index(items.current, 0).data() == "<b>Rose</b>\na male, 230 USD, het amel"
    qtbot.mouseClick(items.remove, Qt.MouseButton.LeftButton)
    assert window.document.plan == before
    window.menus.undo.trigger()
    assert window.document.plan.for_sale[-1] == row


def test_parents_count_once_both_are_chosen(open_at: OpenAt) -> None:
    window, items = open_at("mine", "boa-my-animals")
    before = len(window.document.plan.my_animals)
    items.add_by(items.listing.adding(window.document.plan)[0])
    parents = items.sheet.slot_of("my_animals[].sire")
    assert isinstance(parents, ParentsSlot)
    parents.sire.setCurrentIndex(1)
    parents.sire.activated.emit(1)
    assert parents.waiting.isVisibleTo(items)
    assert window.document.plan.my_animals[before].sire is None
    parents.dam.setCurrentIndex(1)
    parents.dam.activated.emit(1)
    young = window.document.plan.my_animals[before]
    assert young.sire is not None
    assert young.dam is not None
    assert not items.sheet.line_of("my_animals[].carries").isVisibleTo(items)


def test_an_animal_in_use_is_told_before_it_goes(open_at: OpenAt, qtbot: QtBot) -> None:
    window, items = open_at("mine", "boa-my-animals")
    before = window.document.plan
    qtbot.mouseClick(items.remove, Qt.MouseButton.LeftButton)
    assert "is in use" in items.question.text()
    assert "clutch record" in items.question.text()
    assert window.document.plan == before
    qtbot.mouseClick(items.agree, Qt.MouseButton.LeftButton)
    assert len(window.document.plan.my_animals) == len(before.my_animals) - 1
    assert window.document.plan.clutch_records == ()
    window.menus.undo.trigger()
    assert window.document.plan == before


def test_an_animals_short_name_is_followed(open_at: OpenAt) -> None:
    window, items = open_at("mine", "boa-my-animals")
    old = window.document.plan.my_animals[0].id
    type_into(text_at(items, "my_animals[].id"), "renamed")
    plan = window.document.plan
    assert plan.my_animals[0].id == "renamed"
    said = str(plan)
    assert f"'{old}'" not in said
    assert any("renamed" in (record.sire, record.dam) for record in plan.clutch_records)


def test_a_gene_in_use_is_told_and_taken_out_everywhere(open_at: OpenAt, qtbot: QtBot) -> None:
    window, items = open_at("genes")
    before = window.document.plan
    qtbot.mouseClick(items.remove, Qt.MouseButton.LeftButton)
    assert items.question.text().startswith("Amelanistic is in use: the goal, the routes “")
    qtbot.mouseClick(items.keep, Qt.MouseButton.LeftButton)
    assert not items.question.isVisible()
    qtbot.mouseClick(items.remove, Qt.MouseButton.LeftButton)
    qtbot.mouseClick(items.agree, Qt.MouseButton.LeftButton)
    plan = window.document.plan
    assert [gene.id for gene in plan.genes] == ["lav"]
    assert plan.goal.want[0].forms == {"lav": "lavender"}
    qtbot.mouseClick(items.remove, Qt.MouseButton.LeftButton)
    assert items.question.text().startswith("The goal asks for nothing but Lavender")
    window.menus.undo.trigger()
    assert window.document.plan == before


def test_a_gene_gets_another_short_name_everywhere(open_at: OpenAt) -> None:
    window, items = open_at("genes")
    type_into(text_at(items, "genes[].id"), "albino")
    plan = window.document.plan
    assert plan.genes[0].id == "albino"
    assert plan.goal.want[0].forms == {"albino": "amel", "lav": "lavender"}
    assert all("amel" not in row.carries for row in plan.for_sale)
    type_into(text_at(items, "genes[].id"), "lav")
    assert "“lav” is already taken" in items.sheet.line_of("genes[].id").refusal.text()
    type_into(text_at(items, "genes[].id"), "two words")
    assert "must hold no space" in items.sheet.line_of("genes[].id").refusal.text()


def test_how_genotypes_look(open_at: OpenAt) -> None:
    window, items = open_at("genes")
    looks = items.sheet.slot_of("genes[].forms")
    assert isinstance(looks, GenotypesSlot)
    shown = [field.text() for field, dead in zip(looks.looks, looks.lethal, strict=True) if dead.isVisibleTo(items)]
    assert shown == ["normal", "normal", "amel"]
    type_into(looks.looks[2], "albino")
    plan = window.document.plan
    assert plan.genes[0].forms == {"a/a": "albino"}
    # What asked for the form asks for it under its new name.
    assert plan.goal.want[0].forms["amel"] == "albino"
    assert plan.combinations == (Combination(name="opal", forms={"amel": "albino", "lav": "lavender"}),)
    looks.lethal[2].click()
    assert window.document.plan == plan
    assert "no animal would show any more" in items.sheet.line_of("genes[].forms").refusal.text()
    assert not looks.lethal[2].isChecked()


def test_genes_pass_on_in_every_way(open_at: OpenAt) -> None:
    window, items = open_at("genes")
    for way in items.listing.adding(window.document.plan)[:5]:
        items.add_by(way)
    added = window.document.plan.genes[2:]
    patterns = [items.listing.note(window.document.plan, i, items._numbers) for i in range(2, 2 + len(added))]
    assert patterns == [
        "recessive",
        "dominant",
        "incomplete dominant",
        "an allelic series",
        "recessive, on the sex chromosomes",
    ]
    # No two genes that were made here share a letter.
    assert [gene.alleles for gene in added] == [("b",), ("C",), ("D",), ("e", "f"), ("g",)]
    assert added[3].forms == {"e/e": "new gene 4 e", "e/f": "new gene 4 ef", "f/f": "new gene 4 f"}
    items.choose(2)
    choose(items, "genes[].pattern", 2)
    gene = window.document.plan.genes[2]
    assert gene.forms == {"b/+": "new gene 1", "b/b": "super new gene 1"}
    choose(items, "genes[].pattern", 3)
    assert window.document.plan.genes[2].alleles == ("b", "c")
    choose(items, "genes[].pattern", 0)
    assert "take the other alleles out first" in items.sheet.line_of("genes[].pattern").refusal.text()
    alleles = items.sheet.slot_of("genes[].alleles")
    assert isinstance(alleles, AllelesSlot)
    type_into(alleles.fields[1], "z")
    assert window.document.plan.genes[2].alleles == ("b", "z")
    QTest.mouseClick(alleles.removes[1], Qt.MouseButton.LeftButton)
    assert window.document.plan.genes[2].alleles == ("b",)
    choose(items, "genes[].placement", 1)
    assert "and one gene is the most" in items.sheet.line_of("genes[].placement").refusal.text()


def test_linked_genes_with_their_distance(open_at: OpenAt) -> None:
    window, items = open_at("linked")
    items.add_by(items.listing.adding(window.document.plan)[0])
    assert window.document.plan.linkage == (Linkage(genes=("amel", "lav"), recombination=(0.1,)),)
    slot = items.sheet.slot_of("linkage[].genes")
    assert isinstance(slot, LinkedSlot)
    type_into(slot.lines[1].share, "12.5")
    assert window.document.plan.linkage[0].recombination == (0.125,)
    type_into(slot.lines[1].share, "80")
    assert window.document.plan.linkage[0].recombination == (0.125,)
    assert items.sheet.line_of("linkage[].genes").refusal.isVisibleTo(items)


def test_surplus_prices_in_order(open_at: OpenAt) -> None:
    window, items = open_at("surplus")
    for way in (items.listing.adding(window.document.plan)[0],) * 2:
        items.add_by(way)
    many = len(window.document.plan.costs.surplus)
    type_into(text_at(items, "costs.surplus[].price"), "35")
    assert window.document.plan.costs.surplus[-1].price == 35
    items.up.click()
    assert window.document.plan.costs.surplus[-2].price == 35
    assert items.current == many - 2
    looks = items.sheet.slot_of("costs.surplus[].forms")
    assert isinstance(looks, FormsSlot)
    looks.panel.rows[0].choice_buttons()[1].click()
    assert window.document.plan.costs.surplus[-2].forms == {"amel": "amel", "lav": "lavender"}


def test_the_last_row_of_the_goal_stays(open_at: OpenAt, qtbot: QtBot) -> None:
    window, items = open_at("wanted")
    qtbot.mouseClick(items.remove, Qt.MouseButton.LeftButton)
    assert "at least one animal" in items.question.text()
    items.add_by(items.listing.adding(window.document.plan)[0])
    choose(items, "goal.want[].sex", 2)
    assert value_at(window.document.plan, "goal.want[1].sex") == "male"
    assert "and 1 male amel + lavender visual" in window.page.goal.text()


@pytest.mark.parametrize("section", [section.key for section in SECTIONS])
def test_everything_that_takes_focus_has_a_name(start: Open, section: str) -> None:
    window = start()
    window.show_assumptions()
    page = window.views.page()
    assert isinstance(page, AssumptionsPage)
    page.show_section(section)
    nameless = [
        type(widget).__name__
        for widget in page.findChildren(QWidget)
        if widget.isVisibleTo(page)
        and widget.focusPolicy() & Qt.FocusPolicy.TabFocus
        and not widget.focusProxy()
        and not widget.accessibleName()
    ]
    assert nameless == []


def test_a_gene_is_kept_for_other_plans(open_at: OpenAt) -> None:
    window, items = open_at("genes")
    slot = items.sheet.slot_of("genes[].kept")
    assert isinstance(slot, KeepGeneSlot)
    items.choose(1)
    slot.keep.click()
    assert slot.said.text() == "Kept: other plans offer it under its name."
    assert "Lavender, as you kept it" not in [way.label for way in items.listing.adding(window.document.plan)]
    left = without_gene(window.document.plan, "lav")
    way = next(way for way in items.listing.adding(left) if way.label == "Lavender, as you kept it")
    assert way.add(left).genes[-1] == window.document.plan.genes[1]


def test_long_and_odd_names_are_shown_as_typed_and_cut_to_fit(open_at: OpenAt) -> None:
    window, items = open_at("combinations")
    name = "<b>x</b> & " + "moonlit " * 36
    type_into(text_at(items, "combinations[].name"), name.strip())
    assert window.document.plan.combinations[0].name == name.strip()
    page = window.views.page()
    assert isinstance(page, AssumptionsPage)
    page.show_section("wanted")
    assert isinstance(page.section, Items)
    looks = page.section.sheet.slot_of("goal.want[].forms")
    assert isinstance(looks, FormsSlot)
    choice = looks.panel.rows[0].choice_buttons()[1]
    assert choice.text().startswith("<b>x</b> && moonlit")
    assert choice.width() < page.section.width()
    assert choice.accessibleName().endswith(name.strip())


def test_a_way_to_add_is_chosen_from_a_menu(open_at: OpenAt, qtbot: QtBot) -> None:
    window, items = open_at("genes")
    qtbot.mouseClick(items.add, Qt.MouseButton.LeftButton)
    menu = items.findChild(QMenu)
    assert menu is not None
    labels = [action.text() for action in menu.actions()]
    assert labels[:4] == ["A recessive gene", "A dominant gene", "An incomplete dominant gene", "An allelic series"]
    assert any(label.endswith(", as known") for label in labels)
    QTest.keyClick(menu, Qt.Key.Key_Down)
    QTest.keyClick(menu, Qt.Key.Key_Return)
    assert len(window.document.plan.genes) == 3
    assert items.current == 2


def test_several_for_sale_are_told_as_several(open_at: OpenAt) -> None:
    _, items = open_at("sale")
    sex = items.sheet.slot_of("for_sale[].sex")
    assert isinstance(sex, ChoiceSlot)
    assert sex.choice.currentText() == "males"
    type_into(text_at(items, "for_sale[].quantity"), "1")
    assert sex.choice.currentText() == "male"
