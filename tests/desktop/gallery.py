"""Draws every screen: `python -m tests.desktop.gallery OUTDIR`; in OUTDIR/pseudo in a language that nobody speaks."""

from __future__ import annotations

import gc
import os
import subprocess
import sys
from collections.abc import Iterator, Sequence
from importlib import import_module
from itertools import product
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
sys.path.insert(0, str(Path(__file__).parent))

import msgspec
import window_double as double
from PySide6.QtCore import QEventLoop, QSize, Qt
from PySide6.QtGui import QPixmap
from PySide6.QtWidgets import QApplication

from core.plan.model import Plan
from desktop import fonts
from desktop.appearance import Appearance
from desktop.document import Document
from desktop.evaluation import Finished, RouteAnswer, Step, Underway, evaluation_steps
from desktop.evaluator import Evaluator
from desktop.faults_dialog import FaultsDialog
from desktop.files.filing import Filing
from desktop.keys_dialog import KeysDialog
from desktop.locale_numbers import LocaleNumbers
from desktop.plan_files import SAMPLE, Faults, open_plan
from desktop.window import MainWindow

Look = tuple[int, Qt.ColorScheme, QSize]
SIZES = (QSize(1280, 800), QSize(1920, 1080))
LOOKS: tuple[Look, ...] = tuple(product((1, 2), (Qt.ColorScheme.Light, Qt.ColorScheme.Dark), SIZES))


def draw(folder: Path, looks: Sequence[Look] = LOOKS) -> None:
    """Saves the pictures into `folder`."""
    folder.mkdir(parents=True, exist_ok=True)
    # Windows are let go of here, never on the thread of another window's work.
    gc.disable()
    app = QApplication([])
    fonts.load_fonts()
    appearance = Appearance(app)
    # What is drawn was never meant to be saved.
    Filing.may_go = lambda _: True  # type: ignore[method-assign]
    topics = [import_module(file.stem) for file in sorted(Path(__file__).parent.glob("gallery_*.py"))]
    for scale, scheme, size in looks:
        fonts.set_scale(scale)
        app.setFont(fonts.sans(fonts.FORM))
        appearance.choose(scheme)
        name = f"{scheme.name.lower()}-{size.width()}-text-{scale}00"
        for draw_screens in (screens, *(topic.screens for topic in topics)):
            for screen, picture in draw_screens(app, appearance, size):
                picture.save(str(folder / f"{screen}-{name}.png"))
            gc.collect()


def screens(app: QApplication, appearance: Appearance, size: QSize) -> Iterator[tuple[str, QPixmap]]:
    """Every screen in turn, drawn at that size."""
    plan = open_plan(SAMPLE)
    assert isinstance(plan, Plan)
    window = show(app, appearance, size, plan, 0)
    yield "waiting", window.grab()
    window.document.take(list(evaluation_steps(plan, double.engine()))[:-5])
    app.processEvents()
    yield "so-far", window.grab()
    steps = list(evaluation_steps(plan, double.engine()))
    window.document.take(early(steps, "daughters-back"))
    app.processEvents()
    yield "early", window.grab()
    window.document.take(steps)
    with_cautions(app, window)
    yield "main", window.grab()
    window.document.select(window.document.found[3])
    window.page.eggs.tabs.setCurrentIndex(1)
    app.processEvents()
    window.page.money.chart.canvas.read_at(1500.0)
    yield "selected", window.grab()
    keys = KeysDialog(window)
    keys.show()
    app.processEvents()
    yield "keys", keys.grab()
    keys.close()
    window.close()
    missed = msgspec.structs.replace(plan, goal=msgspec.structs.replace(plan.goal, seasons=4), routes=plan.routes[3:5])
    yield "missed", show(app, appearance, size, missed).grab()
    yield "bought", show(app, appearance, size, msgspec.structs.replace(plan, routes=plan.routes[2:7])).grab()
    faults = Faults(Path("broken.plan.json"), ("goal.chance: must lie between 0 and 1", "routes[1].name: is missing"))
    dialog = FaultsDialog(faults, window)
    yield "faults", dialog.grab()


def early(steps: Sequence[Step], route: str) -> list[Step]:
    """The steps, with the answer of one route that of plays, the exact one being a third done."""
    found: list[Step] = [
        msgspec.structs.replace(step, early=True) if isinstance(step, RouteAnswer) and step.id == route else step
        for step in steps
        if not isinstance(step, Finished)
    ]
    return [*found, Underway(route, 0.34)]


def show(app: QApplication, appearance: Appearance, size: QSize, plan: Plan, steps: int | None = None) -> MainWindow:
    """A window of that size with the first steps of its answer, all by default."""
    window = MainWindow(Document(plan, SAMPLE), Evaluator(double.engine), appearance, LocaleNumbers())
    window.resize(size)
    window.show()
    app.processEvents()
    window.document.take(list(evaluation_steps(plan, double.engine()))[:steps])
    app.processEvents()
    if steps is None:
        with_cautions(app, window)
    return window


def with_cautions(app: QApplication, window: MainWindow) -> None:
    """They are looked for once the figures are painted."""
    app.processEvents()
    while not window.minder.is_settled:
        app.processEvents(QEventLoop.ProcessEventsFlag.WaitForMoreEvents)
    app.processEvents()


if __name__ == "__main__":
    draw(Path(sys.argv[1]))
    subprocess.run([sys.executable, "-m", "tests.desktop.pseudo_run", f"{sys.argv[1]}/pseudo"], check=True)
