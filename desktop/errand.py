"""A piece of long work for one part of the window, on the evaluator's thread."""

from __future__ import annotations

import logging
import time
from collections.abc import Callable, Generator
from functools import partial
from threading import Event
from typing import Any

from PySide6.QtCore import QObject, Signal, Slot

from core.text import tr
from desktop.evaluator import Evaluator

# More signals a second than this make a window stutter.
_PROGRESS_A_SECOND = 20
_BROKEN = tr("Something unexpected happened while this was worked out; the rest of the window is not affected.")
_log = logging.getLogger(__name__)

# Yields the share done so far, 0..1, and returns what was asked for.
Work = Callable[[], Generator[float, None, Any]]


class Errand(QObject):
    """One work at a time: a newer one takes its place, and only the newest is told.

    It may go before its work does, which then gives up. `quick`: see `Evaluator.queue`.
    """

    progressed = Signal(float)
    finished = Signal(object)
    failed = Signal(str)

    def __init__(self, evaluator: Evaluator, parent: QObject | None = None, *, quick: bool = False) -> None:
        super().__init__(parent)
        self._quick = quick
        self._evaluator = evaluator
        self._run_id = 0
        # Whether something was begun that is still to be told.
        self.is_busy = False
        self._cancel = Event()
        self._name = object()
        self._gone = Event()
        evaluator.told.connect(self._pass_on)
        self.destroyed.connect(self._gone.set)

    def start(self, work: Work) -> None:
        """Begins, and gives up on what was begun before."""
        self.cancel()
        self.is_busy = True
        self._cancel = cancel = Event()
        gone, stopping, rest = self._gone, self._evaluator.is_stopping, self._evaluator.rest
        report = partial(_tell, self._evaluator, self._name, self._run_id)

        def go() -> None:
            last = 0.0
            try:
                if cancel.is_set() or gone.is_set() or stopping():
                    return
                steps = work()
                rest()
                while not (cancel.is_set() or gone.is_set() or stopping()):
                    share, now = next(steps), time.monotonic()
                    if now - last >= 1 / _PROGRESS_A_SECOND:
                        report("progressed", share)
                        last = now
                    rest()
            except StopIteration as end:
                report("finished", end.value)
            except Exception as error:  # noqa: BLE001 - the person gets a sentence, never a traceback
                _log.debug("an errand failed", exc_info=error)
                report("failed", str(error) if isinstance(error, ValueError) and str(error) else _BROKEN)

        self._evaluator.queue(go, quick=self._quick)

    def cancel(self) -> None:
        """Gives up; what was begun is not told any more."""
        self._run_id += 1
        self._cancel.set()
        self.is_busy = False

    @Slot(object)
    def _pass_on(self, news: tuple[object, int, str, object]) -> None:
        name, run_id, what, value = news
        if name is not self._name or run_id != self._run_id:
            return
        self.is_busy = what == "progressed"
        if what == "progressed" and isinstance(value, float):
            self.progressed.emit(value)
        elif what == "finished":
            self.finished.emit(value)
        elif what == "failed":
            self.failed.emit(str(value))


def _tell(evaluator: Evaluator, name: object, run_id: int, what: str, value: object) -> None:
    evaluator.told.emit((name, run_id, what, value))
