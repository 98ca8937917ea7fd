"""The window's side of the helper: starts it, asks it, and does without it where it is gone."""

from __future__ import annotations

import logging
from collections.abc import Callable
from typing import TYPE_CHECKING

import msgspec

from core.plan.model import Plan, Route
from core.routes.exact.recent import unpriced
from desktop.beside.messages import GIVE_UP, Asked, Ready, Replied
from desktop.evaluation import Engine, RouteAnswer, Underway

if TYPE_CHECKING:
    from multiprocessing.connection import Connection
    from multiprocessing.context import SpawnProcess

_log = logging.getLogger(__name__)
# A route of a plan that is asked for.
Job = tuple[Plan, Route]


class GivenBack(msgspec.Struct, frozen=True):
    """A route that the helper has no answer to."""

    job: Job


News = RouteAnswer | Underway | GivenBack


class Helper:
    """One more process, once it is started; asked from one thread, for one route at a time.

    source: where its engine comes from; it is taken over into the other process.
    """

    def __init__(self, source: Callable[[], Engine]) -> None:
        self._source = source
        self._pipe: Connection | None = None
        self._process: SpawnProcess | None = None
        self._is_started = self._is_ready = self._is_gone = False
        self._asked: Job | None = None
        self._is_wanted = False
        self._plan: Plan | None = None
        self._remembered: dict[str, tuple[Plan, Route]] = {}

    @property
    def is_started(self) -> bool:
        """Whether there is a process, or was one."""
        return self._is_started

    @property
    def is_gone(self) -> bool:
        """Whether there is none any more, or none could be had."""
        return self._is_gone

    def start(self) -> None:
        """Starts the process, which takes a moment to be ready; without one everything is worked out here."""
        # A start of the program waits for what is imported, and begins without a helper.
        from multiprocessing import get_context

        from desktop.beside.at_work import work

        self._is_started = True
        context = get_context("spawn")
        try:
            self._pipe, other = context.Pipe()
            self._process = context.Process(target=work, args=(other, self._source), daemon=True)
            self._process.start()
        except OSError as error:
            self._lose(error)
        else:
            # Once only the helper holds that end, either process learns at once that the other one is gone.
            other.close()

    @property
    def is_busy(self) -> bool:
        """Whether it works on something that is waited for."""
        return self._asked is not None and self._is_wanted

    @property
    def is_free(self) -> bool:
        """Whether it can be asked."""
        return self._is_ready and not self._is_gone and self._asked is None

    def knows(self, job: Job) -> bool:
        """Whether it can tell a route at other prices, which takes a fraction of working it out."""
        return job[1].id in self._remembered and self._remembered[job[1].id] == unpriced(*job)

    def ask(self, job: Job) -> None:
        """Has a route worked out, while `is_free`."""
        plan, route = job
        self._asked, self._is_wanted = job, True
        known = plan is self._plan
        if not known:
            ids = {one.id for one in plan.routes}
            self._remembered = {id_: one for id_, one in self._remembered.items() if id_ in ids}
        self._plan = plan
        self._say(Asked(None if known else plan, route.id))

    def give_up(self) -> None:
        """Nobody waits for what is under way."""
        if self.is_busy:
            self._is_wanted = False
            self._say(GIVE_UP)

    def news(self, wait_s: float = 0.0) -> list[News]:
        """What has come since it was last asked for; `wait_s`: for how long something is waited for, in seconds."""
        told: list[News] = []
        try:
            while self._pipe and not self._is_gone and self._pipe.poll(wait_s):
                told += self._taken(self._pipe.recv())
                wait_s = 0.0
        except (EOFError, OSError) as error:
            self._lose(error)
        if self._is_gone and self._asked is not None:
            told += self._ended(None)
        return told

    def stop(self) -> None:
        """Ends the process, whatever it is at: it keeps nothing that is of worth."""
        self._is_gone = True
        if self._process and self._process.pid:
            self._process.kill()
            self._process.join()
        if self._pipe:
            self._pipe.close()

    def _say(self, what: Asked | None) -> None:
        try:
            if self._pipe:
                self._pipe.send(what)
        except OSError as error:
            self._lose(error)

    def _lose(self, error: Exception) -> None:
        self._is_gone = True
        _log.warning("there is no helper any more, the window goes on without: %r", error)

    def _taken(self, message: Replied | Ready) -> list[News]:
        if isinstance(message, Ready):
            self._is_ready = True
            return []
        if isinstance(message.step, Underway) or (message.step and message.step.early):
            return [message.step] if self._is_wanted else []
        if isinstance(message.step, RouteAnswer) and self._asked is not None:
            route = message.step.id
            self._remembered.pop(route, None)
            if message.remembered:
                self._remembered[route] = unpriced(*self._asked)
        return self._ended(message.step)

    def _ended(self, answer: RouteAnswer | None) -> list[News]:
        job, wanted = self._asked, self._is_wanted
        self._asked, self._is_wanted = None, False
        if job is None or not wanted:
            return []
        return [answer or GivenBack(job)]
