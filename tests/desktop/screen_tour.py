"""Walks the screens of one topic of the gallery and holds each to checks."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from importlib import import_module
from itertools import product
from pathlib import Path

import screen_checks as checks
import shiboken6
from PySide6.QtCore import QCoreApplication, QEvent, QSize
from PySide6.QtWidgets import QApplication, QWidget

from desktop.appearance import Appearance

TOPICS = ("gallery", *(file.stem for file in sorted(Path(__file__).parent.glob("gallery_*.py"))))
SIZE = QSize(1280, 800)

Check = Callable[[QWidget], list[str]]


def walk(topic: str, app: QApplication, appearance: Appearance, held_to: Sequence[Check]) -> list[str]:
    """What is wrong on the screens of a topic, in words."""
    wrong: list[str] = []
    seen: list[QWidget] = []
    for screen, _ in import_module(topic).screens(app, appearance, SIZE):
        seen += [top for top in checks.tops() if top.parent() is None and top not in seen]
        # What came in last is laid out before it is looked at, and what was laid out for it once more.
        app.processEvents()
        app.processEvents()
        QCoreApplication.sendPostedEvents(None, QEvent.Type.LayoutRequest.value)
        for top, check in product(checks.tops(), held_to):
            wrong += [f"{screen}: {check.__name__}: {one}" for one in check(top)]
    for window in filter(shiboken6.isValid, seen):
        window.close()
        # At once, while the Python side of its parts still stands.
        shiboken6.delete(window)
    return list(dict.fromkeys(wrong))
