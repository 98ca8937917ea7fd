"""Screens of the counter view, on the table of our own and on a sample."""

from __future__ import annotations

from collections.abc import Iterator

import window_double as double
from PySide6.QtCore import QSize
from PySide6.QtGui import QPixmap
from PySide6.QtWidgets import QApplication

from core.plan.model import Plan
from core.plan.read import load_plan
from desktop.appearance import Appearance
from desktop.counter.window import CounterView
from desktop.document import Document
from desktop.evaluator import Evaluator
from desktop.locale_numbers import LocaleNumbers
from desktop.plan_files import SAMPLES, TABLE

YEAR = 2031


def screens(app: QApplication, appearance: Appearance, size: QSize) -> Iterator[tuple[str, QPixmap]]:
    """Every page of the view."""
    _ = appearance
    yield from _at_the_table(app, size)
    yield from _one_at_home(app, size)
    yield from _sexes_apart(app, size)


def _at_the_table(app: QApplication, size: QSize) -> Iterator[tuple[str, QPixmap]]:
    view = shown(app, size, load_plan(TABLE))
    yield "counter-table", grabbed(app, view)
    view.stall.sell("m1")
    view.stall.sell("m3")
    view.table.lots["m8"].row.click()
    yield "counter-picked", grabbed(app, view)
    view.table.lots["f19"].row.click()
    yield "counter-pair", grabbed(app, view)
    view.pair.looks[1].click()
    yield "counter-other-goal", grabbed(app, view)
    view.pair.card.click()
    yield "counter-card", grabbed(app, view)
    view.close()


def _one_at_home(app: QApplication, size: QSize) -> Iterator[tuple[str, QPixmap]]:
    view = shown(app, size, load_plan(TABLE))
    view.table.home.click()
    yield "counter-home", grabbed(app, view)
    view.stall.bring_home("female", {"amel": "a/+", "lav": {"l/+": "2/3", "+/+": "1/3"}})
    yield "counter-home-said", grabbed(app, view)
    view.home.best.click()
    yield "counter-best", grabbed(app, view)
    view.best.goal.click()
    yield "counter-goals", grabbed(app, view)
    view.goal.rows[0].click()
    view.best.ranked[2].click()
    yield "counter-home-pair", grabbed(app, view)
    view.close()


def _sexes_apart(app: QApplication, size: QSize) -> Iterator[tuple[str, QPixmap]]:
    view = shown(app, size, load_plan(SAMPLES / "gecko-sex-linked.plan.json"))
    offers = view.stall.plan.for_sale
    for sex in ("male", "female"):
        view.table.lots[[one.id for one in offers if one.sex == sex][-1]].row.click()
    yield "counter-sexes", grabbed(app, view)
    view.pair.card.click()
    yield "counter-sexes-card", grabbed(app, view)
    view.close()


def shown(app: QApplication, size: QSize, plan: Plan) -> CounterView:
    """The view at that size."""
    view = CounterView(Document(plan), Evaluator(double.engine), LocaleNumbers(), YEAR, size)
    view.resize(size)
    view.show()
    app.processEvents()
    return view


def grabbed(app: QApplication, view: CounterView) -> QPixmap:
    """What is seen once everything has found its place."""
    for _ in range(3):
        app.processEvents()
    return view.grab()
