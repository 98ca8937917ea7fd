"""Works out plans on one thread beside the window; answers to an older question are dropped."""

from __future__ import annotations

import time
from collections.abc import Callable
from threading import Event

from PySide6.QtCore import QObject, QRunnable, QThreadPool, Signal, Slot

from core.plan.model import Plan
from desktop.evaluation import Engine, Finished, RouteFailure, Step, core_engine, evaluation_steps

# More signals a second than this make a window stutter.
_SIGNALS_A_SECOND = 30


class Evaluator(QObject):
    """`arrived` carries the steps of the newest run, on the window's thread."""

    arrived = Signal(list)
    _reported = Signal(int, list)

    def __init__(self, engine: Callable[[], Engine] = core_engine, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._engine = engine
        self._run_id = 0
        self._cancel = Event()
        self._job: _Job | None = None
        self._pool = QThreadPool(self)
        self._pool.setMaxThreadCount(1)
        self._reported.connect(self._pass_on)

    def start(self, plan: Plan) -> None:
        """Begins on a plan and gives up on the one before."""
        self._cancel.set()
        self._cancel = Event()
        self._run_id += 1
        self._job = _Job(self._run_id, plan, self._engine, self._cancel, self._reported.emit)
        self._pool.start(self._job)

    def stop(self) -> None:
        """Gives up and waits for the thread, which looks up between two routes."""
        self._cancel.set()
        self._pool.waitForDone()

    def is_idle(self) -> bool:
        """Whether no thread is at work."""
        return self._pool.activeThreadCount() == 0

    @Slot(int, list)
    def _pass_on(self, run_id: int, steps: list[Step]) -> None:
        if run_id == self._run_id:
            self.arrived.emit(steps)


class _Job(QRunnable):
    def __init__(
        self,
        run_id: int,
        plan: Plan,
        engine: Callable[[], Engine],
        cancel: Event,
        report: Callable[[int, list[Step]], None],
    ) -> None:
        super().__init__()
        # The Evaluator keeps the job alive; two owners would free it twice.
        self.setAutoDelete(False)
        self._run_id, self._plan, self._engine = run_id, plan, engine
        self._cancel, self._report = cancel, report

    def run(self) -> None:
        """Evaluates until done or cancelled."""
        try:
            self._work()
        except Exception:  # noqa: BLE001 - the person gets a sentence, never a traceback
            reason = "The routes could not be worked out: a part of the program is missing or broken."
            self._send([*(RouteFailure(route.id, reason) for route in self._plan.routes), Finished()])

    def _work(self) -> None:
        waiting: list[Step] = []
        last = 0.0
        for step in evaluation_steps(self._plan, self._engine()):
            if self._cancel.is_set():
                return
            waiting.append(step)
            now = time.monotonic()
            if isinstance(step, Finished) or now - last >= 1 / _SIGNALS_A_SECOND:
                self._send(waiting)
                waiting, last = [], now

    def _send(self, steps: list[Step]) -> None:
        if not self._cancel.is_set():
            self._report(self._run_id, steps)
