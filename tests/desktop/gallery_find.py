"""Screens of finding routes: found, with one taken; out of reach; nothing to search."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from typing import Protocol

import msgspec
import window_double as double
from PySide6.QtCore import QEventLoop, QSize, QTimer
from PySide6.QtGui import QPixmap
from PySide6.QtWidgets import QApplication

from core.plan.model import Plan
from desktop.appearance import Appearance
from desktop.document import Document
from desktop.evaluation import core_engine, evaluation_steps
from desktop.evaluator import Evaluator
from desktop.find.page import FindPage
from desktop.first.empty import empty_plan
from desktop.locale_numbers import LocaleNumbers
from desktop.plan_files import SAMPLE, open_plan
from desktop.window import MainWindow


def screens(app: QApplication, appearance: Appearance, size: QSize) -> Iterator[tuple[str, QPixmap]]:
    """Every screen in turn, drawn at that size."""
    plan = quick_plan()
    window, page = opened(app, appearance, size, plan)
    page.rows[1].add.click()
    settle(page)
    yield "find", window.grab()
    window.close()
    goal = msgspec.structs.replace(plan.goal, chance=0.99, seasons=1, outright_price=None)
    window, _ = opened(app, appearance, size, msgspec.structs.replace(plan, goal=goal))
    yield "find-out-of-reach", window.grab()
    window.close()
    window, _ = opened(app, appearance, size, empty_plan())
    yield "find-nothing", window.grab()
    window.close()


def quick_plan() -> Plan:
    """The sample with fewer seasons, which leaves less to search."""
    plan = open_plan(SAMPLE)
    assert isinstance(plan, Plan)
    goal = msgspec.structs.replace(plan.goal, seasons=3)
    within = tuple(route for route in plan.routes if (route.buy_outright or 1) <= goal.seasons)
    simulation = msgspec.structs.replace(plan.simulation, runs=1000)
    return msgspec.structs.replace(plan, goal=goal, routes=within, simulation=simulation)


def opened(app: QApplication, appearance: Appearance, size: QSize, plan: Plan) -> tuple[MainWindow, FindPage]:
    """A window with the page open and the search over."""
    window = MainWindow(Document(plan), Evaluator(core_engine), appearance, LocaleNumbers())
    window.resize(size)
    window.show()
    window.document.take(list(evaluation_steps(plan, double.engine())))
    window.find_routes()
    page = window.views.page()
    assert isinstance(page, FindPage)
    settle(page)
    app.processEvents()
    return window, page


class Settling(Protocol):
    """What waits for a search."""

    @property
    def is_settled(self) -> bool:
        """Whether nothing more comes by itself."""


def settle(part: Settling) -> None:
    """Waits for the search, in a loop that lets the worker's thread go on."""
    loop, look = QEventLoop(), QTimer(interval=10)
    look.timeout.connect(partial(_leave, part, loop))
    look.start()
    loop.exec()


def _leave(part: Settling, loop: QEventLoop) -> None:
    if part.is_settled:
        loop.quit()
