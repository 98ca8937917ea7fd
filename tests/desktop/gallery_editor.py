"""Screens of the route editor for the gallery: every kind of line, gene and state."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from pathlib import Path

import msgspec
from editing import choice, choose, field, line_of, open_editor, opener, type_into
from PySide6.QtCore import QSize
from PySide6.QtGui import QPixmap
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from core.plan.model import Bought, Held, Pairing, Plan, Route
from desktop.appearance import Appearance
from desktop.document import PATIENCE_MS, Document
from desktop.evaluation import Underway, core_engine, evaluation_steps
from desktop.evaluator import Evaluator
from desktop.locale_numbers import LocaleNumbers
from desktop.plan_files import SAMPLE, SAMPLES, open_plan
from desktop.window import MainWindow
from desktop.words.editor import sex_word

BACK = "daughters-back"
LONG = "Lavender-het-amel-sires-of-the-first-year-" * 7


def screens(app: QApplication, appearance: Appearance, size: QSize) -> Iterator[tuple[str, QPixmap]]:
    """Every screen of the editor in turn, drawn at that size."""
    yield from _edited(app, appearance, size)
    for name, sample, route, kind, line in (
        ("sex-linked", "gecko-sex-linked", "het-dusk", "group", "sire"),
        ("series", "hognose-series", "cara-het", "group", "dams"),
        ("linked", "corn-linked", "together", "group", "sire"),
        ("mine", "boa-my-animals", "mine", "group", "hazel"),
        ("generations", "gecko-three-generations", "three-gens", "group", "grand"),
    ):
        window = opened(app, appearance, size, _plan(SAMPLES / f"{sample}.plan.json"))
        editor = open_editor(window, route)
        editor.board.choose(line_of(editor, kind, line).key)
        app.processEvents()
        yield f"editor-{name}", window.grab()
        window.close()
    for name, plan in (("ten", _ten()), ("names", _named())):
        window = opened(app, appearance, size, plan)
        open_editor(window, plan.routes[0].id)
        app.processEvents()
        yield f"editor-{name}", window.grab()
        window.close()


def _edited(app: QApplication, appearance: Appearance, size: QSize) -> Iterator[tuple[str, QPixmap]]:
    window = opened(app, appearance, size, _plan(SAMPLE))
    editor = open_editor(window, BACK)
    app.processEvents()
    yield "editor", window.grab()
    opener(line_of(editor, "group", "dams"), "carries").click()
    editor.details.carries.rows[1].choice_buttons()[1].click()
    type_into(field(line_of(editor, "group", "dams"), "count"), "4")
    # Only after that while does the window tell that answers are of before.
    QTest.qWait(PATIENCE_MS + 20)
    window.document.take([Underway(BACK, 0.4)])
    app.processEvents()
    yield "editor-simulating", window.grab()
    answer(window)
    app.processEvents()
    yield "editor-changed", window.grab()
    choose(choice(line_of(editor, "group", "dams"), "sex"), sex_word("male", 2))
    type_into(field(line_of(editor, "group", "sire"), "price"), "cheap")
    app.processEvents()
    yield "editor-refused", window.grab()
    choice(line_of(editor, "group", "daughters"), "pick.0").setFocus()
    app.processEvents()
    yield "editor-looks", window.grab()
    editor.board.choose(line_of(editor, "pairing", "back").key)
    app.processEvents()
    yield "editor-pairing", window.grab()
    editor.board.choose(line_of(editor, "group", "dams").key)
    editor.details.remove.click()
    answer(window)
    app.processEvents()
    yield "editor-removed", window.grab()
    window.document.history.set_clean()
    window.close()


class Unasked(Evaluator):
    """Works nothing out: the screens take their answers when they want them, and none comes in between."""

    def start(self, plan: Plan, only: Collection[str] | None = None) -> None:
        pass


def opened(app: QApplication, appearance: Appearance, size: QSize, plan: Plan) -> MainWindow:
    """A window with the real answers of its plan."""
    window = MainWindow(Document(plan, SAMPLE), Unasked(), appearance, LocaleNumbers())
    window.resize(size)
    window.show()
    app.processEvents()
    answer(window)
    app.processEvents()
    return window


def answer(window: MainWindow) -> None:
    """Works out what the document waits for."""
    waiting = msgspec.structs.replace(
        window.document.plan,
        routes=tuple(route for route in window.document.plan.routes if route.id in window.document.pending),
        simulation=msgspec.structs.replace(window.document.plan.simulation, runs=2000),
    )
    window.document.take(list(evaluation_steps(waiting, core_engine())))


def _plan(path: Path) -> Plan:
    plan = open_plan(path)
    assert isinstance(plan, Plan)
    return plan


def _ten() -> Plan:
    """A route of ten groups."""
    plan = _plan(SAMPLE)
    route = next(one for one in plan.routes if one.id == BACK)
    more = tuple(
        Bought(id=f"dams-{place}", sex="female", count=place, carries={"amel": "a/a"}, price=90, season=place)
        for place in range(1, 8)
    )
    pairs = tuple(Pairing(id=f"pair-{one.id}", males=("sire",), females=(one.id,)) for one in more)
    big = msgspec.structs.replace(route, groups=(*route.groups, *more), pairings=(*route.pairings, *pairs))
    return msgspec.structs.replace(plan, routes=(big,))


def _named() -> Plan:
    plan = _plan(SAMPLE)
    names = (LONG, "شبل-الفجر", "<b>x<")
    groups = (
        Bought(id=names[0], sex="male", count=1, carries={"lav": {"l/+": "2/3", "+/+": "1/3"}}, price=12.5),
        Bought(id=names[1], sex="female", count=2, carries={"amel": "a/+", "lav": "l/l"}, price=90, until=2),
        Held(id=names[2], sex="female", count=2, source=(LONG,), pick=({"amel": "amel"}, {"lav": "lavender"}, {})),
    )
    pairings = (Pairing(id=LONG, males=(LONG,), females=(names[1], names[2])),)
    route = Route(id="named", name="شبل الفجر " + LONG, groups=groups, pairings=pairings)
    return msgspec.structs.replace(plan, routes=(route, *plan.routes[:3]))
