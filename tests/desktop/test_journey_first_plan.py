"""From an empty plan to a saved comparison of three routes, all through widgets, starting the real main()."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from editing import type_into
from main_run import play
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog
from pytestqt.qtbot import QtBot

from core.routes.shapes import SHAPES, Shape
from desktop.assumptions.items import Items
from desktop.assumptions.page import AssumptionsPage
from desktop.assumptions.presets import PresetsSlot
from desktop.first.panel import FirstSteps
from desktop.forms.sheet import Sheet
from desktop.forms.slots import TextSlot
from desktop.new_route.page import NewRoute
from desktop.panels.wanted_picker import WantedPicker
from desktop.paste.window import PasteWindow
from desktop.window import MainWindow

LEFT = Qt.MouseButton.LeftButton
BRED = {
    "groups": [
        {"id": "sire", "origin": "buy", "sex": "male", "count": 1, "carries": {"gene-1": "a/+"}, "price": 120},
        {"id": "dams", "origin": "buy", "sex": "female", "count": 1, "carries": {"gene-1": "a/+"}, "price": 90},
    ],
    "pairings": [{"id": "first", "males": ["sire"], "females": ["dams"]}],
}
EXPECTED = {
    "format": "pairwright-plan",
    "version": 1,
    "title": "New plan",
    "currency": "USD",
    "genes": [{"id": "gene-1", "name": "Amel", "alleles": ["a"], "forms": {"a/a": "amel"}}],
    "species": {
        "name": "Leopard gecko",
        "sex_system": "temperature",
        "clutch": {"fixed": 2},
        "matures": {"male": 1, "female": 2},
        "young": "eggs",
        "clutches_per_season": 6,
    },
    "goal": {
        "want": [{"forms": {"gene-1": "amel"}}],
        "chance": 0.8,
        "seasons": 3,
        "budget": 700,
        "outright_price": 600,
    },
    "costs": {},
    "for_sale": [
        {"id": "sale-1", "sex": "male", "carries": {"gene-1": "a/+"}, "price": 120},
        {"id": "sale-2", "sex": "female", "carries": {"gene-1": "a/+"}, "price": 90},
        {"id": "sale-3", "sex": "female", "carries": {"gene-1": "a/a"}, "price": 150},
    ],
    "routes": [
        {"id": "route-1", "name": "Het amel × het amel", **BRED},
        {"id": "route-2", "name": "Het amel × het amel, then buy", "buy_outright": 2, **BRED},
        {"id": "route-3", "name": "Buy the finished animal", "buy_outright": 1},
    ],
}
LIST = "1.0 het amel 120\n0.1 het amel 90\n0.1 amel 150"


def steps(window: MainWindow) -> FirstSteps:
    assert isinstance(window.page.first, FirstSteps)
    return window.page.first


def assumptions(window: MainWindow) -> AssumptionsPage:
    page = window.views.page()
    assert isinstance(page, AssumptionsPage)
    return page


def say_the_species(window: MainWindow) -> None:
    steps(window).rows["want"].act.click()
    sheet = assumptions(window).section
    assert isinstance(sheet, Sheet)
    presets = sheet.slot_of("species")
    assert isinstance(presets, PresetsSlot)
    names = [presets.choice.itemText(place) for place in range(presets.choice.count())]
    place = next(place for place, name in enumerate(names) if name.startswith("Leopard gecko"))
    presets.choice.setCurrentIndex(place)
    presets.choice.activated.emit(place)
    for key, value in (("species.matures.female", "2"), ("species.clutches_per_season", "6")):
        slot = sheet.slot_of(key)
        assert isinstance(slot, TextSlot)
        type_into(slot.edit, value)
    assumptions(window).head.finish.click()


def name_a_gene(window: MainWindow) -> None:
    steps(window).rows["want"].act.click()
    items = assumptions(window).section
    assert isinstance(items, Items)
    items.add_by(items.listing.adding(window.document.plan)[0])
    slot = items.sheet.slot_of("genes[].name")
    assert isinstance(slot, TextSlot)
    type_into(slot.edit, "Amel")
    assumptions(window).head.finish.click()


def say_the_goal(window: MainWindow) -> None:
    goal = window.page.goal
    goal.rows[0].look.click()
    (picker,) = [one for one in window.findChildren(WantedPicker) if one.isVisible()]
    picker.panel.rows[-1].choice_buttons()[-1].click()
    picker.finish.click()
    for place, text in (("goal.seasons", "3"), ("goal.budget", "700"), ("goal.outright_price", "600")):
        type_into(goal.fields[place], text)


def paste_what_is_for_sale(window: MainWindow, qtbot: QtBot) -> None:
    steps(window).rows["mine"].leave_out.click()
    steps(window).rows["sale"].paste.click()
    dialog = window.findChild(PasteWindow)
    assert dialog is not None
    dialog.text.setPlainText(LIST)
    # On a busy machine even a short list takes more than one slice.
    qtbot.waitUntil(lambda: dialog.add.text() == "Add 3 to what is for sale", timeout=20_000)
    dialog.add.click()


def told(window: MainWindow) -> str:
    return window.page.answer.head.text()


def add_route(window: MainWindow, qtbot: QtBot, shape: Shape) -> None:
    page = window.views.page()
    assert isinstance(page, NewRoute)
    qtbot.waitUntil(lambda: page.is_settled, timeout=20_000)
    page.shapes.setCurrentRow(SHAPES.index(shape))
    page.add.click()


def test_from_an_empty_plan_to_a_saved_comparison(
    qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(tmp_path / "mine"), ""))

    def journey(window: MainWindow) -> None:
        window.sample_line.empty.click()
        say_the_species(window)
        name_a_gene(window)
        say_the_goal(window)
        assert steps(window).rows["want"].state.text() == "done"
        paste_what_is_for_sale(window, qtbot)
        assert steps(window).rows["routes"].state.text() == "next"
        # Nobody asked for them.
        greeting = steps(window).greeting
        assert greeting is not None
        qtbot.waitUntil(lambda: len(greeting.shown) > 2, timeout=20_000)
        steps(window).rows["routes"].act.click()
        add_route(window, qtbot, "straight")
        for shape in ("breed then buy", "buy"):
            window.page.route_bar.new.click()
            add_route(window, qtbot, shape)
        qtbot.waitUntil(lambda: window.document.complete, timeout=20_000)
        assert window.page.answer.head.text().startswith("Cheapest: ")
        window.menus.save.trigger()
        assert not window.isWindowModified()

    play(monkeypatch, journey)
    assert json.loads((tmp_path / "mine.plan.json").read_text("utf-8")) == EXPECTED


def test_a_new_plan_is_greeted_with_routes(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """Wants, animals for sale, no routes: what is cheapest stands there, and one click makes it a comparison."""
    path = tmp_path / "lists.plan.json"
    path.write_text(json.dumps({**EXPECTED, "routes": []}), "utf-8")

    def journey(window: MainWindow) -> None:
        greeting = steps(window).greeting
        assert greeting is not None
        qtbot.waitUntil(lambda: greeting.is_settled, timeout=20_000)
        best = greeting.shown[0]
        assert greeting.head.text() == f"Cheapest: {best.route.name}. Set aside {best.money:,.0f}."
        qtbot.mouseClick(greeting.rows[1].add, LEFT)
        assert [route.name for route in window.document.plan.routes] == [greeting.shown[1].route.name]
        assert window.page.routes.isVisible()
        window.menus.undo.trigger()
        assert greeting.isVisible()
        many = len(greeting.shown)
        qtbot.mouseClick(greeting.add_all, LEFT)
        assert len(window.document.plan.routes) == many
        qtbot.waitUntil(lambda: window.document.complete, timeout=20_000)
        assert told(window).startswith("Cheapest: ")
        assert f"Set aside {best.money:,.0f}" in told(window)

    play(monkeypatch, journey, path)
