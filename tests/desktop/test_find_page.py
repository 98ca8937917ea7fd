"""Routes are found beside the window, and one click makes one a route of the plan."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import msgspec
import pytest
from gallery_find import quick_plan
from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtGui import QColor
from pytestqt.qtbot import QtBot
from windows import Open

from core.plan.model import Plan, Route
from core.plan.write import write_plan
from core.progress import finished
from core.search.find import find
from core.search.found import Found
from desktop.appearance import Appearance
from desktop.editor.groups import renamed
from desktop.evaluation import core_engine
from desktop.find.page import FindPage
from desktop.find.search import RouteSearch
from desktop.find.trade import TradeChart
from desktop.first.empty import empty_plan
from desktop.new_route.page import NewRoute
from desktop.paste.window import PasteWindow
from desktop.theme import DARK, LIGHT
from desktop.window import MainWindow
from desktop.words import find as words
from desktop.words.numbers import PlainNumbers

LEFT = Qt.MouseButton.LeftButton
Opened = Callable[[Plan], tuple[MainWindow, FindPage]]


@pytest.fixture
def opened(start: Open, qtbot: QtBot, tmp_path: Path) -> Opened:
    def open_it(plan: Plan) -> tuple[MainWindow, FindPage]:
        path = tmp_path / "mine.plan.json"
        path.write_bytes(write_plan(plan))
        window = start(path, engine=core_engine)
        qtbot.mouseClick(window.page.route_bar.search, LEFT)
        page = window.views.page()
        assert isinstance(page, FindPage)
        qtbot.waitUntil(lambda: page.is_settled, timeout=20_000)
        return window, page

    return open_it


@pytest.fixture(scope="module")
def plan() -> Plan:
    plan = quick_plan()
    return msgspec.structs.replace(plan, routes=plan.routes[:1])


@pytest.fixture(scope="module")
def found(plan: Plan) -> Found:
    return finished(find(plan))


def test_what_is_found_is_listed_the_cheapest_first(opened: Opened, plan: Plan, found: Found) -> None:
    _, page = opened(plan)
    names = [row.name.text() for row in page.rows if row.isVisibleTo(page)]
    assert names == [one.route.name for one in (*found.proposals, *found.others)]
    assert page.head.text().startswith(f"Cheapest: {found.proposals[0].route.name}. Set aside ")
    assert "the others cannot be cheaper" in page.progress.text()
    assert "No other route of one or two generations that was considered needs less than" in page.proven.text()
    assert "by season" in page.seasons.told
    assert not page.stop.isVisible()
    # Twice as large text still fits a window of 800 px: what is too high for it scrolls.
    assert page.minimumSizeHint().height() < 400


def test_one_click_makes_it_a_route_and_undo_takes_it_back(opened: Opened, plan: Plan, qtbot: QtBot) -> None:
    window, page = opened(plan)
    row = page.rows[2]
    qtbot.mouseClick(row.add, LEFT)
    assert window.views.page() is page
    assert window.document.plan.routes[-1].name == row.name.text()
    assert (row.add.text(), row.add.isEnabled()) == (words.TAKEN, False)
    qtbot.waitUntil(lambda: window.document.complete)
    best = window.document.found[-1].to_goal
    assert best is not None
    assert best.money == pytest.approx(page.shown()[2].money)
    window.menus.undo.trigger()
    assert len(window.document.plan.routes) == 1
    assert (row.add.text(), row.add.isEnabled()) == (words.ADD, True)
    qtbot.waitUntil(lambda: window.document.complete)


def test_a_route_under_other_names_is_in_the_plan(opened: Opened, plan: Plan, qtbot: QtBot) -> None:
    window, page = opened(plan)
    row = page.rows[2]
    qtbot.mouseClick(row.add, LEFT)
    *others, added = window.document.plan.routes
    mine = renamed(added, added.groups[0].id, "Thistle")
    assert isinstance(mine, Route)
    assert window.document.edit(msgspec.structs.replace(window.document.plan, routes=(*others, mine)), "a name") == ()
    assert row.add.text() == words.TAKEN
    qtbot.waitUntil(lambda: window.document.complete)


def test_another_goal_is_searched_anew(opened: Opened, plan: Plan, qtbot: QtBot) -> None:
    window, page = opened(plan)
    before = page.shown()[0].money
    goal = msgspec.structs.replace(plan.goal, chance=0.5)
    assert window.document.edit(msgspec.structs.replace(window.document.plan, goal=goal), "the chance") == ()
    qtbot.waitUntil(lambda: page.is_settled and bool(page.shown()), timeout=20_000)
    assert page.shown()[0].money < before


def test_it_can_be_stopped_and_goes_on(start: Open, plan: Plan, qtbot: QtBot, tmp_path: Path) -> None:
    path = tmp_path / "mine.plan.json"
    path.write_bytes(write_plan(plan))
    window = start(path, engine=core_engine)
    window.find_routes()
    page = window.views.page()
    assert isinstance(page, FindPage)
    qtbot.waitUntil(lambda: bool(page.shown()), timeout=20_000)
    if not page.is_settled:
        qtbot.mouseClick(page.stop, LEFT)
        assert page.progress.text().startswith("Stopped")
        assert page.shown()
        qtbot.mouseClick(page.stop, LEFT)
    qtbot.waitUntil(lambda: page.is_settled, timeout=20_000)
    assert not page.stop.isVisibleTo(page)


def test_escape_leaves_and_what_was_found_is_there_again(opened: Opened, plan: Plan, qtbot: QtBot) -> None:
    window, page = opened(plan)
    many = len(page.shown())
    qtbot.keyClick(page.back, Qt.Key.Key_Escape)
    assert window.views.page() is None
    window.menus.find.trigger()
    again = window.views.page()
    assert isinstance(again, FindPage)
    assert again is not page
    assert len(again.shown()) == many


def test_the_charts_follow_when_light_turns_dark(opened: Opened, plan: Plan, appearance: Appearance) -> None:
    _, page = opened(plan)
    (chart, *_) = (one for one in page.findChildren(TradeChart) if one.isVisible())
    for scheme, colours in ((Qt.ColorScheme.Dark, DARK), (Qt.ColorScheme.Light, LIGHT)):
        appearance.choose(scheme)
        QCoreApplication.processEvents()
        drawn = chart.grab().toImage()
        assert drawn.pixelColor(drawn.width() - 3, drawn.height() - 3) == QColor(colours.page)


def test_a_new_route_leads_here(opened: Opened, plan: Plan, qtbot: QtBot) -> None:
    window, page = opened(plan)
    page.done.emit()
    qtbot.mouseClick(window.page.route_bar.new, LEFT)
    shapes = window.views.page()
    assert isinstance(shapes, NewRoute)
    qtbot.waitUntil(lambda: len(shapes.found.shown) > 2)
    assert [row.name.text() for row in shapes.found.rows] == [one.route.name for one in page.shown()[:3]]
    qtbot.mouseClick(shapes.search, LEFT)
    assert isinstance(window.views.page(), FindPage)


def test_a_new_plan_is_led_here(start: Open, plan: Plan, qtbot: QtBot) -> None:
    window = start()
    window.document.replace(msgspec.structs.replace(plan, routes=()), None)
    first = window.page.first
    assert first is not None
    assert first.greeting is not None
    first.greeting.all.click()
    page = window.views.page()
    assert isinstance(page, FindPage)
    qtbot.waitUntil(lambda: page.is_settled and bool(page.shown()), timeout=20_000)


def test_one_click_beside_the_shapes_makes_it_a_route(opened: Opened, plan: Plan, qtbot: QtBot) -> None:
    window, page = opened(plan)
    page.done.emit()
    qtbot.mouseClick(window.page.route_bar.new, LEFT)
    shapes = window.views.page()
    assert isinstance(shapes, NewRoute)
    qtbot.waitUntil(lambda: bool(shapes.found.shown))
    name = shapes.found.shown[0].route.name
    qtbot.mouseClick(shapes.found.rows[0].add, LEFT)
    assert window.views.page() is None
    assert window.document.plan.routes[-1].name == name
    qtbot.waitUntil(lambda: window.document.complete)


def test_without_a_list_one_can_be_pasted(opened: Opened, qtbot: QtBot) -> None:
    plan = empty_plan()
    window, page = opened(msgspec.structs.replace(plan, routes=(Route(id="r", name="Empty"),)))
    assert page.progress.text() == ""
    qtbot.mouseClick(page.paste, LEFT)
    dialog = window.findChild(PasteWindow)
    assert dialog is not None
    dialog.reject()


def test_words_where_there_is_nothing() -> None:
    numbers, empty = PlainNumbers(), empty_plan()
    assert words.headline(empty, None, numbers).startswith("Looking")
    over = Found(ended=True)
    assert "paste a list" in words.headline(empty, over, numbers)
    assert words.proven(over, numbers) == ""
    assert words.progress(None, numbers, stopped=False) == words.BEGINNING


@pytest.mark.parametrize(("sex", "lacking"), [("male", "females"), ("female", "a male")])
def test_words_where_one_sex_is_lacking(plan: Plan, sex: str, lacking: str) -> None:
    alone = tuple(one for one in plan.for_sale if one.sex == sex)
    one_sex = msgspec.structs.replace(plan, for_sale=alone, my_animals=())
    assert f"only {sex}s" in words.headline(one_sex, Found(ended=True), PlainNumbers())
    assert f"takes {lacking}, too" in words.headline(one_sex, Found(ended=True), PlainNumbers())


def test_words_where_nothing_reaches_the_goal(found: Found) -> None:
    """While the search goes on something still may."""
    one = found.proposals[0]
    close = msgspec.structs.replace(one.route, name="A pair")
    short = replace(one, route=close, result=replace(one.result, to_goal=None))
    for ended, said in ((False, "Nothing so far reaches the goal"), (True, "Nothing reaches the goal")):
        head = words.headline(empty_plan(), Found(proposals=(short,), ended=ended), PlainNumbers())
        assert head.startswith(f"{said}: A pair comes closest, with ")


def test_words_of_what_is_proven(found: Found) -> None:
    numbers = PlainNumbers()
    told = words.proven(Found(proposals=found.proposals, floor=1234.9, affordable=False, left_out=1), numbers)
    assert told == (
        "None of these is within your budget. No other route of one or two generations that was "
        "considered needs less than 1,234. "
        "1 kind of animals was not looked at."
    )
    every = Found(proposals=found.proposals, floor=math.inf, looked=20, of=20, ended=True)
    assert words.proven(every, numbers) == "Everything was worked out."
    assert words.proven(replace(every, looked=19), numbers) == ""
    looser = Found(proposals=found.proposals, looked=3, of=20, gap=0.0412, ended=True)
    assert words.progress(looser, numbers, stopped=False) == (
        "3 of 20 routes worked out; the others could save 5 % at most."
    )
    stopped = Found(proposals=found.proposals, looked=3, of=20)
    assert words.progress(stopped, numbers, stopped=True) == "Stopped: 3 of 20 routes worked out."
    around = Found(proposals=found.proposals, looked=3, of=20, traded=True)
    assert words.progress(around, numbers, stopped=False) == (
        "3 of 20 routes worked out; now what sooner and surer cost…"
    )
    large = Found(proposals=found.proposals, frontier=found.frontier, looked=3, of=2000, ended=True)
    assert words.proven(large, numbers).endswith("What sooner and surer cost is told of the routes worked out.")


def test_the_search_keeps_still_when_nobody_looks(opened: Opened, plan: Plan) -> None:
    window, page = opened(plan)
    page.done.emit()
    search = window.findChild(RouteSearch)
    assert search is not None
    assert search.stopped
