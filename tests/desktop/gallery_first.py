"""Screens of the first minutes and of plans in files for the gallery."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import msgspec
from gallery import show
from gallery_find import quick_plan, settle
from PySide6.QtCore import QSize
from PySide6.QtGui import QPixmap
from PySide6.QtWidgets import QApplication

from core.plan.model import Plan
from desktop.appearance import Appearance
from desktop.files.left_behind import Left, LeftBehind
from desktop.files.recovery import RecoveryFile, unsaved
from desktop.first.empty import empty_plan
from desktop.plan_files import SAMPLE, open_plan


def screens(app: QApplication, appearance: Appearance, size: QSize) -> Iterator[tuple[str, QPixmap]]:
    """An empty plan on its way, and what a crash left."""
    plan = open_plan(SAMPLE)
    assert isinstance(plan, Plan)
    window = show(app, appearance, size, empty_plan())
    yield "first-empty", window.grab()
    told = msgspec.structs.replace(plan, title="My plan", routes=(), my_animals=(), for_sale=())
    window.document.replace(told, None)
    app.processEvents()
    yield "first-want", window.grab()
    window.document.replace(msgspec.structs.replace(quick_plan(), title="My plan", routes=()), None)
    first = window.page.first
    assert first is not None
    assert first.greeting is not None
    settle(first.greeting)
    app.processEvents()
    yield "first-lists", window.grab()
    first.rows["mine"].leave_out.click()
    app.processEvents()
    yield "first-found", window.grab()
    window.close()
    window = show(app, appearance, size, plan)
    window.filing.begin()
    app.processEvents()
    yield "first-sample", window.grab()
    when = datetime.now(UTC)
    left = [
        Left(
            RecoveryFile(Path("/nowhere")), unsaved(plan, when, 3, Path("/home/me/breeding/mine.plan.json"), ""), plan
        ),
        Left(RecoveryFile(Path("/nowhere")), unsaved(plan, when, 1, None, ""), told),
    ]
    dialog = LeftBehind(left, window)
    dialog.show()
    app.processEvents()
    yield "left-behind", dialog.grab()
    dialog.close()
    window.close()
