"""The helper's own side: works out what it is asked for, one route after the other; no Qt is loaded there."""

from __future__ import annotations

import gc
import logging
import os
import signal
import sys
import time
from collections.abc import Callable
from contextlib import suppress
from multiprocessing.connection import Connection

from core.plan.model import Plan, Route
from desktop.beside.messages import GIVE_UP, Asked, Ready, Replied
from desktop.evaluation import PROGRESS_A_SECOND, Engine, RecentEngine, RouteAnswer, Underway, answer_route
from desktop.memory import Memory

# After so long without a question, much memory that was freed goes back to the system.
_AT_REST_S = 2.0
_NICE = 19
_log = logging.getLogger(__name__)


def work(window: Connection, source: Callable[[], Engine]) -> None:
    """Answers until the window's end is closed, or its process is gone."""
    if sys.platform != "win32":
        # The window goes first where cores are few.
        os.nice(_NICE)
    # Ctrl+C in a terminal reaches both processes, and neither has a word to say to it.
    signal.signal(signal.SIGINT, signal.SIG_DFL)
    engine, memory = source(), Memory()
    # What is loaded stays, and garbage is looked for between two questions.
    gc.freeze()
    gc.disable()
    with suppress(EOFError, OSError):
        window.send(Ready())
        plan: Plan | None = None
        while True:
            _rest(window, memory)
            asked = window.recv()
            if asked is GIVE_UP:
                # The answer was on its way already.
                continue
            if asked.plan is not None:
                plan = asked.plan
                if isinstance(source, RecentEngine):
                    source.forget_gone(plan)
            window.send(_reply(window, asked, plan, engine, source))


def _rest(window: Connection, memory: Memory) -> None:
    """Tidies up while no question comes."""
    if not window.poll():
        gc.collect(1)
    if not window.poll(_AT_REST_S):
        gc.collect()
        memory.give_back()


def _reply(
    window: Connection, asked: Asked, plan: Plan | None, engine: Engine, source: Callable[[], Engine]
) -> Replied:
    """The answer to a question, or that there is none: then it is worked out beside the window, which can say why."""
    route = next((one for one in plan.routes if one.id == asked.route), None) if plan else None
    if plan is None or route is None:
        return Replied(None)
    try:
        answer = _answered(window, plan, route, engine)
    except (EOFError, OSError):
        raise
    except Exception as error:  # noqa: BLE001 - the window's process comes upon the same, and tells it
        _log.debug("a route failed in the helper", exc_info=error)
        return Replied(None)
    known = isinstance(source, RecentEngine) and source.knows(plan, route)
    return Replied(answer, known)


def _answered(window: Connection, plan: Plan, route: Route, engine: Engine) -> RouteAnswer | None:
    """The answer, with its progress told now and then; None where the window says meanwhile that nobody waits."""
    told = time.monotonic()
    steps = answer_route(plan, route, engine)
    while not window.poll():
        try:
            step = next(steps)
        except StopIteration as end:
            answer: RouteAnswer = end.value
            return answer
        now = time.monotonic()
        if isinstance(step, RouteAnswer):
            window.send(Replied(step))
        elif isinstance(step, Underway) and now - told >= 1 / PROGRESS_A_SECOND:
            window.send(Replied(step))
            told = now
    return None
