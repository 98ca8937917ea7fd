"""The cautions beside a route: folded, unfolded, and one marked as read."""

from __future__ import annotations

from collections.abc import Iterator

import gallery_why
import msgspec
from PySide6.QtCore import QSize
from PySide6.QtGui import QPixmap
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from core.plan.model import Breeds
from desktop.appearance import Appearance
from desktop.window import MainWindow


def screens(app: QApplication, appearance: Appearance, size: QSize) -> Iterator[tuple[str, QPixmap]]:
    """Every state in turn, drawn at that size."""
    window = gallery_why.shown(app, appearance, size, "amel-lavender")
    document = window.document
    ideal = msgspec.structs.replace(document.plan.species, lays=1, fertile=1, breeds=Breeds())
    document.edit(msgspec.structs.replace(document.plan, species=ideal), "losses")
    _worked_out(window)
    document.select(next(one for one in document.found if one.id == "daughters-back"))
    window.page.steps.show_cautions()
    _found(window)
    yield "cautions", window.grab()
    panel = window.page.steps.cautions
    assert panel is not None
    panel.sheet.rows()[1].mark.click()
    panel.sheet.rows()[0].why.click()
    _found(window)
    yield "cautions-why", window.grab()
    window.document.history.set_clean()
    window.close()


def _worked_out(window: MainWindow) -> None:
    """Waits until the window's own worker has answered every route."""
    for _ in range(1500):
        QTest.qWait(20)
        if window.document.complete:
            break
    assert window.document.complete


def _found(window: MainWindow) -> None:
    """Waits until the cautions stand there."""
    for _ in range(1500):
        QTest.qWait(20)
        one = window.document.selected
        if one and window.minder.of(one) is not None:
            break
    QTest.qWait(50)
