"""Screens of the route editor for the gallery."""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtCore import QSize
from PySide6.QtGui import QPixmap
from PySide6.QtWidgets import QApplication

from core.plan.model import Plan
from desktop.appearance import Appearance
from desktop.document import Document
from desktop.editor.page import Editor
from desktop.evaluation import core_engine, evaluation_steps
from desktop.evaluator import Evaluator
from desktop.locale_numbers import LocaleNumbers
from desktop.plan_files import SAMPLE, SAMPLES, open_plan
from desktop.window import MainWindow


def screens(app: QApplication, appearance: Appearance, size: QSize) -> Iterator[tuple[str, QPixmap]]:
    """Every screen of the editor in turn, drawn at that size."""
    plan = open_plan(SAMPLE)
    assert isinstance(plan, Plan)
    window = opened(app, appearance, size, plan, "daughters-back")
    yield "editor", window.grab()
    window.close()


def opened(app: QApplication, appearance: Appearance, size: QSize, plan: Plan, route: str) -> MainWindow:
    """A window with its answers, the editor open on a route."""
    window = MainWindow(Document(plan, SAMPLE), Evaluator(core_engine), appearance, LocaleNumbers())
    window.resize(size)
    window.show()
    app.processEvents()
    answer(window)
    window.document.select(next(one for one in window.document.found if one.id == route))
    window.edit_route()
    app.processEvents()
    return window


def answer(window: MainWindow) -> None:
    """Works out what the document waits for."""
    window.document.take(list(evaluation_steps(window.document.plan, core_engine())))


def editor(window: MainWindow) -> Editor:
    """The editor that is open."""
    page = window.views.page()
    assert isinstance(page, Editor)
    return page


__all__ = ["SAMPLES", "answer", "editor", "opened", "screens"]
