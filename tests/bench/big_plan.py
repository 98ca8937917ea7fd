"""A plan as large as a person might make one: `python -m tests.bench.big_plan`.

Twenty routes of ten groups over six genes and twelve seasons. Tells how long it takes until the routes in sight are
answered and until all are, the longest that the window does not answer meanwhile, at rest, and while a person looks
around (picks rows, scrolls, edits a price), and how many curves are drawn.
"""

from __future__ import annotations

import json
import os
import time
from collections.abc import Callable
from statistics import median
from typing import Any

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

import msgspec
from PySide6.QtCore import QEventLoop, QTimer
from PySide6.QtWidgets import QApplication

from core.plan.check import examine
from core.plan.model import Plan
from desktop import fonts
from desktop.appearance import Appearance
from desktop.document import Document
from desktop.evaluator import Evaluator
from desktop.garbage import Garbage
from desktop.locale_numbers import LocaleNumbers
from desktop.panels.charts.showing import MOST_DRAWN
from desktop.window import MainWindow

Json = dict[str, Any]

ROUTES, GENES, GROUPS, SEASONS = 20, 6, 10, 12
# A person does something about as often.
_EVERY_MS, _LOOKS = 250, 24
_SPECIES = {
    "name": "Invented boa", "sex_system": "ZW", "clutch": {"mean": 12, "sd": 3, "min": 4, "max": 20},
    "matures": {"male": 2, "female": 3}, "lays": 0.85, "fertile": 0.9, "hatches": 0.85, "clutch_lost": 0.05,
    "breeds": {"male": 0.95, "female": 0.93}, "reaches_breeding": 0.9,
}  # fmt: skip
_COSTS = {"setup": 200, "keep_adult": 50, "keep_young": 30, "per_egg": 0.5, "per_young": 3}


def main() -> None:
    """Print what was measured."""
    app = QApplication([])
    fonts.load_fonts()
    window = MainWindow(Document(big_plan()), Evaluator(), Appearance(app), LocaleNumbers())
    window.show()
    # As the program does: Python's own rounds for garbage would go on the worker's thread.
    Garbage(app)
    app.processEvents()
    watch = Watch()
    begun = time.perf_counter()
    window.work_out()
    seen = window.page.routes.in_sight()
    _until(app, lambda: not seen & window.document.pending)
    first = time.perf_counter() - begun
    looks = _look_around(app, window)
    busy = watch.longest()
    _until(app, lambda: window.document.complete)
    whole = time.perf_counter() - begun
    rest = time.perf_counter() + 3
    watch.longest()
    _until(app, lambda: time.perf_counter() >= rest)
    told = {
        "in_sight_s": round(first, 2),
        "all_s": round(whole, 2),
        "longest_gap_ms": round(1000 * busy, 1),
        "longest_gap_at_rest_ms": round(1000 * watch.longest(), 1),
        "looking_ms": round(1000 * median(looks), 1),
        "curves": len(window.page.money.chart.canvas.curves.ids()),
        "most_curves": MOST_DRAWN + 1,
    }
    print(json.dumps(told))
    window.document.history.set_clean()
    window.close()


class Watch:
    """The longest time between two beats of the window's thread."""

    def __init__(self) -> None:
        self._last, self._most = time.perf_counter(), 0.0
        self._timer = QTimer(interval=1)
        self._timer.timeout.connect(self._beat)
        self._timer.start()

    def longest(self) -> float:
        """The longest since this was asked last, in seconds."""
        most, self._most = self._most, 0.0
        return most

    def _beat(self) -> None:
        now = time.perf_counter()
        self._last, self._most = now, max(self._most, now - self._last)


def _look_around(app: QApplication, window: MainWindow) -> list[float]:
    """Picks rows, scrolls and edits a price while answers come; how long each took until it was painted."""
    view, document, taken = window.page.routes, window.document, []
    for turn in range(_LOOKS):
        begun = time.perf_counter()
        if turn % 3 == 0:
            view.selectRow(turn * 7 % view.rows.rowCount())
        elif turn % 3 == 1:
            view.verticalScrollBar().setValue(turn * 5 % ROUTES)
        else:
            costs = msgspec.structs.replace(document.plan.costs, setup=200 + turn)
            document.edit(msgspec.structs.replace(document.plan, costs=costs), "change it")
        app.processEvents()
        taken.append(time.perf_counter() - begun)
        ends = begun + _EVERY_MS / 1000
        _until(app, lambda end=ends: time.perf_counter() >= end)
    return taken


def _until(app: QApplication, done: Callable[[], bool]) -> None:
    while not done():
        app.processEvents(QEventLoop.ProcessEventsFlag.WaitForMoreEvents)


def big_plan() -> Plan:
    """The plan, with every second route holding young back."""
    ids = [f"gene-{n}" for n in range(GENES)]
    genes = [{"id": one, "name": f"Gene {n}", "alleles": ["x"], "forms": {"x/x": f"visual {n}"}} for n, one in
             enumerate(ids)]  # fmt: skip
    goal = {
        "want": [{"forms": {ids[0]: "visual 0", ids[1]: "visual 1"}}],
        "chance": 0.8,
        "seasons": SEASONS,
        "budget": 9000,
        "outright_price": 6000,
    }
    head = {"format": "pairwright-plan", "version": 1, "title": "A large plan, invented", "currency": "USD"}
    routes = [_route(number, ids) for number in range(ROUTES)]
    return examine({**head, "genes": genes, "species": _SPECIES, "goal": goal, "costs": _COSTS, "routes": routes})


def _route(number: int, genes: list[str]) -> Json:
    holds = number % 2
    other = genes[2 + number % 4]
    bought = [_pair_member(f"m{n}", "male", {genes[0]: "x/+", other: "x/+"}, 200 + number) for n in range(4)]
    bought += [_pair_member(f"f{n}", "female", {genes[1]: "x/x", genes[0]: "x/+"}, 150 + n) for n in range(6 - holds)]
    pairings = [{"id": f"p{n}", "males": [f"m{n % 4}"], "females": [f"f{n}"]} for n in range(6 - holds)]
    if holds:
        held = {"id": "daughters", "sex": "female", "count": 3, "origin": "hold", "from": ["p0"], "pick": [{}]}
        bought.append(held)
        pairings.append({"id": "back", "males": ["m0"], "females": ["daughters"]})
    assert len(bought) == GROUPS
    return {"id": f"route-{number}", "name": f"Route {number}", "groups": bought, "pairings": pairings}


def _pair_member(id_: str, sex: str, carries: Json, price: int) -> Json:
    return {"id": id_, "sex": sex, "count": 1, "carries": carries, "origin": "buy", "price": price}


if __name__ == "__main__":
    main()
