"""A new route is filled, drawn and worked out before it is taken; then it is one step."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import msgspec
import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot
from windows import Open

from core.plan.model import Bought, Owned, Plan, Want
from core.plan.read import load_plan
from core.plan.write import write_plan
from core.routes.pairs import Shape
from core.routes.shapes import SHAPES
from desktop.evaluation import core_engine
from desktop.first.empty import empty_plan
from desktop.new_route.page import NewRoute
from desktop.paste.window import PasteWindow
from desktop.plan_files import SAMPLE
from desktop.window import MainWindow

LEFT = Qt.MouseButton.LeftButton
Opened = Callable[[Plan], tuple[MainWindow, NewRoute]]


@pytest.fixture
def opened(start: Open, qtbot: QtBot, tmp_path: Path) -> Opened:

    def open_it(plan: Plan) -> tuple[MainWindow, NewRoute]:
        path = tmp_path / "mine.plan.json"
        path.write_bytes(write_plan(plan))
        window = start(path, engine=core_engine)
        qtbot.mouseClick(window.page.route_bar.new, LEFT)
        page = window.views.page()
        assert isinstance(page, NewRoute)
        qtbot.waitUntil(lambda: page.is_settled, timeout=20_000)
        return window, page

    return open_it


def sample(**goal: object) -> Plan:
    """Only the shapes that are worked out at once, and one other route to compare with."""
    plan = load_plan(SAMPLE)
    few = msgspec.structs.replace(plan.simulation, runs=100)
    changed = msgspec.structs.replace(plan.goal, **{"seasons": 3, **goal})
    return msgspec.structs.replace(plan, simulation=few, routes=plan.routes[:1], goal=changed)


def turn_to(page: NewRoute, shape: Shape) -> None:
    page.shapes.setFocus()
    page.shapes.setCurrentRow(SHAPES.index(shape))


def test_every_shape_says_what_it_needs_before_it_is_taken(opened: Opened) -> None:
    window, page = opened(sample())
    before = window.document.plan
    for shape in ("straight", "finished male", "breed then buy", "buy"):
        turn_to(page, shape)
        assert page.filled.needs.text().startswith(("For 80 % it needs", "It is ")), shape
        assert page.filled.strip.isVisible()
        assert page.add.isEnabled()
    turn_to(page, "straight")
    assert "Double hets, bred together" in page.filled.beside.text()
    assert window.document.plan is before
    assert not window.document.has_unsaved_changes


def test_it_is_added_as_one_step_and_chosen(opened: Opened, qtbot: QtBot) -> None:
    window, page = opened(sample())
    before = window.document.plan
    qtbot.mouseClick(page.add, LEFT)
    assert window.views.page() is None
    selected = window.document.selected
    assert selected is not None
    assert selected.name == "Lavender het amel × amel 66 % het lavender"
    assert len(window.document.plan.routes) == 2
    qtbot.waitUntil(lambda: window.document.complete)
    assert window.menus.undo.text().startswith("Undo add Lavender het amel")
    window.menus.undo.trigger()
    assert window.document.plan == before


def test_another_animal_and_other_numbers_are_worked_out_anew(opened: Opened, qtbot: QtBot) -> None:
    window, page = opened(sample())
    said = page.filled.needs.text()
    sire, dams = page.filled.roles.lines[:2]
    sire.choice.setCurrentIndex(0)
    sire.choice.activated.emit(0)
    qtbot.waitUntil(lambda: page.filled.needs.text() not in (said, "Working it out…"))
    dams.number.setFocus()
    dams.number.selectAll()
    QTest.keyClicks(dams.number, "4")
    QTest.keyClick(dams.number, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: page.is_settled)
    qtbot.mouseClick(page.add, LEFT)
    sire_group, dams_group = window.document.plan.routes[-1].groups[:2]
    assert isinstance(sire_group, Bought)
    assert sire_group.price == 160
    assert dams_group.count == 4
    qtbot.waitUntil(lambda: window.document.complete)


def test_what_is_typed_while_the_shapes_are_filled_anew_harms_nothing(opened: Opened, qtbot: QtBot) -> None:
    window, page = opened(sample())
    window.document.edit(sample(seasons=4), "change the seasons")
    sire, dams = page.filled.roles.lines[:2]
    QTest.keyClicks(dams.number, "4")
    QTest.keyClick(dams.number, Qt.Key.Key_Return)
    sire.choice.activated.emit(0)
    page.add_and_edit.click()
    assert window.document.plan == sample(seasons=4)
    qtbot.waitUntil(lambda: page.is_settled, timeout=20_000)
    assert window.document.plan == sample(seasons=4)
    window.document.history.set_clean()


@pytest.mark.parametrize("typed", ["0", "many", "100000"])
def test_numbers_that_cannot_be_are_refused_beside_the_field(opened: Opened, typed: str) -> None:
    _, page = opened(sample())
    line = page.filled.roles.lines[1]
    line.number.setFocus()
    line.number.selectAll()
    QTest.keyClicks(line.number, typed)
    QTest.keyClick(line.number, Qt.Key.Key_Return)
    assert line._refusal.isVisible()
    assert page.add.isEnabled()


def test_a_name_is_kept_and_made_free(opened: Opened, qtbot: QtBot) -> None:
    window, page = opened(sample())
    field = page.filled.name
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, "Double hets, bred together")
    QTest.keyClick(field, Qt.Key.Key_Return)
    qtbot.mouseClick(page.add, LEFT)
    assert window.document.plan.routes[-1].name == "Double hets, bred together 2"
    qtbot.waitUntil(lambda: window.document.complete)


def test_escape_leaves_everything_as_it_was(opened: Opened) -> None:
    window, page = opened(sample())
    before = window.document.plan
    QTest.keyClick(page.shapes, Qt.Key.Key_Escape)
    assert window.views.page() is None
    assert window.document.plan is before


def test_what_is_lacking_is_said_with_what_to_do(opened: Opened) -> None:
    plan = sample(outright_price=None)
    window, page = opened(msgspec.structs.replace(plan, for_sale=plan.for_sale[1:3]))
    assert page.filled.lack.sentence.text().startswith("No male for sale or yours may carry all of amel + lavender")
    assert not page.add.isEnabled()
    page.filled.lack.for_sale.click()
    dialog = window.findChild(PasteWindow)
    assert dialog is not None
    dialog.reject()


def test_a_goal_of_several_rows_is_served_whole_or_the_rest_is_said(opened: Opened) -> None:
    rows = (Want(forms={"amel": "amel"}), Want(forms={"lav": "lavender"}, sex="female"))
    _, page = opened(sample(want=rows, seasons=2))
    assert not page.filled.lack.isVisible()
    assert page.filled.needs.text().startswith(("For 80 % it needs", "It is "))
    assert "It is 0 %" not in page.filled.needs.text()


def test_a_pair_for_one_row_says_what_it_leaves(opened: Opened) -> None:
    rows = (Want(forms={"lav": "lavender"}), Want(forms={"amel": "amel"}))
    plan = sample(want=rows)
    amels = tuple(one for one in plan.for_sale if "lav" not in one.carries)
    male = msgspec.structs.replace(amels[0], id="amel-m", sex="male")
    _, page = opened(msgspec.structs.replace(plan, for_sale=(*amels, male)))
    assert page.filled.lack.sentence.text() == (
        "No pair here gives all that you want. This one is for amel visual: for lavender visual, add a pair of its own."
    )
    assert page.filled.lack.for_sale.isVisible()
    assert page.add.isEnabled()


def test_a_price_typed_there_makes_the_route(opened: Opened, qtbot: QtBot) -> None:
    window, page = opened(sample(outright_price=None))
    turn_to(page, "buy")
    price = page.filled.lack.price
    price.setFocus()
    QTest.keyClicks(price, "1500")
    QTest.keyClick(price, Qt.Key.Key_Return)
    assert window.document.plan.goal.outright_price == 1500
    qtbot.waitUntil(lambda: page.filled.needs.text() == "For 80 % it needs 1,500 USD.", timeout=20_000)
    qtbot.waitUntil(lambda: page.is_settled and window.document.complete, timeout=20_000)


def test_an_empty_plan_says_what_comes_first(opened: Opened, qtbot: QtBot) -> None:
    window, page = opened(empty_plan())
    assert (
        page.filled.lack.sentence.text()
        == "Say first what you want: in the line over the comparison, or under Plan assumptions."
    )
    turn_to(page, "empty")
    assert page.filled.needs.text() == "Nothing to work out yet: it is added empty."
    qtbot.mouseClick(page.add, LEFT)
    assert [route.name for route in window.document.plan.routes] == ["New route"]
    qtbot.waitUntil(lambda: window.document.complete)


def test_my_own_animals_are_used(opened: Opened, qtbot: QtBot) -> None:
    boa = load_plan(SAMPLE.with_name("boa-my-animals.plan.json"))
    few = msgspec.structs.replace(boa.simulation, runs=100)
    window, page = opened(msgspec.structs.replace(boa, routes=(), simulation=few))
    qtbot.mouseClick(page.add, LEFT)
    assert any(isinstance(group, Owned) for group in window.document.plan.routes[-1].groups)
    qtbot.waitUntil(lambda: window.document.complete)


def test_it_is_added_and_edited(opened: Opened, qtbot: QtBot) -> None:
    window, page = opened(sample())
    qtbot.mouseClick(page.add_and_edit, LEFT)
    assert len(window.document.plan.routes) == 2
    assert window.views.page() is not None
    assert not isinstance(window.views.page(), NewRoute)
    qtbot.waitUntil(lambda: window.document.complete)
