"""Loads what a person may open next, beside the window, once there is nothing else to do."""

from __future__ import annotations

import sys
from functools import partial
from importlib import import_module

from PySide6.QtCore import QObject, QTimer

from desktop.document import Document
from desktop.evaluator import Evaluator

# Loading one of these when it is first opened would hold the window up for longer than anybody should notice.
PAGES = (
    "core.explain.why",
    "desktop.why.page",
    "desktop.editor.page",
    "desktop.assumptions.page",
    "desktop.new_route.page",
    "desktop.cautions.panel",
    "desktop.paste.window",
    "desktop.season.page",
    "desktop.exports.desk",
    "desktop.worth.page",
    "desktop.find.page",
    "desktop.counter.window",
)
_IDLE_MS = 1_500
# Between two pages a change of the plan gets its turn on the thread.
_NEXT_MS = 50


class Ahead(QObject):
    """Waits until the routes are answered and a moment has gone by, and loads one page at a time."""

    def __init__(self, document: Document, evaluator: Evaluator, parent: QObject) -> None:
        super().__init__(parent)
        self._document, self._evaluator = document, evaluator
        self._left = list(PAGES)
        self._idle = QTimer(self, singleShot=True, interval=_IDLE_MS)
        self._idle.timeout.connect(self._load)
        document.answers_changed.connect(self._wait)

    def _wait(self) -> None:
        self._left = [name for name in self._left if name not in sys.modules]
        if self._document.complete and self._left:
            self._idle.start(_IDLE_MS)

    def _load(self) -> None:
        if self._left and self._evaluator.is_idle():
            self._evaluator.queue(partial(_load_page, self._left.pop(0)))
        if self._left:
            self._idle.start(_NEXT_MS)


def _load_page(name: str) -> None:
    import_module(name)
