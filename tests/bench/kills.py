"""Ends the program at random moments of editing and saving: `python -m tests.bench.kills [KILLS] [SEED]`, else 200.

Each time the program runs in a process of its own with a real window; its fields are typed into, steps are undone and
made again, and now and then it saves. It tells every plan that it has come to, so that what is found afterwards can be
held against it: the file is the one saved last, or the one that was being saved; and what the next start brings back
is no older than a second.
"""

from __future__ import annotations

import json
import os
import random
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from hashlib import sha256
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import QCoreApplication, QEvent, Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from core.plan.model import Plan
from core.plan.read import load_plan
from core.plan.write import write_plan
from desktop import fonts
from desktop.app import main as program
from desktop.appearance import Appearance
from desktop.files import filing
from desktop.files.left_behind import LeftBehind
from desktop.files.saving import save_and_stamp, save_plan
from desktop.plan_files import SAMPLE
from desktop.window import MainWindow
from desktop.windows import Windows

ROOT = Path(__file__).resolve().parents[2]
# The most that may be lost, in seconds.
MOST_LOST = 1.0
_EVERY_MS = 25
# A kill comes this long after the first edit, or this soon after a saving begins.
_LONGEST, _SOON = 2.6, 0.012
_PATIENCE = 60.0


@dataclass
class Told:
    """What a run told before its end: plans by their digest, each with when it was come to."""

    plans: list[tuple[str, float]] = field(default_factory=list)
    saved: str = ""
    saving: str = ""

    def hear(self, line: str) -> str:
        """Takes one line, and gives what it was about."""
        what, digest, when = line.split()
        if what == "plan":
            self.plans.append((digest, float(when)))
        elif what == "saving":
            self.saving = digest
        else:
            self.saved, self.saving = digest, ""
        return what

    def lost(self, digest: str, killed: float) -> float | None:
        """For how many seconds what was found had been out of date at the end; None where it was never there."""
        places = [place for place, (one, _) in enumerate(self.plans) if one == digest]
        if not places:
            return None
        following = self.plans[places[-1] + 1 :]
        return killed - following[0][1] if following else 0.0


def digest_of(plan: Plan) -> str:
    """A plan in a few letters."""
    return sha256(write_plan(plan)).hexdigest()[:16]


def main() -> None:
    """Print how often the program was ended, and what was lost."""
    if sys.argv[1:2] == ["--edit"]:
        sys.exit(edit_until_killed(Path(sys.argv[2]), random.Random(int(sys.argv[3]))))
    kills = int(sys.argv[1]) if len(sys.argv) > 1 else 200
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else 1
    app = QApplication([])
    app.setApplicationName("Pairwright")
    fonts.load_fonts()
    print(json.dumps(run(kills, random.Random(seed), Appearance(app))))


def run(kills: int, rng: random.Random, appearance: Appearance) -> dict[str, object]:
    """Ends the program so often, and tells what came of it; `wrong` is to be empty."""
    counts: Counter[str] = Counter()
    wrong: list[str] = []
    losses, edits = [0.0], 0
    for number in range(kills):
        home = Path(tempfile.mkdtemp(prefix="kills-"))
        try:
            told, moment, lost, problem = one_kill(home, rng, appearance)
        finally:
            shutil.rmtree(home, ignore_errors=True)
        counts[moment] += 1
        edits += len(told.plans)
        losses.append(lost)
        if problem:
            wrong.append(f"kill {number}, {moment}: {problem}")
            print(wrong[-1], file=sys.stderr, flush=True)
    return {
        "kills": kills, "moments": dict(counts), "edits": edits, "longest_lost_s": round(max(losses), 3),
        "wrong": wrong,
    }  # fmt: skip


def one_kill(home: Path, rng: random.Random, appearance: Appearance) -> tuple[Told, str, float, str]:
    """One run and its end: what it told, when it was ended, seconds lost, and what is wrong."""
    os.environ["XDG_DATA_HOME"], os.environ["XDG_CONFIG_HOME"] = str(home / "data"), str(home / "config")
    mine = home / "plans" / "mine.plan.json"
    mine.parent.mkdir()
    assert save_plan(load_plan(SAMPLE), mine) is None
    told = Told(saved=digest_of(load_plan(mine)))
    killed = _edit_and_kill(mine, rng, told)
    moment = "while saving" if told.saving else "while editing"
    try:
        file = digest_of(load_plan(mine))
    except ValueError as error:
        return told, moment, 0.0, f"the file is no plan: {error}"
    if file not in {told.saved, told.saving}:
        return told, moment, 0.0, "the file is neither the old one nor the new one"
    back = _brought_back(appearance)
    now = digest_of(back) if back is not None else file
    lost = told.lost(now, killed)
    if lost is None:
        return told, moment, 0.0, "what came back was never there"
    return told, moment, lost, f"{lost:.2f} s were lost" if lost > MOST_LOST else ""


def _edit_and_kill(mine: Path, rng: random.Random, told: Told) -> float:
    """Lets the program edit, listens, and ends it at a moment nobody chose; when that was."""
    command = [sys.executable, "-m", "tests.bench.kills", "--edit", str(mine), str(rng.randrange(10**9))]
    at, in_saving = rng.uniform(0.0, _LONGEST), rng.random() < 0.4
    running = subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, bufsize=0)
    assert running.stdout is not None
    os.set_blocking(running.stdout.fileno(), False)
    rest, end, patience = b"", 0.0, time.monotonic() + _PATIENCE
    while not end or time.monotonic() < end:
        data = running.stdout.read()
        *lines, rest = (rest + (data or b"")).split(b"\n")
        for line in lines:
            what = told.hear(line.decode())
            begun = told.plans[0][1]
            if in_saving and what == "saving" and time.monotonic() > begun + at / 2:
                end = time.monotonic() + rng.uniform(0.0, _SOON)
        if told.plans and not in_saving:
            end = told.plans[0][1] + at
        if time.monotonic() > patience or running.poll() is not None:
            raise RuntimeError("the program did not do as it was asked")
        time.sleep(0.0005)
    os.kill(running.pid, signal.SIGKILL)
    killed = time.monotonic()
    running.wait()
    os.set_blocking(running.stdout.fileno(), True)
    for line in (rest + running.stdout.read()).split(b"\n")[:-1]:
        told.hear(line.decode())
    running.stdout.close()
    return killed


def _brought_back(appearance: Appearance) -> Plan | None:
    """What the next start offers, taken; None where it offers nothing."""
    windows = Windows(appearance)
    window = windows.open()
    assert isinstance(window, MainWindow)
    windows.look_for_left_behind()
    _settle()
    dialog, plan = window.findChild(LeftBehind), None
    if isinstance(dialog, LeftBehind):
        QTest.mouseClick(dialog.offers[0].bring_back, Qt.MouseButton.LeftButton)
        _settle()
        plan = window.document.plan
    for one in windows.shown[:]:
        one.document.history.set_clean()
        one.close()
    _settle()
    windows.deleteLater()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
    return plan


def _settle() -> None:
    for _ in range(5):
        QCoreApplication.processEvents()


def edit_until_killed(mine: Path, rng: random.Random) -> int:
    """The program itself, whose window is edited until somebody ends it."""
    wait_for_people = QApplication.exec

    def play(*_: object) -> int:
        (window,) = (one for one in QApplication.topLevelWidgets() if isinstance(one, MainWindow))
        editing = Editing(window, rng)
        timer = QTimer(window, interval=_EVERY_MS)
        timer.timeout.connect(editing.go_on)
        timer.start()
        return wait_for_people()

    filing.save_and_stamp = _tell_saving
    QApplication.exec = play  # type: ignore[method-assign, assignment]
    return program([str(mine)])


class Editing:
    """Does one thing after the other, and tells of it."""

    def __init__(self, window: MainWindow, rng: random.Random) -> None:
        self._window, self._rng = window, rng
        self._number, self._saves = 0, False
        window.document.edited.connect(self._tell_plan)
        self._ways: list[tuple[int, Callable[[], None]]] = [
            (8, self._money), (3, self._seasons), (3, window.menus.undo.trigger), (2, window.menus.redo.trigger),
            (2, window.page.route_actions.duplicate.trigger), (1, window.page.route_actions.delete.trigger),
            (2, self._save),
        ]  # fmt: skip
        self._tell_plan()

    def go_on(self) -> None:
        """The next thing."""
        weights, ways = zip(*self._ways, strict=True)
        self._rng.choices(ways, weights)[0]()

    def _money(self) -> None:
        self._number += 1
        self._type("goal.budget", str(1000 + self._number))

    def _seasons(self) -> None:
        self._type("goal.seasons", str(self._rng.randint(1, 12)))

    def _type(self, place: str, text: str) -> None:
        into = self._window.page.goal.fields[place]
        into.setFocus()
        into.selectAll()
        QTest.keyClicks(into, text)
        QTest.keyClick(into, Qt.Key.Key_Return)

    def _save(self) -> None:
        if not self._saves:
            self._saves = True
            # Edits go on meanwhile.
            self._window.menus.save.trigger()
            self._saves = False

    def _tell_plan(self) -> None:
        _say("plan", digest_of(self._window.document.plan))


def _tell_saving(plan: Plan, path: Path) -> tuple[str | None, str]:
    """Saves as the program does, on its thread beside the window, and tells before and after."""
    _say("saving", digest_of(plan))
    outcome = save_and_stamp(plan, path)
    _say("saved", digest_of(plan))
    return outcome


def _say(what: str, digest: str) -> None:
    # At once and in one piece: two threads tell, and the next moment may be the last.
    os.write(1, f"{what} {digest} {time.monotonic()}\n".encode())


if __name__ == "__main__":
    main()
