"""Screens of a new route for the gallery: filled, another animal chosen, lacking, simulated, from an empty plan."""

from __future__ import annotations

from collections.abc import Iterator

import msgspec
import window_double as double
from gallery_find import quick_plan
from PySide6.QtCore import QEventLoop, QSize
from PySide6.QtGui import QPixmap
from PySide6.QtWidgets import QApplication

from core.plan.model import Plan, Want
from core.routes.pairs import Shape
from core.routes.shapes import SHAPES
from desktop.appearance import Appearance
from desktop.document import Document
from desktop.evaluation import core_engine, evaluation_steps
from desktop.evaluator import Evaluator
from desktop.first.empty import empty_plan
from desktop.locale_numbers import LocaleNumbers
from desktop.new_route.page import NewRoute
from desktop.plan_files import SAMPLE, open_plan
from desktop.window import MainWindow

_SHOWN: tuple[Shape, ...] = ("straight", "daughters back", "breed then buy", "empty")


def screens(app: QApplication, appearance: Appearance, size: QSize) -> Iterator[tuple[str, QPixmap]]:
    """Every screen of a new route in turn, drawn at that size."""
    plan = open_plan(SAMPLE)
    assert isinstance(plan, Plan)
    quick = quick_plan()
    window, page = opened(app, appearance, size, quick)
    for shape in _SHOWN:
        page.shapes.setCurrentRow(SHAPES.index(shape))
        app.processEvents()
        yield f"new-route-{shape.replace(' ', '-')}", window.grab()
    window.close()
    lacking = msgspec.structs.replace(plan, for_sale=plan.for_sale[1:3])
    lacking = msgspec.structs.replace(lacking, goal=msgspec.structs.replace(plan.goal, outright_price=None))
    window, page = opened(app, appearance, size, lacking)
    yield "new-route-lacking", window.grab()
    page.shapes.setCurrentRow(SHAPES.index("buy"))
    app.processEvents()
    yield "new-route-price", window.grab()
    window.close()
    window, _ = opened(app, appearance, size, for_one_row(quick))
    yield "new-route-for-one-row", window.grab()
    window.close()
    window, _ = opened(app, appearance, size, empty_plan())
    yield "new-route-of-an-empty-plan", window.grab()
    window.close()


def for_one_row(plan: Plan) -> Plan:
    """Two looks are wanted, and what is for sale gives one of them."""
    goal = msgspec.structs.replace(
        plan.goal, want=(Want(forms={"lav": "lavender"}), Want(forms={"amel": "amel"})), outright_price=None
    )
    amels = tuple(one for one in plan.for_sale if "lav" not in one.carries)
    male = msgspec.structs.replace(amels[0], id="amel-m", sex="male")
    return msgspec.structs.replace(plan, goal=goal, for_sale=(*amels, male))


def opened(app: QApplication, appearance: Appearance, size: QSize, plan: Plan) -> tuple[MainWindow, NewRoute]:
    """A window with the page open and everything worked out."""
    evaluator = Evaluator(core_engine)
    window = MainWindow(Document(plan), evaluator, appearance, LocaleNumbers())
    window.resize(size)
    window.show()
    window.document.take(list(evaluation_steps(plan, double.engine())))
    window.page.route_actions.new.trigger()
    page = window.views.page()
    assert isinstance(page, NewRoute)
    while not (page.is_settled and page.found.is_settled and evaluator.is_idle()):
        app.processEvents(QEventLoop.ProcessEventsFlag.WaitForMoreEvents, 100)
    app.processEvents()
    return window, page
