"""Has plans worked out beside the window; answers to an older question are dropped."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Collection, Iterator, Sequence
from threading import Event

from PySide6.QtCore import QObject, QThread, QThreadPool, QTimer, Signal, Slot

from core.plan.model import Plan, Route
from desktop.beside.helper import Helper
from desktop.beside.sharing import shared_steps
from desktop.document import PATIENCE_MS
from desktop.evaluation import Engine, RecentEngine, RouteAnswer, Step, Wanted, Working, batches, route_steps
from desktop.memory import Memory

# How long a thread that wants to go on waits for one at work. The window gives way many times in one turn, and by
# Python's own five milliseconds it would wait as often.
_TURN_S = 0.001
# How long it keeps still at a time while the window has much to build: two threads of Python share one's time.
_REST_S = 0.1
# As long it keeps still for an answer that is shown by itself; those of the first moment are shown together.
_SHOW_S = 0.04
# Nothing has been worked out for so long: much memory that it took goes back to the system.
_AT_REST_MS = 2_000


class Evaluator(QObject):
    """One worker thread, and one for what is quick; `arrived` carries the newest run's steps to the window.

    engine: in the place of the program's own, which has a helper where the machine has a core for it.
    """

    arrived = Signal(list)
    # News of other work on the thread, for whoever queued it: the sender outlives the thread, the receiver may not.
    told = Signal(object)
    _reported = Signal(int, list)

    def __init__(self, engine: Callable[[], Engine] | None = None) -> None:
        super().__init__()
        sys.setswitchinterval(_TURN_S)
        self._remembered = RecentEngine()
        self._engine = engine or self._remembered
        has_core = QThread.idealThreadCount() > 1
        self.helper = Helper(RecentEngine()) if engine is None and has_core else None
        self._run_id = 0
        # Replaced whole, never changed: the worker reads it.
        self._in_sight: frozenset[str] = frozenset()
        self._cancel = Event()
        self._stopping = Event()
        self._rest_until = 0.0
        self._pool, self._quick_pool = QThreadPool(self), QThreadPool(self)
        for pool in (self._pool, self._quick_pool):
            pool.setMaxThreadCount(1)
        self._reported.connect(self._pass_on)
        # Answers that come close together are told together: a window takes longer to show one than a quick route does.
        self._waiting: list[Step] = []
        self._soon = QTimer(self, singleShot=True, interval=0)
        self._soon.timeout.connect(self._tell)
        self._memory = Memory()
        self._at_rest = QTimer(self, singleShot=True, interval=_AT_REST_MS)
        self._at_rest.timeout.connect(self._come_to_rest)

    @property
    def engine(self) -> Callable[[], Engine]:
        """Where the engine comes from, for other work on the same thread."""
        return self._engine

    def start(self, plan: Plan, only: Collection[str] | None = None) -> None:
        """Begins on a plan, or on the routes in `only`, and gives up on what was begun before."""
        self.cancel()
        self._cancel = cancel = Event()
        run_id, report = self._run_id, self._reported.emit

        def work() -> None:
            begun = time.monotonic()
            self._remembered.forget_gone(plan)
            for batch in batches(plan, self._engine, only, lambda: self._in_sight, self._working()):
                if cancel.is_set():
                    return
                if batch:
                    report(run_id, batch)
                    if (
                        any(isinstance(step, RouteAnswer) for step in batch)
                        and time.monotonic() - begun > PATIENCE_MS / 1000
                    ):
                        cancel.wait(_SHOW_S)

        self.queue(work)

    def look_at(self, routes: frozenset[str]) -> None:
        """The ids of the routes in sight, which go before the others from now on."""
        self._in_sight = routes

    def cancel(self) -> None:
        """Gives up; what was begun is not told any more."""
        self._run_id += 1
        self._cancel.set()
        self._waiting = []

    def queue(self, work: Callable[[], None], *, quick: bool = False) -> None:
        """Has something else done on the same thread, after what is under way; it gives up when `is_stopping`.

        `quick`: it takes no longer than a person waits for a field, and goes beside what is under way.
        """
        if self.is_stopping():
            # A timer of a window that has closed: the thread would be the last to hold what is Qt's, and free it there.
            return
        # The pool keeps what it is given until it is done; a QRunnable written in Python would be freed under it.
        (self._quick_pool if quick else self._pool).start(work)
        self._at_rest.start()

    def give_way(self) -> None:
        """The window has much to build just now: long work keeps still for a moment, from its next step on."""
        self._rest_until = time.monotonic() + _REST_S

    def rest(self) -> None:
        """For the work on the thread, between two steps: waits while the window has much to build."""
        while not self._stopping.is_set() and (left := self._rest_until - time.monotonic()) > 0:
            self._stopping.wait(left)

    def is_stopping(self) -> bool:
        """Whether the thread is waited for, or has been."""
        return self._stopping.is_set()

    def stop(self) -> None:
        """Gives up for good and waits for the thread, which looks up between two steps."""
        self.cancel()
        self._at_rest.stop()
        self._stopping.set()
        for pool in (self._pool, self._quick_pool):
            pool.waitForDone()
        if self.helper:
            self.helper.stop()

    def is_idle(self) -> bool:
        """Whether no thread is at work."""
        return self._pool.activeThreadCount() + self._quick_pool.activeThreadCount() == 0

    def _working(self) -> Working:
        helper, knows = self.helper, self._remembered.knows
        if helper is None:
            return route_steps

        def shared(plan: Plan, routes: Sequence[Route], engine: Engine, first: Wanted) -> Iterator[Step | None]:
            jobs = [(plan, route) for route in routes]
            return shared_steps(jobs, engine, helper, lambda job: knows(*job), first)

        return shared

    def _come_to_rest(self) -> None:
        if self.is_idle():
            self._pool.start(self._prepare)
        else:
            self._at_rest.start()

    def _prepare(self) -> None:
        """While nobody waits: memory is given back, and a helper is there for what comes next."""
        self._memory.give_back()
        if self.helper and not self.helper.is_started:
            self.helper.start()

    @Slot(int, list)
    def _pass_on(self, run_id: int, steps: list[Step]) -> None:
        if run_id == self._run_id:
            self._waiting += steps
            self._soon.start()

    def _tell(self) -> None:
        steps, self._waiting = self._waiting, []
        if steps:
            self.arrived.emit(steps)
