"""Answers for a page: at once where they are quick, else beside the window."""

from __future__ import annotations

from collections.abc import Callable, Generator
from functools import partial
from typing import Any

from PySide6.QtCore import QObject, Signal

from desktop.errand import Errand
from desktop.evaluator import Evaluator


class Reckoner(QObject):
    """One question at a time; the answer to an older one is not told any more."""

    answered = Signal(object)
    failed = Signal(str)

    def __init__(self, evaluator: Evaluator, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._errand = Errand(evaluator, self, quick=True)
        self._errand.finished.connect(self.answered)
        self._errand.failed.connect(self.failed)

    def ask(self, work: Callable[[], object], *, quick: bool) -> bool:
        """Tells the answer before it comes back if the work is quick; whether there is one to wait for."""
        self._errand.cancel()
        if not quick:
            self._errand.start(partial(_steps, work))
            return True
        try:
            found = work()
        except ValueError as error:
            self.failed.emit(str(error))
        else:
            self.answered.emit(found)
        return False


def _steps(work: Callable[[], object]) -> Generator[float, None, Any]:
    yield 0.0
    return work()
