"""Loads what a person may open next, beside the window, once there is nothing else to do."""

from __future__ import annotations

import sys
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


class Ahead(QObject):
    """Waits until the routes are answered and a moment has gone by."""

    def __init__(self, document: Document, evaluator: Evaluator, parent: QObject) -> None:
        super().__init__(parent)
        self._document, self._evaluator = document, evaluator
        self._idle = QTimer(self, singleShot=True, interval=_IDLE_MS)
        self._idle.timeout.connect(self._load)
        document.answers_changed.connect(self._wait)

    def _wait(self) -> None:
        if self._document.complete and not all(name in sys.modules for name in PAGES):
            self._idle.start()

    def _load(self) -> None:
        self._evaluator.queue(load_pages)


def load_pages() -> None:
    """Loads the pages; those that are there already cost nothing."""
    for name in PAGES:
        import_module(name)
