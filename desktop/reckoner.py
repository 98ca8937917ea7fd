"""Works out plans in a process of its own: on a second core, and never in the window's way.

Questions and answers go through pipes as pickles, only ever between these two processes of one program.
"""

from __future__ import annotations

import os
import pickle
import signal
import subprocess
import sys
import threading
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from queue import SimpleQueue
from typing import IO

from core.plan.model import Plan
from desktop.evaluation import Step, batches, core_engine

_HOME = Path(__file__).resolve().parent.parent
_GOODBYE_SECONDS = 2.0


class Reckoner:
    """The other process, as the window sees it."""

    def __init__(self) -> None:
        path = os.pathsep.join(part for part in (str(_HOME), os.environ.get("PYTHONPATH", "")) if part)
        # The arrays are small: more threads than one would only cost memory.
        environment = os.environ | {"PYTHONPATH": path, "OPENBLAS_NUM_THREADS": "1", "OMP_NUM_THREADS": "1"}
        self._process = subprocess.Popen(
            [sys.executable, "-m", "desktop.reckoner"],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            env=environment,
            creationflags=getattr(subprocess, "CREATE_NO_WINDOW", 0),
        )

    def ask(self, run_id: int, plan: Plan) -> None:
        """Asks for a plan; whatever was asked before is given up. Raises OSError where the process is gone."""
        pipe = _open(self._process.stdin)
        pickle.dump((run_id, plan), pipe)
        pipe.flush()

    def answers(self) -> Iterator[tuple[int, list[Step]]]:
        """Run ids with their steps, until the process ends."""
        pipe = _open(self._process.stdout)
        while True:
            try:
                yield pickle.load(pipe)
            except (EOFError, OSError, pickle.UnpicklingError):
                return

    def is_alive(self) -> bool:
        """Whether the process still runs."""
        return self._process.poll() is None

    def kill(self) -> None:
        """Ends the process at once."""
        self._process.kill()
        self._process.wait()

    def close(self) -> None:
        """Ends the process, gently at first."""
        # It may be gone already, with a question unread.
        with suppress(OSError):
            _open(self._process.stdin).close()
        try:
            self._process.wait(_GOODBYE_SECONDS)
        except subprocess.TimeoutExpired:
            self.kill()


def started_reckoner() -> Reckoner | None:
    """A process that begins to load, or None where this program can start none: a packed one cannot."""
    if not sys.executable or getattr(sys, "frozen", False):
        return None
    try:
        return Reckoner()
    except OSError:
        return None


def _open(pipe: IO[bytes] | None) -> IO[bytes]:
    if pipe is None:
        raise OSError("the pipe was never opened")
    return pipe


class _Ear:
    """Listens for questions beside the work, so that a newer one or the window's end stops the older."""

    def __init__(self, source: IO[bytes]) -> None:
        self.questions: SimpleQueue[tuple[int, Plan]] = SimpleQueue()
        self.newest = 0
        self._source = source
        threading.Thread(target=self._listen, daemon=True).start()

    def _listen(self) -> None:
        while True:
            try:
                run_id, plan = pickle.load(self._source)
            except EOFError:
                # The window is gone: so is the reason to go on.
                os._exit(0)
            self.newest = run_id
            self.questions.put((run_id, plan))


def serve() -> None:
    """The process itself: answers the newest question, until its input ends."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    sink = os.fdopen(os.dup(1), "wb")
    # Nothing else may write where the answers go.
    os.dup2(2, 1)
    ear = _Ear(sys.stdin.buffer)
    while True:
        run_id, plan = ear.questions.get()
        for batch in batches(plan, core_engine):
            if ear.newest != run_id:
                break
            if not batch:
                continue
            pickle.dump((run_id, batch), sink, protocol=pickle.HIGHEST_PROTOCOL)
            sink.flush()


if __name__ == "__main__":
    serve()
