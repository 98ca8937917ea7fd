"""The pages of “This season” in their states."""

from __future__ import annotations

from collections.abc import Iterator

import msgspec
from PySide6.QtCore import QSize
from PySide6.QtGui import QPixmap
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from core.plan.model import Animal, Plan
from desktop.appearance import Appearance
from desktop.document import Document
from desktop.evaluation import core_engine, evaluation_steps
from desktop.evaluator import Evaluator
from desktop.locale_numbers import LocaleNumbers
from desktop.plan_files import SAMPLES, open_plan
from desktop.season.page import CARRY_ON, HATCHED, NEXT, SeasonPage
from desktop.window import MainWindow

MINE = SAMPLES / "boa-my-animals.plan.json"


def screens(app: QApplication, appearance: Appearance, size: QSize) -> Iterator[tuple[str, QPixmap]]:
    """Every sheet, and the form with a clutch that says something, and one that cannot be."""
    plan = open_plan(MINE)
    assert isinstance(plan, Plan)
    window, page = opened(app, appearance, size, plan)
    settle(app)
    yield "season-animals", window.grab()
    page.animals.list.setCurrentRow(1)
    settle(app)
    yield "season-hazel", window.grab()
    page.show_tab(HATCHED)
    settle(app)
    yield "season-hatched", window.grab()
    page.hatched.form.rows.rows[0].steppers["female"].set_value(4)
    page.hatched.form.slugs.set_value(2)
    settle(app)
    yield "season-counted", window.grab()
    page.hatched.form.rows.add_named({"blush": "blush", "coal": "coal"})
    page.hatched.form.rows.rows[-1].steppers["any"].set_value(1)
    settle(app)
    yield "season-proven", window.grab()
    page.show_tab(NEXT)
    settle(app)
    yield "season-next", window.grab()
    page.show_tab(CARRY_ON)
    settle(app)
    yield "season-carry-on", window.grab()
    page.carry.go.click()
    settle(app)
    yield "season-carried", window.grab()
    window.document.history.set_clean()
    window.close()
    family = msgspec.structs.replace(plan, my_animals=(*plan.my_animals, *young()))
    window, page = opened(app, appearance, size, family)
    settle(app)
    page.animals.list.setCurrentRow(2)
    settle(app)
    yield "season-pedigree", window.grab()
    window.close()
    normal = msgspec.structs.replace(plan.my_animals[1], carries={})
    cleared = msgspec.structs.replace(plan, my_animals=(plan.my_animals[0], normal), clutch_records=())
    window, page = opened(app, appearance, size, cleared)
    page.show_tab(HATCHED)
    settle(app)
    page.hatched.form.rows.add_named({"coal": "coal"})
    page.hatched.form.rows.rows[-1].steppers["female"].set_value(2)
    settle(app)
    yield "season-refused", window.grab()
    window.close()
    bare = msgspec.structs.replace(plan, my_animals=(), clutch_records=(), routes=plan.routes[-1:])
    window, page = opened(app, appearance, size, bare)
    yield "season-empty", window.grab()
    window.close()


def young() -> tuple[Animal, ...]:
    """Two daughters and a son of the pair, and a grandchild."""
    return (
        Animal(id="D1", sex="female", name="Ember", sire="M1", dam="F1", forms={"coal": "normal", "blush": "blush"}),
        Animal(id="D2", sex="female", name="Wren", sire="M1", dam="F1"),
        Animal(id="S1", sex="male", name="Moss", sire="M1", dam="D1"),
    )


def opened(app: QApplication, appearance: Appearance, size: QSize, plan: Plan) -> tuple[MainWindow, SeasonPage]:
    """The page over the real answers of a plan."""
    window = MainWindow(Document(plan, MINE), Evaluator(core_engine), appearance, LocaleNumbers())
    window.resize(size)
    window.show()
    window.document.take(list(evaluation_steps(plan, core_engine())))
    window.show_season()
    page = window.views.page()
    assert isinstance(page, SeasonPage)
    app.processEvents()
    return window, page


def settle(app: QApplication) -> None:
    """Waits for what is worked out beside the window."""
    QTest.qWait(150)
    for _ in range(400):
        QTest.qWait(25)
        app.processEvents()
        if all(
            window.findChild(SeasonPage) is None or window.findChild(SeasonPage).is_settled
            for window in app.topLevelWidgets()
        ):
            return
