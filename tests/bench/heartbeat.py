"""Whether the window stays alive: the longest it does not answer while routes are simulated or looked for, and how soon
an edit is painted with eight exact routes.

`python -m tests.bench.heartbeat` prints medians. Each gap stands beside one of the same window at rest for as long, and
the edit is timed twice in turn: with the engine, and with answers that are known, which leaves the window's own share;
`window_cpu_ms` is what that share takes of the window's thread, whatever else the machine does. While routes are looked
for, `finding_cpu_ms` is the most that the whole program works between two beats, which other programs hardly change;
`finding_turn_ms` the most of it on the window's own thread.
"""

from __future__ import annotations

import gc
import json
import os
import time
from collections.abc import Callable, Generator
from importlib import import_module
from itertools import pairwise
from statistics import median

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

import msgspec
from PySide6.QtCore import QEvent, QEventLoop, QTimer
from PySide6.QtWidgets import QApplication

from core.plan.model import Plan, Route
from core.routes.evaluate import evaluate_steps
from core.routes.result import RouteResult
from desktop import fonts
from desktop.ahead import PAGES
from desktop.appearance import Appearance
from desktop.document import Document
from desktop.evaluation import Engine
from desktop.evaluator import Evaluator
from desktop.find.page import FindPage
from desktop.garbage import Garbage
from desktop.locale_numbers import LocaleNumbers
from desktop.window import MainWindow
from tests.bench.finding import sheet
from tests.bench.plans import eight_routes, three_generations

_TURNS, _SIMULATIONS = 15, 3


class Remembering:
    """An engine that works every question out once, and then knows the answer at once."""

    def __init__(self) -> None:
        self.known: dict[bytes, RouteResult] = {}

    def __call__(self) -> Engine:
        return self.steps

    def steps(self, plan: Plan, route: Route) -> Generator[float, None, RouteResult]:
        key = msgspec.json.encode((plan.costs, route))
        if key not in self.known:
            self.known[key] = yield from evaluate_steps(plan, route)
        return self.known[key]


def main() -> None:
    """Print how long the window did not answer, and how soon an edit was painted."""
    app = QApplication([])
    fonts.load_fonts()
    appearance = Appearance(app)
    gaps = _gaps(app, appearance)
    finding = [_finding(app, appearance) for _ in range(_SIMULATIONS)]
    whole, share, cpu = _edits(app, appearance)
    told = {
        "gap_simulating_ms": _ms([busy for busy, _ in gaps]),
        "gap_at_rest_ms": _ms([rest for _, rest in gaps]),
        "gap_finding_ms": _ms([wall for wall, _, _ in finding]),
        "finding_cpu_ms": _ms([every for _, every, _ in finding]),
        "finding_turn_ms": _ms([own for _, _, own in finding]),
        "edit_to_paint_ms": _ms(whole),
        "window_share_ms": _ms(share),
        "window_cpu_ms": _ms(cpu),
        "share_of_the_whole": round(median(share) / median(whole), 2),
    }
    print(json.dumps(told))


def _gaps(app: QApplication, appearance: Appearance) -> list[tuple[float, float]]:
    """The longest gap between two beats while three generations are played, and at rest."""
    found = []
    plan, _ = three_generations()
    for turn in range(_SIMULATIONS):
        seed = msgspec.structs.replace(plan, simulation=msgspec.structs.replace(plan.simulation, seed=turn + 1))
        window = _window(appearance, seed, Evaluator())
        app.processEvents()
        begun = time.perf_counter()
        window.work_out()
        busy = _longest(app, lambda document=window.document: document.complete)
        ends = 2 * time.perf_counter() - begun
        rest = _longest(app, lambda end=ends: time.perf_counter() >= end)
        found.append((busy, rest))
        _let_go(window)
    return found


def _finding(app: QApplication, appearance: Appearance) -> tuple[float, float, float]:
    """The longest between two beats while the page of finding routes searches a large sheet, from when it is opened.

    By the clock, in work of the whole program, and in work of the window's thread.
    """
    window = _window(appearance, sheet(), Evaluator())
    # As the program does: Python's own rounds for garbage would go on the search's thread.
    garbage = Garbage(window)
    _settle(app, window)
    for page in PAGES:
        import_module(page)
    window.find_routes()
    page = window.views.page()
    assert isinstance(page, FindPage)
    wall, every, own = _beats(app, lambda: page.is_settled)
    garbage.deleteLater()
    gc.enable()
    _let_go(window)
    return wall, every, own


def _longest(app: QApplication, done: Callable[[], bool]) -> float:
    return _beats(app, done)[0]


def _beats(app: QApplication, done: Callable[[], bool]) -> tuple[float, ...]:
    """The longest between two beats: by the clock, in work of the program, and in work of this thread."""
    beats = [_now()]
    timer = QTimer(interval=1)
    timer.timeout.connect(lambda: beats.append(_now()))
    timer.start()
    while not done():
        app.processEvents(QEventLoop.ProcessEventsFlag.WaitForMoreEvents)
    timer.stop()
    return tuple(max(after[k] - before[k] for before, after in pairwise(beats)) for k in range(3))


def _now() -> tuple[float, float, float]:
    return time.perf_counter(), time.process_time(), time.thread_time()


def _edits(app: QApplication, appearance: Appearance) -> tuple[list[float], list[float], list[float]]:
    """From an edit that changes every route to the painted curves: with the engine, and without its work."""
    plan = _eight_exact()
    remembering = Remembering()
    working = _window(appearance, plan, Evaluator())
    knowing = _window(appearance, plan, Evaluator(remembering))
    for window in (working, knowing):
        window.work_out()
        _settle(app, window)
    # Every price once before anything is timed.
    for turn in range(_TURNS):
        _edit(app, knowing, turn)
    whole, share, cpu = [], [], []
    other = _window(appearance, plan, Evaluator(remembering))
    other.work_out()
    _settle(app, other)
    for turn in range(_TURNS):
        _come_to_rest(app, working, other)
        whole.append(_edit(app, working, turn))
        _come_to_rest(app, working, other)
        begun = time.thread_time()
        share.append(_edit(app, other, turn))
        cpu.append(time.thread_time() - begun)
    for window in (working, knowing, other):
        _let_go(window)
    return whole, share, cpu


def _come_to_rest(app: QApplication, *windows: MainWindow) -> None:
    """A person's next edit comes after the cautions on the last one."""
    while not all(window.minder.is_settled for window in windows):
        app.processEvents(QEventLoop.ProcessEventsFlag.WaitForMoreEvents)
    app.processEvents()


def _edit(app: QApplication, window: MainWindow, turn: int) -> float:
    document, canvas = window.document, window.page.money.chart.canvas
    before = canvas.picture
    costs = msgspec.structs.replace(document.plan.costs, setup=200 + turn)
    begun = time.perf_counter()
    document.edit(msgspec.structs.replace(document.plan, costs=costs), "change it")
    while not document.complete or canvas.picture is before or not canvas.picture.series:
        app.processEvents(QEventLoop.ProcessEventsFlag.WaitForMoreEvents)
    _settle(app, window)
    return time.perf_counter() - begun


def _settle(app: QApplication, window: MainWindow) -> None:
    while not window.document.complete:
        app.processEvents(QEventLoop.ProcessEventsFlag.WaitForMoreEvents)
    # What was put off until the event loop comes round, and its painting.
    for _ in range(3):
        app.processEvents()


def _eight_exact() -> Plan:
    """The exact routes of the first plan, and two of them at another price."""
    plan = eight_routes()[0][0]
    more = tuple(
        msgspec.structs.replace(one, id=f"{one.id}-too", name=f"{one.name} too", setup=30) for one in plan.routes
    )
    return msgspec.structs.replace(plan, routes=(*plan.routes, *more)[:8])


def _window(appearance: Appearance, plan: Plan, evaluator: Evaluator) -> MainWindow:
    window = MainWindow(Document(plan), evaluator, appearance, LocaleNumbers())
    window.show()
    return window


def _let_go(window: MainWindow) -> None:
    window.document.history.set_clean()
    window.close()
    # Python frees in any order, and a chart must not lose its parts before its scene.
    window.deleteLater()
    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def _ms(seconds: list[float]) -> float:
    return round(1000 * median(seconds), 1)


if __name__ == "__main__":
    main()
