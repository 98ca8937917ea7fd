"""Screens that explain: several kinds of plans, both ends of the ladder, two routes side by side."""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtCore import QSize
from PySide6.QtGui import QPixmap
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from core.plan.model import Plan
from desktop.appearance import Appearance
from desktop.document import Document
from desktop.evaluation import core_engine, evaluation_steps
from desktop.evaluator import Evaluator
from desktop.locale_numbers import LocaleNumbers
from desktop.plan_files import SAMPLE, SAMPLES, open_plan
from desktop.why.page import THIS_BEATS_THAT, WhyPage
from desktop.window import MainWindow

# Which sample, and which of its routes.
SHOWN = {
    "why-held": ("amel-lavender", "daughters-back"),
    "why-possible-hets": ("royal-possible-hets", None),
    "why-linked": ("corn-linked", None),
    "why-sex-linked": ("gecko-sex-linked", None),
    "why-series": ("hognose-series", None),
    "why-mine": ("boa-my-animals", None),
    "why-three-generations": ("gecko-three-generations", None),
}
PLACES = {"why-possible-hets": 2, "why-sex-linked": 1, "why-series": 2, "why-three-generations": 1}


def screens(app: QApplication, appearance: Appearance, size: QSize) -> Iterator[tuple[str, QPixmap]]:
    """Every explanation in turn, drawn at that size, from its top and from its end."""
    for name, (sample, route) in SHOWN.items():
        window = shown(app, appearance, size, sample)
        place = PLACES.get(name, 0)
        found = window.document.found
        window.document.select(next((one for one in found if one.id == route), found[place]))
        page = opened(window)
        yield name, window.grab()
        bar = page.area.verticalScrollBar()
        if bar.maximum():
            bar.setValue(bar.maximum())
            QTest.qWait(30)
            yield f"{name}-below", window.grab()
            bar.setValue(0)
        if name == "why-held":
            page.chance.turn.click()
            settle(page)
            yield f"{name}-end", window.grab()
            window.show_why(THIS_BEATS_THAT)
            settle(page)
            yield "why-beats", window.grab()
        window.close()
    window = shown(app, appearance, size, "amel-lavender")
    window.document.select(window.document.found[-1])
    opened(window)
    yield "why-outright", window.grab()
    window.close()


def shown(app: QApplication, appearance: Appearance, size: QSize, sample: str) -> MainWindow:
    """A window on a sample with its real answers."""
    path = SAMPLE if sample in SAMPLE.name else SAMPLES / f"{sample}.plan.json"
    plan = open_plan(path)
    assert isinstance(plan, Plan)
    window = MainWindow(Document(plan, path), Evaluator(core_engine), appearance, LocaleNumbers())
    window.resize(size)
    window.show()
    app.processEvents()
    window.document.take(list(evaluation_steps(plan, core_engine())))
    app.processEvents()
    return window


def opened(window: MainWindow) -> WhyPage:
    """The explanation of the selected route, worked out."""
    window.show_why()
    page = window.views.page()
    assert isinstance(page, WhyPage)
    settle(page)
    return page


def settle(page: WhyPage) -> None:
    """Waits for what was asked for."""
    for _ in range(2000):
        if page.is_settled:
            break
        QTest.qWait(10)
    assert page.is_settled
    QTest.qWait(300)
