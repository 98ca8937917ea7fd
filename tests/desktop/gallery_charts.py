"""Screens of the charts for the gallery: zoomed, as a table, simulated, many routes, long names, large text."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import msgspec
import numpy as np
import window_double as double
from PySide6.QtCore import QRectF, QSize
from PySide6.QtGui import QImage, QPixmap
from PySide6.QtWidgets import QApplication

from core.plan.model import Plan
from core.routes.result import PLAYS_A_RUN, RouteResult
from desktop.appearance import Appearance
from desktop.document import Document
from desktop.evaluation import Finished, RouteAnswer
from desktop.evaluator import Evaluator
from desktop.locale_numbers import LocaleNumbers
from desktop.panels.charts.chart import LiveChart
from desktop.panels.charts.pictures import money_picture
from desktop.plan_files import SAMPLE, open_plan
from desktop.window import MainWindow

LONG = "Lavender het amel sire over double het dams, then the best daughters back to him, " * 4
NAMES = (LONG[:300], "شبل الفجر مع بنات البحر", '<img src="x"> & <b>bold</b>', "A\tname with\nbreaks")
FEW_RUNS = 400 // PLAYS_A_RUN


def screens(app: QApplication, appearance: Appearance, size: QSize) -> Iterator[tuple[str, QPixmap]]:
    """Every chart screen in turn, drawn at that size."""
    plan = open_plan(SAMPLE)
    assert isinstance(plan, Plan)
    window = shown(app, appearance, size, plan)
    money = window.page.money.chart.canvas
    area = money.frame().area if money.frame() else money.rect()
    money.zoom_into(QRectF(area.left() + 60, area.top() + 4, area.width() / 2, area.height() / 2))
    window.page.eggs.chart.canvas.read_on(1)
    for _ in range(30):
        window.page.eggs.chart.canvas.read_on(1)
    app.processEvents()
    yield "charts-zoomed", window.grab()
    money.show_whole()
    window.page.money.chart.show_table(True)
    window.page.eggs.chart.show_table(True)
    app.processEvents()
    yield "charts-table", window.grab()
    window.page.money.chart.show_table(False)
    window.page.eggs.chart.show_table(False)
    window.page.chance.look_ahead(60)
    app.processEvents()
    yield "charts-dragged", window.grab()
    window.page.chance.give_up()
    app.processEvents()
    chart = window.page.money.chart
    outdated = frozenset(one.id for one in window.document.found[:4])
    chart.canvas.show_picture(money_picture(msgspec.structs.replace(chart.showing(), stale=outdated)))
    yield "charts-outdated", window.grab()
    chart.canvas.grip.setFocus()
    yield "charts-image", QPixmap.fromImage(image_of(chart))
    window.close()
    yield "charts-simulated", shown(app, appearance, size, plan, runs=FEW_RUNS).grab()
    many = tuple(
        msgspec.structs.replace(plan.routes[i % 7], id=f"r{i}", name=f"Route number {i + 1}") for i in range(12)
    )
    yield "charts-twelve", shown(app, appearance, size, msgspec.structs.replace(plan, routes=many)).grab()
    named = tuple(msgspec.structs.replace(route, name=NAMES[i % len(NAMES)]) for i, route in enumerate(plan.routes))
    window = shown(app, appearance, size, msgspec.structs.replace(plan, routes=named))
    window.page.money.chart.canvas.read_at(1800.0)
    yield "charts-names", window.grab()


def shown(app: QApplication, appearance: Appearance, size: QSize, plan: Plan, runs: int | None = None) -> MainWindow:
    """A window with the double's answers, all of them simulated with so few `runs` where given."""
    window = MainWindow(Document(plan, SAMPLE), Evaluator(double.engine), appearance, LocaleNumbers())
    window.resize(size)
    window.show()
    app.processEvents()
    window.document.take([*answers(plan, runs), Finished()])
    app.processEvents()
    return window


def image_of(chart: LiveChart) -> QImage:
    """The chart as it is copied."""
    chart.copy_picture()
    return QApplication.clipboard().image()


def answers(plan: Plan, runs: int | None = None) -> Iterator[RouteAnswer]:
    """An answer for every route; those of unknown ids take turns with the double's figures, a little apart."""
    known = list(open_plan(SAMPLE).routes)  # type: ignore[union-attr]
    for place, route in enumerate(plan.routes):
        like = msgspec.structs.replace(route, id=known[place % len(known)].id)
        result = replace(double.evaluate_route(plan, like), id=route.id)
        result = _apart(result, 1 + 0.06 * (place // len(known)))
        if runs:
            error = np.sqrt(result.chance_by_season * (1 - result.chance_by_season) / (runs * PLAYS_A_RUN))
            result = replace(result, method="simulated", runs=runs, seed=1, chance_by_season_se=error)
        yield RouteAnswer(route.id, result, result)


def _apart(result: RouteResult, times: float) -> RouteResult:
    money = replace(result.chance_by_money, money=result.chance_by_money.money * times)
    to_goal = result.to_goal and replace(result.to_goal, money=result.to_goal.money * times)
    return replace(result, chance_by_money=money, to_goal=to_goal, as_drawn=to_goal)
