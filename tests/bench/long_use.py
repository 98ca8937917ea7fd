"""Hours of use in one go: `python -m tests.bench.long_use [STEPS] [SEED]`, else 10,000 steps.

Fields are typed into, words and rows pressed, choices turned, pages opened and left, routes picked, steps undone and
made again in the real window, at random, with the real engine. After a warm-up and at the end the same window is at
rest on the same page, and is measured: memory, threads, timers, windows, objects of Qt and of Python. Prints what grew;
`wrong` is to be empty: exceptions and warnings of Qt.
"""

from __future__ import annotations

import gc
import json
import os
import random
import sys
import tempfile
import threading
import time
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass
from importlib import import_module
from multiprocessing import active_children
from pathlib import Path
from types import TracebackType
from typing import TypeVar

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import QCoreApplication, QEvent, QEventLoop, QObject, Qt, QThread, QTimer, qInstallMessageHandler
from PySide6.QtPrintSupport import QPrintDialog
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QApplication,
    QComboBox,
    QFileDialog,
    QLineEdit,
    QMenu,
    QMessageBox,
    QPlainTextEdit,
    QWidget,
)

from desktop import fonts
from desktop.ahead import PAGES
from desktop.appearance import Appearance
from desktop.evaluator import Evaluator
from desktop.files.saving import save_plan
from desktop.garbage import Garbage
from desktop.plan_files import SAMPLES, open_plan
from desktop.start import open_window
from desktop.window import MainWindow

Kind = TypeVar("Kind", bound=QWidget)
MOST_GROWTH = 1.2
# A short plan whose routes are answered in a moment, so that many edits are answered.
_PLAN = SAMPLES / "corn-linked.plan.json"
_TYPED = ("0", "1", "2", "3", "5", "12", "40", "250", "0.5", "66", "1/3", "", "abc", "Amel", "<b>x</b>", "-1")
_KEYS = (
    Qt.Key.Key_Up, Qt.Key.Key_Down, Qt.Key.Key_Left, Qt.Key.Key_Right, Qt.Key.Key_Tab, Qt.Key.Key_Space,
    Qt.Key.Key_Home, Qt.Key.Key_End, Qt.Key.Key_PageDown, Qt.Key.Key_Plus, Qt.Key.Key_Minus, Qt.Key.Key_Escape,
)  # fmt: skip
_MOST_ROUTES = 8
_SAID = ("propagateSizeHints", "support raise()", "grabbing the")
_SHORT, _AT_REST, _LONG = 0.5, 3.0, 60.0


@dataclass
class Measured:
    """A window at rest."""

    mib: float
    # Of the helper, a process of its own.
    helper_mib: float
    threads: int
    timers: int
    windows: int
    qt: Counter[str]
    python: Counter[str]


def main() -> None:
    """Print what came of it."""
    steps = int(sys.argv[1]) if len(sys.argv) > 1 else 10_000
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else 1
    with tempfile.TemporaryDirectory() as home:
        os.environ["XDG_DATA_HOME"], os.environ["XDG_CONFIG_HOME"] = f"{home}/data", f"{home}/config"
        app = QApplication([])
        app.setApplicationName("Pairwright")
        fonts.load_fonts()
        mine = Path(home) / "mine.plan.json"
        plan = open_plan(_PLAN)
        assert save_plan(plan, mine) is None  # type: ignore[arg-type]
        print(json.dumps(run(steps, random.Random(seed), Appearance(app), mine)))


def run(steps: int, rng: random.Random, appearance: Appearance, mine: Path) -> dict[str, object]:
    """So many steps in one window; what went wrong, and what grew between the warm-up and the end."""
    wrong: list[str] = []
    heard = Ears(wrong)
    Garbage(appearance)
    evaluator = Evaluator()
    window = open_window(appearance, mine, evaluator)
    assert isinstance(window, MainWindow)
    person = Person(window, evaluator, rng, mine)
    warm = max(steps // 5, 1)
    done: Counter[str] = Counter()
    first: Measured | None = None
    begun, told = time.monotonic(), 0
    for number in range(steps):
        what = person.step()
        done[what] += 1
        for one in wrong[told:]:
            print(f"step {number}, {what}: {one}", file=sys.stderr, flush=True)
        told = len(wrong)
        if number + 1 == warm:
            # What is loaded when first used is no growth, whenever chance comes to use it.
            for page in PAGES:
                import_module(page)
            import_module("networkx")
            first = person.measure()
        if number % 500 == 0:
            print(f"{number} {time.monotonic() - begun:.0f} s {_mib():.0f} MiB", file=sys.stderr, flush=True)
    last = person.measure()
    person.leave()
    heard.stop()
    assert first is not None
    return {
        "steps": steps, "seconds": round(time.monotonic() - begun), "done": dict(done),
        "mib": [round(first.mib), round(last.mib)], "growth": round(last.mib / first.mib, 3),
        "helper_mib": [round(first.helper_mib), round(last.helper_mib)],
        "threads": [first.threads, last.threads], "timers": [first.timers, last.timers],
        "windows": [first.windows, last.windows], "qt_more": _more(first.qt, last.qt),
        "python_more": _more(first.python, last.python), "wrong": wrong,
    }  # fmt: skip


def _more(before: Counter[str], after: Counter[str]) -> dict[str, int]:
    """Kinds of which there are many more than there were."""
    grown = {kind: after[kind] - before[kind] for kind in after if after[kind] > 1.1 * before[kind] + 3}
    return dict(sorted(grown.items(), key=lambda one: -one[1])[:12])


class Ears:
    """Hears every exception that nobody caught, and every warning of Qt."""

    def __init__(self, wrong: list[str]) -> None:
        self._wrong = wrong
        self._hook, sys.excepthook = sys.excepthook, self._note
        self._messages = qInstallMessageHandler(self._hear)

    def stop(self) -> None:
        sys.excepthook = self._hook
        qInstallMessageHandler(self._messages)

    def _note(self, kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> None:
        # Seen at once: what is raised in a call of ours ends the run.
        self._hook(kind, error, trace)
        places = []
        while trace is not None:
            places.append(f"{Path(trace.tb_frame.f_code.co_filename).name}:{trace.tb_lineno}")
            trace = trace.tb_next
        self._add(f"{kind.__name__}: {error} at {' '.join(places[-6:])}")

    def _hear(self, _kind: object, _context: object, text: str) -> None:
        if not any(said in text for said in _SAID):
            self._add(f"Qt: {text}")

    def _add(self, what: str) -> None:
        if what not in self._wrong:
            self._wrong.append(what)


class Person:
    """Does one thing after the other, anywhere."""

    def __init__(self, window: MainWindow, evaluator: Evaluator, rng: random.Random, mine: Path) -> None:
        self._window, self._evaluator, self._rng, self._mine = window, evaluator, rng, mine
        page, menus = window.page, window.menus
        self._pages = [
            window.edit_route, window.show_assumptions, window.show_why, window.show_season, window.show_worth,
            window.find_routes, page.route_actions.new.trigger, menus.why_beats.trigger, menus.matters.trigger,
            window.show_counter, menus.paste_for_sale.trigger, menus.paste_mine.trigger, menus.about.trigger,
        ]  # fmt: skip
        self._ways: list[tuple[str, int, Callable[[], object]]] = [
            ("type", 26, self._type), ("press", 22, self._press), ("choose", 8, self._choose), ("key", 12, self._key),
            ("undo", 9, menus.undo.trigger), ("redo", 4, menus.redo.trigger), ("route", 6, self._pick),
            ("page", 5, self._open), ("back", 6, self._back), ("light", 1, self._light),
            ("save", 1, menus.save.trigger), ("reread", 2, self._reread), ("size", 1, self._resize),
            ("wait", 3, self._wait),
        ]  # fmt: skip
        self._file_dialogs = QFileDialog.getOpenFileName, QFileDialog.getSaveFileName
        QFileDialog.getOpenFileName = QFileDialog.getSaveFileName = _no_file  # type: ignore[method-assign, assignment]
        QPrintDialog.exec = _no  # type: ignore[method-assign]
        # Questions and menus wait for an answer; somebody gives one.
        self._nanny = QTimer(interval=15)
        self._nanny.timeout.connect(self._answer)
        self._nanny.start()

    def step(self) -> str:
        """One thing; gives its name."""
        (way,) = self._rng.choices(self._ways, [weight for _, weight, _ in self._ways])
        way[2]()
        _turn()
        if len(self._window.document.plan.routes) > _MOST_ROUTES:
            self._back()
            self._window.page.route_actions.delete.trigger()
        return way[0]

    def measure(self) -> Measured:
        """The window at rest, on the comparison of the plan as it was saved first."""
        self._calm()
        python = Counter(type(one).__name__ for one in gc.get_objects())
        app = QCoreApplication.instance()
        assert app is not None
        objects = [*app.findChildren(QObject), *self._window.findChildren(QObject)]
        timers = sum(isinstance(one, QTimer) and one.isActive() for one in objects)
        windows = sum(one.parent() is None for one in QApplication.topLevelWidgets())
        threads = sum(isinstance(one, QThread) for one in objects) + threading.active_count()
        return Measured(
            _mib(),
            _helper_mib(),
            threads,
            timers,
            windows,
            Counter(one.metaObject().className() for one in objects),
            python,
        )

    def leave(self) -> None:
        """Closes the window for good."""
        self._calm()
        self._nanny.stop()
        self._window.document.history.set_clean()
        self._window.close()
        self._window.deleteLater()
        QFileDialog.getOpenFileName, QFileDialog.getSaveFileName = self._file_dialogs  # type: ignore[method-assign]
        _turn()

    def _calm(self) -> None:
        for _ in range(4):
            self._back()
            _turn()
        document, plan = self._window.document, open_plan(_PLAN)
        assert save_plan(plan, self._mine) is None  # type: ignore[arg-type]
        document.history.set_clean()
        self._window.filing.open(self._mine)
        self._window.resize(1280, 800)
        self._answered()
        # What pages that were closed had begun comes to its end, and what it took of memory goes back.
        self._serve(_LONG, self._evaluator.is_idle)
        self._serve(_AT_REST, lambda: False)
        for _ in range(3):
            _turn()
            gc.collect()

    def _wait(self) -> None:
        self._answered(_SHORT)

    def _answered(self, patience: float = _LONG) -> None:
        self._serve(patience, lambda: self._window.document.complete)

    def _serve(self, seconds: float, until: Callable[[], bool]) -> None:
        end = time.monotonic() + seconds
        while not until() and time.monotonic() < end:
            QApplication.processEvents(QEventLoop.ProcessEventsFlag.WaitForMoreEvents, 50)

    def _root(self) -> QWidget:
        """What is in front."""
        front = [one for one in QApplication.topLevelWidgets() if one.isVisible() and one is not self._window]
        dialogs = [one for one in front if not isinstance(one, (QMenu, QMessageBox))]
        return dialogs[-1] if dialogs else self._window

    def _some(self, kind: type[Kind]) -> Kind | None:
        found = [one for one in self._root().findChildren(kind) if one.isVisible() and one.isEnabled()]
        return self._rng.choice(found) if found else None

    def _type(self) -> None:
        into = self._some(self._rng.choice((QLineEdit, QLineEdit, QLineEdit, QPlainTextEdit)))
        if into is None or into.isReadOnly():
            return
        into.setFocus()
        into.selectAll()
        QTest.keyClicks(into, self._rng.choice(_TYPED))
        if isinstance(into, QLineEdit) and self._rng.random() < 0.8:
            QTest.keyClick(into, Qt.Key.Key_Return)

    def _press(self) -> None:
        button = self._some(QAbstractButton)
        if button is not None:
            QTest.mouseClick(button, Qt.MouseButton.LeftButton)

    def _choose(self) -> None:
        choice = self._some(QComboBox)
        if choice is not None and choice.count():
            place = self._rng.randrange(choice.count())
            choice.setCurrentIndex(place)
            choice.activated.emit(place)

    def _key(self) -> None:
        into = self._some(QAbstractItemView) if self._rng.random() < 0.6 else QApplication.focusWidget()
        if into is not None:
            QTest.keyClick(into, self._rng.choice(_KEYS))

    def _pick(self) -> None:
        shown = self._window.document.shown
        if shown:
            self._window.document.select(self._rng.choice(shown))

    def _open(self) -> None:
        if self._root() is self._window:
            self._rng.choice(self._pages)()

    def _back(self) -> None:
        root = self._root()
        if root is not self._window:
            root.close()
        else:
            self._window.views.close_page()

    def _light(self) -> None:
        self._rng.choice(self._window.menus.schemes.actions()).trigger()

    def _reread(self) -> None:
        self._window.filing.open(self._mine)

    def _resize(self) -> None:
        self._window.resize(self._rng.choice((1024, 1280, 1920)), self._rng.choice((700, 800, 1080)))

    def _answer(self) -> None:
        popup, box = QApplication.activePopupWidget(), QApplication.activeModalWidget()
        if popup is not None:
            for _ in range(self._rng.randrange(4)):
                QTest.keyClick(popup, Qt.Key.Key_Down)
            last = QApplication.activePopupWidget()
            if last is not None:
                QTest.keyClick(last, self._rng.choice((Qt.Key.Key_Return, Qt.Key.Key_Escape)))
                last.close()
        elif isinstance(box, QMessageBox) and box.isVisible():
            QTest.mouseClick(self._rng.choice(box.buttons()), Qt.MouseButton.LeftButton)


def _no_file(*_: object) -> tuple[str, str]:
    return "", ""


def _no(*_: object) -> int:
    return 0


def _turn() -> None:
    for _ in range(2):
        QApplication.processEvents()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)


def _mib(process: int | str = "self") -> float:
    pages = int(Path(f"/proc/{process}/statm").read_text().split()[1])
    return pages * os.sysconf("SC_PAGE_SIZE") / 2**20


def _helper_mib() -> float:
    return sum(_mib(one.pid) for one in active_children() if one.pid)


if __name__ == "__main__":
    main()
