"""Has plans worked out beside the window; answers to an older question are dropped."""

from __future__ import annotations

from collections.abc import Callable
from threading import Event

from PySide6.QtCore import QObject, QRunnable, QThreadPool, Signal, Slot

from core.plan.model import Plan
from desktop.evaluation import STOPPED, Engine, Finished, RouteFailure, Step, batches, core_engine
from desktop.reckoner import Reckoner

Report = Callable[[int, list[Step]], None]


class Evaluator(QObject):
    """`arrived` carries the steps of the newest run, on the window's thread; `_begin` and `stop` are for the kinds."""

    arrived = Signal(list)
    _reported = Signal(int, list)

    def __init__(self) -> None:
        super().__init__()
        self._run_id = 0
        self._pool = QThreadPool(self)
        self._pool.setMaxThreadCount(1)
        self._reported.connect(self._pass_on)

    def start(self, plan: Plan) -> None:
        """Begins on a plan and gives up on the one before."""
        self._run_id += 1
        self._begin(self._run_id, plan)

    def stop(self) -> None:
        """Gives up, and waits for the thread."""
        self._pool.waitForDone()

    def is_idle(self) -> bool:
        """Whether no thread is at work."""
        return self._pool.activeThreadCount() == 0

    def _begin(self, run_id: int, plan: Plan) -> None:
        raise NotImplementedError

    @Slot(int, list)
    def _pass_on(self, run_id: int, steps: list[Step]) -> None:
        if run_id == self._run_id:
            self.arrived.emit(steps)


class ThreadEvaluator(Evaluator):
    """Works on a thread of this process."""

    def __init__(self, engine: Callable[[], Engine] = core_engine) -> None:
        super().__init__()
        self._engine = engine
        self._cancel = Event()
        self._job: _Job | None = None

    def stop(self) -> None:
        """Gives up and waits for the thread, which looks up between two steps."""
        self._cancel.set()
        super().stop()

    def _begin(self, run_id: int, plan: Plan) -> None:
        self._cancel.set()
        self._cancel = cancel = Event()
        report: Report = self._reported.emit

        def work() -> None:
            for batch in batches(plan, self._engine):
                if cancel.is_set():
                    return
                if batch:
                    report(run_id, batch)

        self._job = _Job(work)
        self._pool.start(self._job)


class ProcessEvaluator(Evaluator):
    """Has a process do the work; where that ends unasked, its routes fail and the next plan gets a new one."""

    def __init__(self, reckoner: Reckoner) -> None:
        super().__init__()
        self._reckoner = reckoner
        self._plan: Plan | None = None
        self._closing = False
        self._listen()

    def stop(self) -> None:
        """Ends the process, and with it the thread that listens to it."""
        self._closing = True
        self._reckoner.close()
        super().stop()

    def _begin(self, run_id: int, plan: Plan) -> None:
        self._plan = plan
        if not self._reckoner.is_alive():
            self._reckoner.close()
            super().stop()
            self._reckoner = Reckoner()
            self._listen()
        try:
            self._reckoner.ask(run_id, plan)
        except OSError:
            # The thread that listens notices the end too, and tells.
            return

    def _listen(self) -> None:
        reckoner, report = self._reckoner, self._reported.emit

        def listen() -> None:
            for run_id, steps in reckoner.answers():
                report(run_id, steps)
            if not self._closing and self._plan is not None:
                failures = (RouteFailure(route.id, STOPPED) for route in self._plan.routes)
                report(self._run_id, [*failures, Finished()])

        self._job = _Job(listen)
        self._pool.start(self._job)


def ready_evaluator(reckoner: Reckoner | None) -> Evaluator:
    """The process where one could be started, else a thread."""
    return ThreadEvaluator() if reckoner is None else ProcessEvaluator(reckoner)


class _Job(QRunnable):
    def __init__(self, work: Callable[[], None]) -> None:
        super().__init__()
        # The evaluator keeps the job alive; two owners would free it twice.
        self.setAutoDelete(False)
        self._work = work

    def run(self) -> None:
        """Does the work, on the pool's thread."""
        self._work()
