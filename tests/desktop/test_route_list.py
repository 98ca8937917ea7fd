"""Routes are named, moved, hidden and deleted in the list, each as one step; nothing changes the answer silently."""

from __future__ import annotations

import dataclasses
from collections.abc import Generator, Iterator

import msgspec
import pytest
import window_double as double
from PySide6.QtCore import QModelIndex, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLineEdit
from pytestqt.qtbot import QtBot
from windows import Open

from core.plan.model import Plan, Route
from core.routes.result import RouteResult
from desktop.evaluation import Engine, core_engine
from desktop.marks import mark_of
from desktop.panels.routes.columns import CAUTIONS, COLUMNS, ROUTE_AT, fitting
from desktop.panels.routes.widths import _needed
from desktop.plan_files import SAMPLES
from desktop.window import MainWindow

ALT = Qt.KeyboardModifier.AltModifier
LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def window(start: Open, qtbot: QtBot) -> Iterator[MainWindow]:
    window: MainWindow = start()
    window.page.routes.setFocus()
    yield window
    qtbot.waitUntil(lambda: window.document.complete)


def names(window: MainWindow) -> list[str]:
    return [one.name for one in window.page.routes.rows.rows]


def choose(window: MainWindow, name: str) -> None:
    view = window.page.routes
    view.setCurrentIndex(view.rows.index(names(window).index(name), ROUTE_AT))


def chosen(window: MainWindow) -> str:
    selected = window.document.selected
    assert selected is not None
    assert window.page.routes.chosen is not None
    assert window.page.routes.chosen.id == selected.id
    return selected.name


def assert_undone(window: MainWindow, what: str, before: list[str]) -> None:
    assert window.menus.undo.text() == f"Undo {what}"
    window.menus.undo.trigger()
    assert sorted(names(window)) == sorted(before)
    assert not window.menus.undo.isEnabled()


def test_a_copy_stands_there_at_once_and_is_chosen(window: MainWindow) -> None:
    before = names(window)
    choose(window, "Double hets, then buy")
    window.page.route_actions.duplicate.trigger()
    assert chosen(window) == "Double hets, then buy, copy"
    plan = window.document.plan
    places = [route.name for route in plan.routes]
    assert places.index(chosen(window)) == places.index("Double hets, then buy") + 1
    assert window.document.complete
    window.page.route_actions.duplicate.trigger()
    assert chosen(window) == "Double hets, then buy, copy, copy"
    window.menus.undo.trigger()
    assert_undone(window, "duplicate Double hets, then buy", before)


def test_a_name_is_changed_in_place(window: MainWindow, qtbot: QtBot) -> None:
    before = names(window)
    view = window.page.routes
    choose(window, "Buy the finished animal")
    QTest.keyClick(view, Qt.Key.Key_F2)
    field = view.findChild(QLineEdit)
    assert field is not None
    assert field.text() == "Buy the finished animal"
    QTest.keyClicks(field, "Just buy it")
    QTest.keyClick(field, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: chosen(window) == "Just buy it")
    assert window.page.steps.name.text() == "Just buy it"
    assert_undone(window, "rename Just buy it", before)


@pytest.mark.qt_log_ignore("does not support raise", "propagateSizeHints")
def test_a_route_without_a_name_keeps_the_old_one(window: MainWindow) -> None:
    view = window.page.routes
    choose(window, "Buy the finished animal")
    window.page.route_actions.rename.trigger()
    field = view.findChild(QLineEdit)
    assert field is not None
    field.clear()
    QTest.keyClick(field, Qt.Key.Key_Return)
    assert chosen(window) == "Buy the finished animal"
    assert not window.document.has_unsaved_changes


def test_a_row_moved_by_keys_leaves_the_rows_as_they_are_seen(window: MainWindow) -> None:
    before = names(window)
    plan = window.document.plan
    choose(window, before[2])
    QTest.keyClick(window.page.routes, Qt.Key.Key_Up, ALT)
    assert names(window) == [before[0], before[2], before[1], *before[3:]]
    QTest.keyClick(window.page.routes, Qt.Key.Key_Up, ALT)
    assert names(window)[:3] == [before[2], before[0], before[1]]
    assert chosen(window) == before[2]
    assert window.page.routes.is_in_own_order
    assert not window.page.route_actions.up.isEnabled()
    assert_undone(window, f"move {before[2]}", before)
    assert window.document.plan == plan


def test_a_row_is_dragged_to_another_place(window: MainWindow) -> None:
    before = names(window)
    rows = window.page.routes.rows
    dragged = rows.mimeData([rows.index(0, ROUTE_AT)])
    assert rows.dropMimeData(dragged, Qt.DropAction.MoveAction, 3, 0, QModelIndex())
    assert names(window) == [before[1], before[2], before[0], *before[3:]]
    dragged = rows.mimeData([rows.index(2, ROUTE_AT)])
    assert rows.dropMimeData(dragged, Qt.DropAction.MoveAction, -1, -1, rows.index(0, ROUTE_AT))
    assert names(window) == before


def test_a_moved_route_keeps_its_mark(window: MainWindow) -> None:
    marks = {one.id: one.mark for one in window.document.found}
    choose(window, names(window)[0])
    QTest.keyClick(window.page.routes, Qt.Key.Key_Down, ALT)
    window.page.route_actions.delete.trigger()
    assert all(marks[one.id] == one.mark for one in window.document.found)
    window.menus.undo.trigger()
    assert {one.id: one.mark for one in window.document.found} == marks


def test_a_deleted_route_is_gone_and_comes_back(window: MainWindow) -> None:
    before = names(window)
    choose(window, before[1])
    QTest.keyClick(window.page.routes, Qt.Key.Key_Delete)
    assert before[1] not in names(window)
    assert chosen(window) == before[2]
    assert_undone(window, f"delete {before[1]}", before)


def test_the_last_route_can_be_deleted_too(window: MainWindow) -> None:
    for _ in range(7):
        window.page.route_actions.delete.trigger()
    assert names(window) == []
    assert window.page.answer.head.text() == "This plan has no routes yet."
    assert not window.page.route_actions.rename.isEnabled()


def test_hiding_the_cheapest_is_said(window: MainWindow, qtbot: QtBot) -> None:
    before = names(window)
    answer, bar = window.page.answer, window.page.route_bar
    assert not bar.hidden.isVisible()
    choose(window, "Lavender sire, double hets")
    window.page.route_actions.hide.trigger()
    assert answer.head.text() == "Cheapest shown: Double hets, bred together. Set aside 1,889."
    assert answer.lead.text().endswith("Lavender sire, double hets is hidden and needs only 1,556.")
    assert "with that the best chance of these routes is 73 %." in answer.lead.text()
    assert "cheapest shown" in window.page.routes.rows.index(0, 0).data(Qt.ItemDataRole.AccessibleTextRole)
    assert chosen(window) == "Double hets, bred together"
    assert bar.hidden.text() == "1 hidden: show"
    chart = window.page.money.chart
    qtbot.waitUntil(lambda: "visual-sire" not in [one.id for one in chart.canvas.picture.series])
    assert not window.document.has_unsaved_changes
    qtbot.mouseClick(bar.hidden, LEFT)
    assert names(window) == before
    assert window.menus.undo.text() == "Undo show all routes"
    window.menus.undo.trigger()
    assert_undone(window, "hide Lavender sire, double hets", before)


def test_hiding_another_leaves_the_answer_alone(window: MainWindow) -> None:
    said = window.page.answer.head.text(), window.page.answer.lead.text()
    choose(window, "Visuals, young together")
    window.page.route_actions.hide.trigger()
    assert (window.page.answer.head.text(), window.page.answer.lead.text()) == said


def test_all_routes_hidden_is_said(window: MainWindow) -> None:
    for _ in range(7):
        window.page.route_actions.hide.trigger()
    assert window.page.answer.head.text() == "All routes are hidden."
    assert window.page.route_bar.hidden.text() == "7 hidden: show"
    window.page.route_actions.show_hidden.trigger()
    assert window.page.answer.head.text().startswith("Cheapest: Lavender sire")


def test_a_route_with_the_id_of_a_hidden_one_that_is_gone_is_shown(window: MainWindow) -> None:
    document = window.document
    choose(window, "Visuals, young together")
    window.page.route_actions.hide.trigger()
    plan = document.plan
    without = msgspec.structs.replace(plan, routes=tuple(one for one in plan.routes if one.id != "from-visuals"))
    document.edit(without, "delete")
    document.edit(plan, "add")
    assert "Visuals, young together" in names(window)


def test_heads_sort_by_keyboard(window: MainWindow) -> None:
    head = window.page.routes.horizontalHeader()
    own = [route.name for route in window.document.plan.routes]
    head.setFocus()
    QTest.keyClick(head, Qt.Key.Key_Space)
    assert names(window)[0] == "Buy the finished animal"
    assert head.accessibleDescription() == "Route, sorted with the least first"
    QTest.keyClick(head, Qt.Key.Key_Space)
    assert names(window)[0] == "Lavender sire, double hets"
    QTest.keyClick(head, Qt.Key.Key_Space)
    assert names(window) == own
    QTest.keyClick(head, Qt.Key.Key_Right)
    assert head.accessibleDescription() == "Set aside"
    QTest.keyClick(head, Qt.Key.Key_Space)
    assert names(window)[0] == "Lavender sire, double hets"


def test_the_list_and_the_goal_follow_the_dragged_line(window: MainWindow, qtbot: QtBot) -> None:
    rows = window.page.routes.rows
    window.page.chance.look_ahead(60)
    assert window.page.goal.fields["goal.chance"].text() == "60"
    qtbot.waitUntil(lambda: rows.rows[0].name == "Finished sire, possible hets")
    assert rows.index(0, 2).data() == "1,394"
    window.page.chance.give_up()
    assert window.page.goal.fields["goal.chance"].text() == "80"
    qtbot.waitUntil(lambda: rows.rows[0].name == "Lavender sire, double hets")


def test_the_counts_as_drawn_change_the_whole_row(start: Open, qtbot: QtBot) -> None:
    window = start(engine=core_engine)
    tabs, document = window.page.route_bar.counts, window.document
    qtbot.waitUntil(lambda: document.complete)
    cheapest = {one.id: one for one in document.shown}
    tabs.setFocus()
    QTest.keyClick(tabs, Qt.Key.Key_Right)
    drawn = {one.id: one for one in window.page.routes.rows.rows}
    moved = [id_ for id_, one in drawn.items() if one.females != cheapest[id_].females]
    assert moved
    for id_ in moved:
        one = drawn[id_]
        assert one.result is one.drawn
        assert one.to_goal is None or one.to_goal.money >= cheapest[id_].to_goal.money
    assert window.page.answer.head.text().startswith("Cheapest: ")
    qtbot.waitUntil(lambda: window.page.money.chart.showing().found == tuple(document.shown))


def test_the_menu_of_a_row_has_everything(window: MainWindow) -> None:
    menu = window.page.route_actions.menu()
    texts = [action.text() for action in menu.actions() if not action.isSeparator()]
    assert texts == [action.text() for action in window.menus.route.actions() if not action.isSeparator()]


def test_what_has_no_room_is_told(window: MainWindow) -> None:
    rows = window.page.routes.rows
    told = rows.index(0, ROUTE_AT).data(Qt.ItemDataRole.AccessibleDescriptionRole)
    for said in ("Set aside: 1,556", "Up front: 1,085", "Surplus young: 23", "To house: 3", "Chance with 1,800: 80 %"):
        assert said in told
    assert "Surplus young: 23" in rows.index(0, ROUTE_AT).data(Qt.ItemDataRole.ToolTipRole)


@pytest.mark.parametrize("width", [1000, 1280, 1920])
def test_columns_never_run_out_of_the_list(window: MainWindow, qtbot: QtBot, width: int) -> None:
    window.resize(width, 900)
    view = window.page.routes
    head = view.horizontalHeader()
    qtbot.waitUntil(lambda: view.viewport().width() <= width)
    shown = [place for place in range(len(COLUMNS)) if not view.isColumnHidden(place)]
    assert sum(head.sectionSize(place) for place in shown) <= view.viewport().width()
    assert {0, 2} <= set(shown)


def test_the_routes_in_sight_are_known(window: MainWindow, qtbot: QtBot) -> None:
    view, plan = window.page.routes, window.document.plan
    more = tuple(msgspec.structs.replace(plan.routes[-1], id=f"more-{n}") for n in range(20 - len(plan.routes)))
    window.document.edit(msgspec.structs.replace(plan, routes=plan.routes + more), "add many")
    qtbot.waitUntil(lambda: window.document.complete)
    rows = [one.id for one in view.rows.rows]
    view.setCurrentIndex(view.rows.index(0, ROUTE_AT))
    assert view.in_sight() == frozenset(rows[:8])
    told: list[frozenset[str]] = []
    view.sight_changed.connect(lambda: told.append(view.in_sight()))
    view.scrollToBottom()
    assert told[-1] == frozenset({rows[0], *rows[-8:]})


def test_the_least_important_columns_give_way_first() -> None:
    widths = [100.0] * len(COLUMNS)
    kept = [fitting(widths, room) for room in range(200, 1300, 100)]
    assert [len(places) for places in kept] == list(range(2, 13))
    heads = [[COLUMNS[place].head for place in places] for places in kept]
    assert heads[0] == ["Route", "Set aside"]
    assert "You buy" not in heads[-2]


def test_long_cautions_are_cut_before_they_make_way(window: MainWindow, qtbot: QtBot) -> None:
    window.resize(1280, 800)
    plan, view = window.document.plan, window.page.routes
    named = msgspec.structs.replace(plan.routes[0], name="Double het × tremper albino het eclipse and Rosie")
    no_budget = msgspec.structs.replace(plan.goal, budget=None)
    window.document.edit(msgspec.structs.replace(plan, routes=(named, *plan.routes[1:]), goal=no_budget), "rename")
    qtbot.waitUntil(lambda: window.document.complete and window.minder.is_settled)
    qtbot.waitUntil(lambda: not view._measuring.isActive())
    assert not view.isColumnHidden(COLUMNS.index(CAUTIONS))


def _dear_engine() -> Engine:
    """As the double, with what the plan says of money spent before anything."""

    def steps(plan: Plan, route: Route) -> Generator[float, None, RouteResult]:
        result = yield from double.route_steps(plan, route)
        goal, more = result.to_goal, plan.costs.setup
        dear = dataclasses.replace(goal, money=goal.money + more) if goal else None
        return dataclasses.replace(result, up_front=result.up_front + more, to_goal=dear)

    return steps


def test_figures_that_come_back_are_not_cut(start: Open, qtbot: QtBot) -> None:
    """Where room is short, none is kept for what is gone: what comes in later has its room made anew."""
    window = start(engine=_dear_engine)
    # So high that no scroll bar comes or goes: that would make room anew, too.
    window.resize(1100, 1300)
    plan, view = window.document.plan, window.page.routes

    def settled() -> None:
        qtbot.waitUntil(lambda: window.document.complete and window.minder.is_settled)
        qtbot.waitUntil(lambda: not view._measuring.isActive())

    dear = msgspec.structs.replace(plan, costs=msgspec.structs.replace(plan.costs, setup=10_000_000))
    window.document.edit(dear, "dearer")
    settled()
    window.document.undo()
    settled()
    # As a resized window does it.
    view._spread()
    window.document.redo()
    settled()
    for place in range(1, len(COLUMNS) - 1):
        cells = [view.rows.cell(row, place) for row in range(view.rows.rowCount())]
        needed = max(_needed((cell.text, cell.note, cell.pill), COLUMNS[place]) for cell in cells)
        assert view.isColumnHidden(place) or view.columnWidth(place) >= needed


def test_twenty_routes_are_told_apart_without_colour() -> None:
    marks = [mark_of(number) for number in range(64)]
    assert len({(one.light, one.dash, one.symbol) for one in marks}) == 64
    assert len({(one.dash, one.symbol) for one in marks[:32]}) == 32
    assert len({one.name for one in marks}) == 64
    for first, second in zip(marks[:8], marks[8:16], strict=True):
        assert first.light == second.light
        assert first.dash != second.dash
        assert first.symbol != second.symbol


def test_live_bearers_have_young(start: Open, qtbot: QtBot) -> None:
    window = start(SAMPLES / "boa-my-animals.plan.json")
    qtbot.waitUntil(lambda: window.document.complete)
    at = [column.head for column in COLUMNS].index("Eggs")
    model = window.page.routes.model()
    assert model.headerData(at, Qt.Orientation.Horizontal) == "Young"
    assert "Young born until" in model.headerData(at, Qt.Orientation.Horizontal, Qt.ItemDataRole.ToolTipRole)
    assert window.page.eggs.tabs.tabText(0) == "Chance by young"
    plan = window.document.plan
    species = msgspec.structs.replace(plan.species, young="eggs")
    window.document.edit(msgspec.structs.replace(plan, species=species), "the young")
    assert model.headerData(at, Qt.Orientation.Horizontal) == "Eggs"
    assert window.page.eggs.tabs.tabText(0) == window.page.eggs.chart.name == "Chance by eggs"
