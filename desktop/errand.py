"""A piece of long work for one part of the window, on the evaluator's thread."""

from __future__ import annotations

import logging
import time
from collections.abc import Callable, Generator
from threading import Event
from typing import Any

from PySide6.QtCore import QObject, Signal, Slot

from desktop.evaluator import Evaluator

# More signals a second than this make a window stutter.
_PROGRESS_A_SECOND = 20
_BROKEN = "Something unexpected happened while this was worked out; the rest of the window is not affected."
_log = logging.getLogger(__name__)

# Yields the share done so far, 0..1, and returns what was asked for.
Work = Callable[[], Generator[float, None, Any]]


class Errand(QObject):
    """One work at a time: a newer one takes its place, and only the newest is told.

    It must outlive its work, so it belongs to the window and not to a page that may go.
    """

    progressed = Signal(float)
    finished = Signal(object)
    failed = Signal(str)
    _reported = Signal(int, str, object)

    def __init__(self, evaluator: Evaluator, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._evaluator = evaluator
        self._run_id = 0
        self._cancel = Event()
        self._reported.connect(self._pass_on)

    def start(self, work: Work) -> None:
        """Begins, and gives up on what was begun before."""
        self.cancel()
        self._cancel = cancel = Event()
        run_id, report, stopping = self._run_id, self._reported.emit, self._evaluator.is_stopping

        def go() -> None:
            last = 0.0
            try:
                if cancel.is_set() or stopping():
                    return
                steps = work()
                while not cancel.is_set() and not stopping():
                    share, now = next(steps), time.monotonic()
                    if now - last >= 1 / _PROGRESS_A_SECOND:
                        report(run_id, "progressed", share)
                        last = now
            except StopIteration as end:
                report(run_id, "finished", end.value)
            except Exception as error:  # noqa: BLE001 - the person gets a sentence, never a traceback
                _log.debug("an errand failed", exc_info=error)
                report(run_id, "failed", str(error) if isinstance(error, ValueError) and str(error) else _BROKEN)

        self._evaluator.queue(go)

    def cancel(self) -> None:
        """Gives up; what was begun is not told any more."""
        self._run_id += 1
        self._cancel.set()

    @Slot(int, str, object)
    def _pass_on(self, run_id: int, what: str, value: object) -> None:
        if run_id != self._run_id:
            return
        if what == "progressed" and isinstance(value, float):
            self.progressed.emit(value)
        elif what == "finished":
            self.finished.emit(value)
        elif what == "failed":
            self.failed.emit(str(value))
