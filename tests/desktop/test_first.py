"""Someone who has never seen the program: a sample that says what it is, an empty plan that leads on."""

from __future__ import annotations

from pathlib import Path

import msgspec
from files_cases import plan_file
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot
from windows import Open

from core.plan.check import check_plan
from core.plan.model import Plan
from core.plan.read import load_plan
from desktop.first.empty import empty_plan
from desktop.first.panel import FirstSteps
from desktop.first.progress import Step, can_draw, section_for, steps
from desktop.paste.window import PasteWindow
from desktop.plan_files import SAMPLE
from desktop.window import MainWindow
from desktop.words import first as words
from desktop.words.numbers import PlainNumbers


def sample(**changes: object) -> Plan:
    return msgspec.structs.replace(load_plan(SAMPLE), **changes)


def states(plan: Plan, *left_out: str) -> list[str]:
    return [step.state for step in steps(plan, left_out)]  # type: ignore[arg-type]


def panel(window: MainWindow) -> FirstSteps:
    assert isinstance(window.page.first, FirstSteps)
    return window.page.first


def test_an_empty_plan_can_be_saved() -> None:
    assert check_plan(empty_plan()) == ()


def test_the_first_step_that_is_open_is_the_next_one() -> None:
    assert states(empty_plan()) == ["next", "later", "later", "later"]
    assert states(sample(routes=(), for_sale=())) == ["done", "next", "later", "later"]
    assert states(sample(routes=(), for_sale=()), "mine") == ["done", "left out", "next", "later"]
    assert states(sample(routes=()), "mine") == ["done", "left out", "done", "next"]
    assert states(sample(), "mine") == ["done", "left out", "done", "done"]


def test_routes_can_be_drawn_as_soon_as_there_is_something_to_draw_them_from() -> None:
    assert can_draw(sample(routes=()))
    assert not can_draw(empty_plan())


def test_what_a_step_came_to_is_said() -> None:
    numbers = PlainNumbers()
    plan = sample()
    assert words.story(plan, Step("want", "done"), numbers) == "Corn snake: amel + lavender visual."
    assert words.story(plan, Step("sale", "done"), numbers) == "Six males and 13 females on offer."
    assert words.story(sample(genes=(), goal=empty_plan().goal), Step("want", "next"), numbers).endswith(
        "Now name the genes that matter to you."
    )


def test_a_sample_says_so_beside_the_menus(start: Open, qtbot: QtBot, tmp_path: Path) -> None:
    window = start()
    line = window.sample_line
    assert line is not None
    assert "invented" in line.label.text()
    assert not line.go_on.isVisible()
    qtbot.mouseClick(line.empty, Qt.MouseButton.LeftButton)
    assert window.document.plan == empty_plan()
    assert not line.isVisible()
    window.filing.open(plan_file(tmp_path))
    assert not line.isVisible()
    window.filing.open(SAMPLE)
    assert line.go_on.text() == "Go on with mine.plan.json"
    qtbot.mouseClick(line.go_on, Qt.MouseButton.LeftButton)
    assert window.document.path == tmp_path / "mine.plan.json"


def test_an_empty_plan_shows_its_steps_in_place_of_routes(start: Open) -> None:
    window = start()
    window.menus.new.trigger()
    assert panel(window).isVisible()
    assert not window.page.routes.isVisible()
    window.filing.open(SAMPLE)
    assert not panel(window).isVisible()
    assert window.page.routes.isVisible()


def test_whoever_owns_none_goes_on(start: Open) -> None:
    window = start()
    window.document.replace(sample(routes=(), for_sale=()), None)
    rows = panel(window).rows
    rows["mine"].leave_out.click()
    assert rows["mine"].state.text() == "left out"
    assert rows["sale"].state.text() == "next"
    assert rows["sale"].paste.property("look") == "main"
    rows["sale"].paste.click()
    dialog = window.findChild(PasteWindow)
    assert dialog is not None
    dialog.close()


def test_a_sample_is_one_click_away(start: Open, qtbot: QtBot) -> None:
    window = start()
    window.menus.new.trigger()
    links = {one.text(): one for one in panel(window).sample_links}
    assert len(links) == 7
    qtbot.mouseClick(links["Royal pythons: cheap possible hets?"], Qt.MouseButton.LeftButton)
    assert window.document.plan.title == "Royal pythons: cheap possible hets?"
    qtbot.waitUntil(lambda: window.document.complete)


def test_what_is_wanted_is_said_where_it_is_lacking() -> None:
    named = msgspec.structs.replace(empty_plan(), species=sample().species)
    assert section_for("want", empty_plan()) == "species"
    assert section_for("want", named) == "genes"
    assert section_for("want", sample()) == "wanted"
    assert section_for("sale", empty_plan()) == "sale"
