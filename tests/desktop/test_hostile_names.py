"""A plan in which every name means harm, on every page: shown as typed, and nothing that leaves the program runs it."""

from __future__ import annotations

import html
import json
import re
from collections.abc import Iterator
from itertools import cycle
from pathlib import Path
from typing import Any

import msgspec
import pytest
from PySide6.QtCore import QModelIndex, Qt
from PySide6.QtGui import QAction, QGuiApplication
from PySide6.QtWidgets import (
    QAbstractItemView,
    QCheckBox,
    QFileDialog,
    QGroupBox,
    QLabel,
    QMenu,
    QPushButton,
    QRadioButton,
    QTabBar,
    QToolButton,
    QWidget,
)
from pytestqt.qtbot import QtBot
from windows import Open

from desktop.assumptions.page import AssumptionsPage
from desktop.assumptions.sections import SECTIONS
from desktop.evaluation import core_engine
from desktop.files import asking
from desktop.plan_files import SAMPLES
from desktop.window import MainWindow

NAMES = (
    "<b>x</b> &amp; {x} %1", "=1+1", "@SUM(A1)", "../../etc/passwd", "-2+3 &File", "[*] \u202eevil شبل",
    "<img src=x onerror=y>" + "long " * 60, "two\nlines\tand a tab", "{name} {} {n} %s &lt;",
)  # fmt: skip
# As short names, which hold no blank and no slash.
IDS = ("<b>x<i>", "=1+1", "@SUM(A1)", "&amp;", "{x}%1", "..\\..\\passwd")
BUTTONS = (QPushButton, QRadioButton, QCheckBox, QToolButton)
_MARKUP = re.compile(r"<(b|i|img)\b")
# An ampersand of a name that Qt would take for the key of a button or a menu.
_KEY = re.compile(r"(?<!&)&(&&)*(amp;|lt;|File)")


def harmful(tmp_path: Path) -> Path:
    """The sample with litters and animals of one's own, every name of it another one."""
    plan: dict[str, Any] = json.loads((SAMPLES / "boa-my-animals.plan.json").read_text("utf-8"))
    # Small litters are worked out quickly.
    plan["species"]["clutch"] = {"mean": 6, "sd": 1, "min": 4, "max": 8}
    names, ids, forms = cycle(NAMES), cycle(IDS), {}
    for gene in plan["genes"]:
        gene |= {"name": next(names), "note": next(names)}
        for form in gene["forms"].values():
            forms[form] = next(names)
    called = {one["id"]: f"{next(ids)}{place}" for place, one in enumerate(_groups(plan))}
    plan = _renamed(plan, forms, called)
    for part in (plan["species"], *plan["routes"], *plan["my_animals"]):
        part["name"] = next(names)
    for part in plan["for_sale"]:
        part["label"] = next(names)
    plan["combinations"] = [{"name": next(names), "forms": plan["goal"]["want"][0]["forms"]}]
    plan |= {"title": NAMES[3] + NAMES[0], "notes": "\n".join(NAMES), "currency": "=$<b>"}
    path = tmp_path / "harm.plan.json"
    path.write_text(json.dumps(plan), "utf-8")
    return path


def _groups(plan: dict[str, Any]) -> Iterator[dict[str, Any]]:
    for route in plan["routes"]:
        yield from (*route["groups"], *route["pairings"])


def _renamed(part: Any, forms: dict[str, str], ids: dict[str, str], key: str = "") -> Any:
    if isinstance(part, dict):
        return {one: _renamed(value, forms, ids, one if key != "forms" else "form") for one, value in part.items()}
    if isinstance(part, list):
        return [_renamed(one, forms, ids, key) for one in part]
    if key == "form":
        return forms.get(part, part)
    return ids.get(part, part) if key in ("id", "males", "females", "groups", "source") else part


@pytest.fixture
def window(start: Open, tmp_path: Path) -> MainWindow:
    return start(harmful(tmp_path), engine=core_engine)


def misread(top: QWidget) -> list[str]:
    """What Qt would take for markup or for keys instead of showing it."""
    wrong = []
    for menu in top.findChildren(QMenu):
        # Many are filled when they are opened. Tips of their lines are these lines again, which Qt shows only if asked.
        menu.aboutToShow.emit()
        wrong += [f"a menu shows tips: {menu.title()}"] if menu.toolTipsVisible() else []
    for widget in (top, *top.findChildren(QWidget)):
        if isinstance(widget, QLabel) and widget.textFormat() != Qt.TextFormat.PlainText and widget.text():
            wrong.append(f"a label may read markup: {widget.text()[:80]}")
        if isinstance(widget, BUTTONS) and _KEY.search(widget.text()):
            wrong.append(f"a button takes a key: {widget.text()[:80]}")
        if isinstance(widget, QTabBar):
            wrong += [
                f"a tab takes a key: {one}"
                for place in range(widget.count())
                if _KEY.search(one := widget.tabText(place))
            ]
        if isinstance(widget, (QGroupBox, QMenu)) and _KEY.search(widget.title()):
            wrong.append(f"a title takes a key: {widget.title()}")
        if isinstance(widget, QAbstractItemView) and widget.model() is not None:
            wrong += [f"a tip reads markup: {one}" for one in _tips(widget) if _is_read(one)]
        if _is_read(widget.toolTip()):
            wrong.append(f"a tip reads markup: {widget.toolTip()[:80]}")
    for action in top.findChildren(QAction):
        wrong += [f"an action takes a key: {action.text()}"] if _KEY.search(action.text()) else []
    return wrong


def _is_read(tip: str) -> bool:
    """Whether a tool tip would be read as markup: each is shown as typed only where it is escaped."""
    inside = tip.removeprefix("<qt>").removesuffix("</qt>")
    return bool(_MARKUP.search(inside)) or (inside == tip and "<" in tip)


def _tips(view: QAbstractItemView) -> Iterator[str]:
    model, root = view.model(), QModelIndex()
    columns = view.model().columnCount(root) if hasattr(view, "horizontalHeader") else 1
    for column in range(columns):
        yield str(model.headerData(column, Qt.Orientation.Horizontal, Qt.ItemDataRole.ToolTipRole) or "")
        for row in range(model.rowCount(root)):
            yield str(model.index(row, column).data(Qt.ItemDataRole.ToolTipRole) or "")


def pages(window: MainWindow, qtbot: QtBot) -> Iterator[tuple[str, QWidget]]:
    """Every page of the window in turn."""
    yield "comparison", window
    window.page.steps.show_cautions()
    yield "cautions", window
    for name, opened in (
        ("editor", window.edit_route), ("assumptions", window.show_assumptions), ("why", window.show_why),
        ("beats", lambda: window.show_why(1)), ("season", window.show_season), ("find", window.find_routes),
        ("new route", window.page.route_actions.new.trigger), ("worth", window.show_worth),
        ("matters", lambda: window.show_worth(1)),
    ):  # fmt: skip
        opened()
        page = window.views.page()
        assert page is not None, name
        if isinstance(page, AssumptionsPage):
            for section in SECTIONS:
                page.show_section(section.key)
                yield f"{name}, {section.key}", window
        elif hasattr(page, "is_settled"):
            qtbot.waitUntil(lambda page=page: page.is_settled, timeout=60_000)  # type: ignore[misc]
        yield name, window
        window.views.close_page()
    view = window.show_counter()
    yield "counter", view
    view.reject()


def test_every_page_shows_names_as_typed(window: MainWindow, qtbot: QtBot) -> None:
    wrong = [f"{name}: {one}" for name, top in pages(window, qtbot) for one in misread(top)]
    assert list(dict.fromkeys(wrong)) == []


def test_names_stand_there_letter_by_letter(window: MainWindow) -> None:
    plan = window.document.plan
    said = window.page.answer.head.text()
    assert any(" ".join(route.name.split()) in " ".join(said.split()) for route in plan.routes)
    listed = [str(window.page.routes.model().index(row, 0).data()) for row in range(len(plan.routes))]
    assert sorted(listed) == sorted(" ".join(route.name.split()) for route in plan.routes)
    tip = window.page.routes.model().index(0, 0).data(Qt.ItemDataRole.ToolTipRole)
    assert any(" ".join(route.name.split()) in html.unescape(tip) for route in plan.routes)


def test_questions_show_names_as_typed(window: MainWindow, monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[list[str]] = []
    monkeypatch.setattr(asking.QMessageBox, "exec", lambda box: asked.append(misread(box)) or 0)
    window.document.edit(msgspec.structs.replace(window.document.plan, notes="other"), NAMES[0])
    assert not window.filing.may_go()
    assert asked == [[]]
    assert _KEY.search(window.menus.undo.text()) is None


def test_files_are_proposed_without_a_path_from_a_name(window: MainWindow, monkeypatch: pytest.MonkeyPatch) -> None:
    proposed: list[Path] = []

    def ask(_parent: QWidget, _title: str, start: str, _filter: str) -> tuple[str, str]:
        proposed.append(Path(start))
        return "", ""

    monkeypatch.setattr(QFileDialog, "getSaveFileName", ask)
    window.document.replace(window.document.plan, None)
    for action in (window.menus.save_as, window.menus.export_pdf, window.menus.export_png, window.menus.export_routes):
        action.trigger()
    assert len(proposed) == 4
    for path in proposed:
        assert ".." not in path.parts
        assert "etc" not in path.parts
        assert len(path.name) <= 120
        assert not re.search(r'[<>:"/\\|?*\n\t]', path.name)


def test_copied_tables_hold_no_formula(window: MainWindow) -> None:
    for copy in (window.page.route_actions.copy.trigger, window.page.money.chart.copy_table):
        copy()
        lines = [line.split("\t") for line in QGuiApplication.clipboard().text().split("\n")]
        assert len({len(line) for line in lines}) == 1
        bad = [cell for line in lines for cell in line if re.match(r"\s*[=@]|\s*[-+](?![\d.,% ]*$)", cell)]
        assert bad == []
