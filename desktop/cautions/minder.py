"""Looks for cautions beside the window, whenever there is something new to look at."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QObject, QRunnable, QThreadPool, QTimer, Signal, SignalInstance, Slot

from core.advice.caution import Caution
from core.plan.model import Plan, Route
from core.routes.result import RouteResult
from desktop.document import Document
from desktop.words.numbers import Numbers


@dataclass(frozen=True, eq=False)
class Minded:
    """What was found for one state of the plan; routes without an answer are not among `of_route`."""

    of_route: dict[str, tuple[Caution, ...]]
    of_plan: tuple[Caution, ...]


class Minder(QObject):
    """One thread of its own, which has little to do; findings for an older plan are dropped."""

    changed = Signal()
    _reported = Signal(int, object)

    def __init__(self, document: Document, numbers: Numbers, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._document, self._numbers = document, numbers
        self.minded = Minded({}, ())
        self._run_id = 0
        self._job: _Job | None = None
        self._pool = QThreadPool(self)
        self._pool.setMaxThreadCount(1)
        self._soon = QTimer(self, singleShot=True, interval=0)
        self._soon.timeout.connect(self._look)
        self._reported.connect(self._take)
        document.plan_changed.connect(self._soon.start)
        document.answers_changed.connect(self._soon.start)

    def stop(self) -> None:
        """Waits for the thread."""
        self._soon.stop()
        self._run_id += 1
        self._pool.waitForDone()

    def _look(self) -> None:
        document = self._document
        if not document.complete:
            return
        self._run_id += 1
        shown = [(one.route, one.result) for one in document.found if one.result is not None and not one.stale]
        self._job = _Job(self._run_id, document.plan, shown, self._numbers, self._reported)
        self._pool.start(self._job)

    @Slot(int, object)
    def _take(self, run_id: int, minded: Minded) -> None:
        if run_id == self._run_id:
            self.minded = minded
            self.changed.emit()


class _Job(QRunnable):
    def __init__(
        self, run_id: int, plan: Plan, shown: list[tuple[Route, RouteResult]], numbers: Numbers, report: SignalInstance
    ) -> None:
        super().__init__()
        # The minder keeps the job alive; two owners would free it twice.
        self.setAutoDelete(False)
        self._run_id, self._plan, self._shown, self._numbers = run_id, plan, shown, numbers
        self._report = report.emit

    def run(self) -> None:
        """Looks, on the pool's thread."""
        # Only now: the start of the program does not wait for it.
        from core.advice.cautions import plan_cautions, route_cautions

        found = {route.id: route_cautions(self._plan, route, result, self._numbers) for route, result in self._shown}
        self._report(self._run_id, Minded(found, plan_cautions(self._plan)))
