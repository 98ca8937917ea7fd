"""What a start loads, so that it does not grow unnoticed; how long it takes is measured by tests/bench/startup.py."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]

# Everything that the first comparison on the sample plan may load: modules, and packages with all that is in them.
# A name that is missing here belongs to something that can be loaded when it is first used.
NEEDED = frozenset((
    "core.advice.caution", "desktop.ahead", "desktop.cautions.minder", "desktop.errand",
    "core.explain.animals", "core.explain.numbers", "core.explain.shares", "core.explain.sides",
    "core.genetics", "core.plan",
    "core.progress", "core.routes.another",
    "core.paste.parts", "core.routes.answer", "core.routes.assemble", "core.routes.calendar", "core.routes.clutch",
    "core.routes.evaluate", "core.routes.exact", "core.routes.inbreeding", "core.routes.per_egg",
    "core.routes.prepare", "core.routes.problem", "core.routes.result", "core.text",
    "desktop.app", "desktop.appearance",
    "desktop.at_chance", "desktop.beside", "desktop.document", "desktop.evaluation", "desktop.evaluator",
    "desktop.files",
    "desktop.findings", "desktop.first",
    "desktop.fonts", "desktop.forms", "desktop.garbage", "desktop.groundwork", "desktop.history",
    "desktop.language", "desktop.lanes", "desktop.leaving", "desktop.locale_numbers", "desktop.log",
    "desktop.marks", "desktop.memory", "desktop.menus",
    "desktop.page", "desktop.panels", "desktop.plan_files", "desktop.questions", "desktop.replies",
    "desktop.start", "desktop.theme", "desktop.views", "desktop.window", "desktop.widgets",
    "desktop.words",
))  # fmt: skip
# Parts of those packages, and libraries, that are only for what a person may do later.
LATER = frozenset((
    "core.genetics.kinship", "core.plan.gene_notes", "core.plan.presets", "core.plan.schema", "core.routes.shapes",
    "core.routes.simulated", "core.routes.simulation", "desktop.beside.at_work",
    "desktop.files.asking", "desktop.files.left_behind",
    "desktop.panels.charts.image", "desktop.panels.wanted_picker",
    "desktop.panels.charts.table", "multiprocessing", "networkx", "numpy.ma", "numpy.random", "scipy",
    "PySide6.QtPrintSupport",
    "PySide6.QtNetwork",
))  # fmt: skip

_START = """
import sys
from desktop.app import load
load()
from PySide6.QtCore import QEventLoop
from PySide6.QtWidgets import QApplication
from desktop.appearance import Appearance
from desktop.evaluator import Evaluator
from desktop.start import open_window
app = QApplication([])
evaluator = Evaluator()
window = open_window(Appearance(app), None, evaluator)
while window.document.verdict.kind == "waiting":
    app.processEvents(QEventLoop.ProcessEventsFlag.WaitForMoreEvents)
window.grab()
print(*sys.modules)
evaluator.stop()
"""


@pytest.fixture(scope="module")
def loaded() -> list[str]:
    done = subprocess.run(
        [sys.executable, "-c", _START], cwd=ROOT, capture_output=True, text=True, timeout=60, check=True
    )
    return done.stdout.split()


def _within(name: str, places: frozenset[str]) -> bool:
    return any(name == place or name.startswith(f"{place}.") for place in places)


def test_a_start_loads_only_what_the_first_comparison_needs(loaded: list[str]) -> None:
    ours = [name for name in loaded if name.partition(".")[0] in ("core", "desktop")]
    packages = [name for name in ours if any(one.startswith(f"{name}.") for one in ours)]
    assert [name for name in ours if name not in packages and not _within(name, NEEDED)] == []
    assert [name for name in loaded if _within(name, LATER)] == []


def test_what_a_start_needs_is_still_there(loaded: list[str]) -> None:
    assert NEEDED.difference(loaded) == set()


def test_the_plotting_library_can_use_every_class_of_qt() -> None:
    code = (
        "from desktop.panels.charts.library import pg; from PySide6 import QtWidgets, QtCore;"
        "assert pg.QtWidgets.QCalendarWidget is QtWidgets.QCalendarWidget;"
        "assert pg.QtCore.Qt is QtCore.Qt and 'QTimer' in dir(QtCore)"
    )
    subprocess.run([sys.executable, "-c", code], cwd=ROOT, timeout=60, check=True)


def test_parts_of_the_plotting_library_that_are_left_out_at_first_can_be_had_later() -> None:
    code = (
        "from desktop.panels.charts.library import pg; import sys;"
        "assert 'pyqtgraph.widgets.PlotWidget' not in sys.modules;"
        "from pyqtgraph.widgets.PlotWidget import PlotWidget; from PySide6.QtWidgets import QApplication;"
        "app = QApplication([]); plot = PlotWidget(); plot.plot([1, 2], [3, 4]); plot.grab();"
        "assert issubclass(PlotWidget, pg.GraphicsView);"
        # The application may not go before its window, as the order of names at Python's end would have it.
        "import gc; plot.close(); del plot; gc.collect()"
    )
    subprocess.run([sys.executable, "-c", code], cwd=ROOT, timeout=60, check=True)
