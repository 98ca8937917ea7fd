"""The route editor: every kind of field through its real widgets."""

from __future__ import annotations

import json
from collections.abc import Callable, Generator
from pathlib import Path
from threading import Event

import msgspec
import pytest
import window_double as double
from editing import (
    choice,
    choose,
    editor_of,
    field,
    group,
    line_of,
    open_editor,
    opener,
    pairing,
    press,
    route_of,
    tab_to,
    type_into,
    write,
)
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QPushButton, QRadioButton, QWidget
from pytestqt.qtbot import QtBot
from windows import Open

from core.plan.model import Bought, Held, Owned, Plan, Route, Scale
from core.routes.result import RouteResult
from desktop.evaluation import Engine
from desktop.forms.fields import SentenceChoice, SentenceField
from desktop.plan_files import SAMPLES
from desktop.why.page import WhyPage
from desktop.window import MainWindow
from desktop.words.names import titled

ROUTE = "daughters-back"
Begin = Callable[..., MainWindow]


@pytest.fixture
def begin(start: Open) -> Begin:
    """A window with the sample, or with another file."""
    return start


def test_it_opens_on_the_selected_route_and_ends_where_it_began(begin: Begin) -> None:
    window = begin()
    window.page.routes.setFocus()
    editor = open_editor(window, ROUTE)
    assert editor.head.name.text() == "Amel dams, daughters back"
    assert line_of(editor, "group", "sire").sentence.text() == "Buy 1 male double het at 160 from season 1 to end"
    assert line_of(editor, "group", "daughters").sentence.text() == (
        "Hold back 4 females from first pairing taking amel then no others"
    )
    assert line_of(editor, "pairing", "back").sentence.text() == "Pair Sire with Daughters in every season they can"
    QTest.keyClick(editor.head.name, Qt.Key.Key_Escape)
    assert window.views.page() is None
    assert window.document.selected is not None
    assert window.document.selected.id == ROUTE


def test_numbers_of_animals(begin: Begin) -> None:
    window = begin()
    editor = open_editor(window, ROUTE)
    line = line_of(editor, "group", "dams")
    for key, typed in (("count", "3"), ("price", "110.50"), ("until", "4"), ("season", "2")):
        type_into(field(line, key), typed)
    dams = group(window, ROUTE, "dams")
    assert isinstance(dams, Bought)
    assert (dams.count, dams.price, dams.season, dams.until) == (3, 110.5, 2, 4)
    assert window.menus.undo.text() == "Undo change the season of arrival of Dams"
    type_into(field(line, "until"), "end")
    assert group(window, ROUTE, "dams").until is None
    type_into(field(line, "until"), "6")
    window.document.undo()
    # Typing in one field is one step.
    assert group(window, ROUTE, "dams").until == 4


@pytest.mark.parametrize(
    ("key", "typed", "said"),
    [
        ("count", "0", "type a number from 1 to 400"),
        ("price", "cheap", "“cheap” is not a number"),
        ("season", "3", "They would be gone after season 1, before they come in season 3."),
        ("name", "Sire", ""),
    ],
)
def test_what_cannot_be_is_refused_beside_the_field(begin: Begin, key: str, typed: str, said: str) -> None:
    window = begin()
    editor = open_editor(window, ROUTE)
    before = window.document.plan
    line = line_of(editor, "group", "dams")
    type_into(field(line, key), typed)
    if key == "name":
        # Names are told apart by their letters as typed.
        type_into(field(line, key), "sire")
        said = "There is “sire” in this route already"
    else:
        assert window.document.plan == before
    assert said in line.note.text()
    assert line.note.isVisible()
    QTest.keyClick(field(line, key), Qt.Key.Key_Escape)
    assert window.views.page() is editor


def test_a_name_is_followed_wherever_it_is_used(begin: Begin) -> None:
    window = begin()
    editor = open_editor(window, ROUTE)
    line = line_of(editor, "group", "sire")
    type_into(field(line, "name"), "Old <b>male</b>")
    assert line.name.text().startswith("Old <b>m")
    assert pairing(window, ROUTE, "back").males == (line.key.id,)
    assert "Old <b>male<∕b>" in line_of(editor, "pairing", "back").sentence.text()
    assert line is line_of(editor, "group", line.key.id)
    type_into(field(line_of(editor, "pairing", "first"), "name"), "year one")
    daughters = group(window, ROUTE, "daughters")
    assert isinstance(daughters, Held)
    assert daughters.source == ("year-one",)


def test_the_route_itself(begin: Begin) -> None:
    window = begin()
    editor = open_editor(window, ROUTE)
    type_into(editor.head.name, "Back to him")
    type_into(field(line_of(editor, "finished"), "finished"), "5")
    counts = line_of(editor, "counts")
    type_into(field(counts, "setup"), "75")
    type_into(field(counts, "counts"), "1, 2-4, 8")
    choose(choice(counts, "tried.0"), "and Daughters, too")
    route = route_of(window, ROUTE)
    assert (route.name, route.buy_outright, route.setup) == ("Back to him", 5, 75)
    assert route.scale == Scale(groups=("dams", "daughters"), counts=(1, 2, 3, 4, 8))
    type_into(field(line_of(editor, "finished"), "finished"), "9")
    assert "within 7 seasons" in line_of(editor, "finished").note.text()
    type_into(editor.head.name, " ")
    assert route_of(window, ROUTE).name == "Back to him"


def test_where_animals_come_from(begin: Begin) -> None:
    window = begin(SAMPLES / "boa-my-animals.plan.json")
    editor = open_editor(window, "buy-dams")
    line = line_of(editor, "group", "flint")
    choose(choice(line, "origin"), "Buy")
    assert isinstance(group(window, "buy-dams", "flint"), Bought)
    choose(choice(line, "origin"), "Use by name")
    mine = group(window, "buy-dams", "flint")
    assert isinstance(mine, Owned)
    assert mine.animals is not None
    choose(choice(line, "origin"), "Use")
    assert group(window, "buy-dams", "flint").count == 1
    more = editor.details.more
    kept = more.fields["kept"]
    choose(kept, "kept for this route")  # type: ignore[arg-type]
    type_into(more.fields["price"], "40")  # type: ignore[arg-type]
    type_into(more.fields["ready"], "1")  # type: ignore[arg-type]
    own = group(window, "buy-dams", "flint")
    assert isinstance(own, Owned)
    assert (own.kept_anyway, own.price, own.ready_in) == (False, 40, 1)
    choose(choice(line, "origin"), "Hold back")
    assert "choose" in line.note.text() or "pair animals first" in line.note.text()


def test_which_of_my_animals(begin: Begin, tmp_path: Path) -> None:
    plan = json.loads((SAMPLES / "boa-my-animals.plan.json").read_text("utf-8"))
    plan["my_animals"].append({"id": "F2", "name": "Rowan & <b>Ash</b>", "sex": "female"})
    path = tmp_path / "mine.plan.json"
    path.write_text(json.dumps(plan), "utf-8")
    window = begin(path)
    editor = open_editor(window, "mine")
    opener(line_of(editor, "group", "hazel"), "animals").click()
    first, second = (box for box in editor.details.mine.boxes if box.isVisibleTo(editor))
    assert first.hasFocus()
    second.click()
    hazel = group(window, "mine", "hazel")
    assert isinstance(hazel, Owned)
    assert hazel.animals == ("F1", "F2")
    assert editor.details.title.text() == "Hazel: Hazel and Rowan & <b>Ash</b>"
    second.click()
    first.click()
    assert "At least one animal" in editor.details.refusal.text()
    assert first.isChecked()


def test_the_sex_of_animals_that_breed_stays(begin: Begin) -> None:
    window = begin()
    editor = open_editor(window, ROUTE)
    line = line_of(editor, "group", "dams")
    choose(choice(line, "sex"), "males")
    assert line.note.text() == "They breed as females in this route: take them out of their pairings first."
    choice(line, "origin").setFocus()
    assert choice(line, "sex").currentText() == "females"


def test_what_they_carry_is_chosen_below(begin: Begin) -> None:
    window = begin()
    editor = open_editor(window, ROUTE)
    opener(line_of(editor, "group", "dams"), "carries").click()
    assert editor.details.title.text() == "Dams: amel"
    rows = editor.details.carries.rows
    assert rows[0].choice_buttons()[2].hasFocus()
    QTest.mouseClick(rows[1].choice_buttons()[3], Qt.MouseButton.LeftButton)
    dams = group(window, ROUTE, "dams")
    assert isinstance(dams, Bought)
    assert dams.carries["lav"] == {"l/+": "2/3", "+/+": "1/3"}
    assert opener(line_of(editor, "group", "dams"), "carries").text() == "amel, 66 % het lavender"
    assert rows[1].choice_buttons()[3].hasFocus()


def test_which_young_are_held_back(begin: Begin) -> None:
    window = begin()
    editor = open_editor(window, ROUTE)
    line = line_of(editor, "group", "daughters")
    choose(choice(line, "pick.1"), "any young")
    held = group(window, ROUTE, "daughters")
    assert isinstance(held, Held)
    assert held.pick == ({"amel": "amel"}, {})
    choose(choice(line, "pick.1"), "leave this look out")
    choice(line, "pick.0").setFocus()
    rows = editor.details.looks.rows
    rows[1].choice_buttons()[1].click()
    held = group(window, ROUTE, "daughters")
    assert isinstance(held, Held)
    assert held.pick == ({"amel": "amel", "lav": "normal"},)
    assert choice(line, "pick.0").currentText() == "amel + not lavender"


def test_young_cannot_come_from_themselves(begin: Begin) -> None:
    window = begin()
    editor = open_editor(window, ROUTE)
    line = line_of(editor, "group", "daughters")
    before = window.document.plan
    choose(choice(line, "from.0"), "back pairing")
    assert "young of their own" in line.note.text()
    assert window.document.plan == before
    choose(choice(line, "from.0"), "or back pairing, too")
    held = group(window, ROUTE, "daughters")
    assert isinstance(held, Held)
    assert held.source == ("first", "back")


def test_who_breeds_whom(begin: Begin) -> None:
    window = begin()
    editor = open_editor(window, ROUTE)
    line = line_of(editor, "pairing", "back")
    choose(choice(line, "females.0"), "and Dams, too")
    assert pairing(window, ROUTE, "back").females == ("daughters", "dams")
    choose(choice(line, "females.0"), "Dams")
    assert pairing(window, ROUTE, "back").females == ("dams", "daughters")
    choose(choice(line, "when"), "from season")
    type_into(field(line, "first"), "3")
    type_into(field(line, "last"), "2")
    assert "would come after the last" in line.note.text()
    type_into(field(line, "last"), "6")
    assert pairing(window, ROUTE, "back").seasons == (3, 6)
    words = [choice(line, "males.0").itemText(i) for i in range(choice(line, "males.0").count())]
    assert "Dams" not in words


def test_removing_says_what_goes_along_and_is_one_step(begin: Begin) -> None:
    window = begin()
    editor = open_editor(window, ROUTE)
    before = window.document.plan
    editor.board.choose(line_of(editor, "group", "dams").key)
    assert "takes Daughters, First and Back along" in editor.details.note.text()
    editor.details.remove.click()
    assert [one.id for one in route_of(window, ROUTE).groups] == ["sire"]
    assert editor.actions_on.notice.text().startswith("Removed Dams, and with it Daughters, First and Back.")
    assert "Nobody breeds" in editor.finding.lead.text()
    window.document.undo()
    assert window.document.plan == before


def test_lines_move_up_and_down(begin: Begin) -> None:
    window = begin()
    editor = open_editor(window, ROUTE)
    editor.board.choose(line_of(editor, "group", "dams").key)
    assert editor.details.up.isEnabled()
    editor.details.up.click()
    assert [one.id for one in route_of(window, ROUTE).groups][:2] == ["dams", "sire"]
    assert editor.board.lines[0].key.id == "dams"
    assert not editor.details.up.isEnabled()


def test_two_males_are_no_pair(begin: Begin) -> None:
    window = begin()
    editor = open_editor(window, "outright")
    editor.actions_on.add_pairing()
    assert "There are no males in this route yet" in editor.actions_on.notice.text()
    editor.actions_on.menu.aboutToShow.emit()
    editor.actions_on.menu.actions()[0].trigger()
    editor.actions_on.add_pairing()
    assert "There are no females in this route yet" in editor.actions_on.notice.text()


def test_undo_brings_the_first_answer_back_and_a_route_that_goes_ends_it(begin: Begin, qtbot: QtBot) -> None:
    window = begin()
    editor = open_editor(window, "visual-sire")
    assert editor.finding.head.text() == "This route needs 1,556 for 80 %."
    plan = window.document.plan
    others = tuple(route for route in plan.routes if route.id != "visual-sire")
    window.document.edit(msgspec.structs.replace(plan, routes=others), "delete it")
    assert window.views.page() is None
    window.document.undo()
    qtbot.waitUntil(lambda: window.document.complete)


def test_every_control_has_a_name(begin: Begin) -> None:
    window = begin()
    editor = open_editor(window, ROUTE)
    nameless = [
        type(widget).__name__
        for widget in editor.findChildren(QWidget)
        if widget.isVisibleTo(editor)
        and widget.focusPolicy() & Qt.FocusPolicy.TabFocus
        and not widget.focusProxy()
        and not widget.accessibleName()
        and not (hasattr(widget, "text") and widget.text())
    ]
    assert nameless == []


def test_names_from_strangers_are_shown_as_typed(begin: Begin, tmp_path: Path) -> None:
    plan = json.loads((SAMPLES / "amel-lavender.plan.json").read_text("utf-8"))
    route = next(one for one in plan["routes"] if one["id"] == ROUTE)
    names = {"sire": "<b>x<>" + "y" * 300, "dams": "شبل-الفجر", "daughters": "&amp;"}
    text = json.dumps(route)
    for old, new in names.items():
        text = text.replace(f'"{old}"', json.dumps(new))
    plan["routes"] = [json.loads(text)]
    path = tmp_path / "names.plan.json"
    path.write_text(json.dumps(plan), "utf-8")
    window = begin(path)
    editor = open_editor(window, ROUTE)
    assert line_of(editor, "group", names["sire"]).name.text().startswith("<b>x<>")
    assert line_of(editor, "group", names["sire"]).name.width() < 130
    assert line_of(editor, "group", "شبل-الفجر").name.text() == "شبل الفجر"
    assert "&amp;" in line_of(editor, "pairing", "back").sentence.text()
    assert editor.width() <= 1280
    assert editor_of(window) is editor


# Said by the offscreen platform of every menu.
@pytest.mark.qt_log_ignore("This plugin does not support", extend=True)
def test_by_keyboard_only_a_hold_back_is_added_paired_and_undone(begin: Begin, qtbot: QtBot) -> None:
    window = begin()
    window.activateWindow()
    window.page.routes.setFocus()
    before = window.document.plan
    qtbot.waitUntil(lambda: QApplication.focusWidget() is window.page.routes)
    press(Qt.Key.Key_Return)
    editor = editor_of(window)
    tab_to("Price of each: Dams")
    write("95")
    tab_to("Add animals")
    press(Qt.Key.Key_Space)
    qtbot.waitUntil(editor.actions_on.menu.isVisible)
    menu = editor.actions_on.menu
    QTest.keyClick(menu, Qt.Key.Key_Down)
    QTest.keyClick(menu, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: not menu.isVisible())
    route = window.document.selected.id if window.document.selected else ""
    name = route_of(window, route).groups[-1].id
    assert line_of(editor, "group", name).isAncestorOf(QApplication.focusWidget())
    tab_to(f"Where from: {titled(name)}")
    for _ in range(3):
        press(Qt.Key.Key_Down)
    assert isinstance(group(window, route, name), Held)
    tab_to("Pair animals")
    press(Qt.Key.Key_Space)
    assert len(route_of(window, route).pairings) == 2
    for _ in range(20):
        press(Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert window.document.plan == before
    press(Qt.Key.Key_Escape)
    assert window.views.page() is None


def test_a_double_click_in_the_list_opens_it(begin: Begin) -> None:
    window = begin()
    table = window.page.routes
    spot = table.visualRect(table.model().index(1, 0)).center()
    QTest.mouseClick(table.viewport(), Qt.MouseButton.LeftButton, pos=spot)
    QTest.mouseDClick(table.viewport(), Qt.MouseButton.LeftButton, pos=spot)
    assert window.document.selected is not None
    assert editor_of(window).head.name.text() == window.document.selected.name


def test_a_change_is_held_against_what_was(begin: Begin, qtbot: QtBot) -> None:
    window = begin()
    editor = open_editor(window, "visual-sire")
    assert editor.finding.head.text() == "This route needs 1,556 for 80 %."
    type_into(field(line_of(editor, "group", "sire"), "price"), "1")
    assert window.document.plan.routes[1].groups[0].price == 1  # type: ignore[union-attr]
    qtbot.waitUntil(lambda: window.document.complete and not window.document.patient)
    # The double answers with the same figures whatever the price is: nothing to tell apart.
    assert "Before this edit" not in editor.finding.head.text()


def test_an_answer_of_before_is_told_apart_and_the_wait_can_end(start: Open, qtbot: QtBot) -> None:
    done = Event()

    def engine() -> Engine:
        def slow(plan: Plan, route: Route) -> Generator[float, None, RouteResult]:
            while any(isinstance(one, Held) for one in route.groups) and not done.wait(0.002):
                yield 0.25
            return double.evaluate_route(plan, route)

        return slow

    window = start(engine=engine, wait=False)
    qtbot.waitUntil(lambda: window.document.found[1].state == "answered")
    editor = open_editor(window, ROUTE)
    qtbot.waitUntil(editor.finding.progress.isVisible)
    assert editor.finding.progress.accessibleName() == "Working it out: 25 %"
    assert editor.finding.working.text() == "Cancel"
    editor.finding.working.click()
    assert window.document.stopped
    assert editor.finding.head.text() == "Stopped before it was done."
    done.set()
    window.document.history.set_clean()


def test_an_animal_of_mine_is_in_one_line_at_a_time(begin: Begin) -> None:
    window = begin(SAMPLES / "boa-my-animals.plan.json")
    editor = open_editor(window, "mine")
    editor.actions_on.menu.aboutToShow.emit()
    editor.actions_on.mine.actions()[0].trigger()
    assert editor.actions_on.notice.text().startswith("An animal of mine can be in one line at a time")
    assert len(route_of(window, "mine").groups) == 2


def test_what_is_for_sale_is_added_with_its_price(begin: Begin) -> None:
    window = begin()
    editor = open_editor(window, ROUTE)
    editor.actions_on.menu.aboutToShow.emit()
    editor.actions_on.offers.actions()[0].trigger()
    offer = window.document.plan.for_sale[0]
    new = route_of(window, ROUTE).groups[-1]
    assert isinstance(new, Bought)
    assert (new.sex, new.carries, new.price) == (offer.sex, offer.carries, offer.price)


@pytest.mark.parametrize(
    ("sample", "route"),
    [
        ("amel-lavender", ROUTE),
        ("boa-my-animals", "mine"),
        ("gecko-three-generations", "three-gens"),
        ("hognose-series", "cara-het"),
    ],
)
def test_no_text_is_cut(begin: Begin, sample: str, route: str) -> None:
    window = begin(SAMPLES / f"{sample}.plan.json")
    editor = open_editor(window, route)
    for line in editor.board.lines:
        editor.board.choose(line.key)
        QApplication.processEvents()
        for widget in editor.findChildren(QWidget):
            if widget.isVisibleTo(editor):
                assert not _is_cut(widget), (line.key, widget)


def _is_cut(widget: QWidget) -> bool:
    if isinstance(widget, QLabel) and widget.wordWrap():
        return widget.heightForWidth(widget.width()) > widget.height() + 1
    if isinstance(widget, QLabel):
        return widget.fontMetrics().horizontalAdvance(widget.text()) > widget.width() + 1
    if isinstance(widget, SentenceField | SentenceChoice | QPushButton | QRadioButton):
        return widget.sizeHint().width() > widget.width() + 1
    return False


def test_why_is_one_step_away(begin: Begin) -> None:
    window = begin()
    open_editor(window, ROUTE).head.why.click()
    assert isinstance(window.views.page(), WhyPage)
