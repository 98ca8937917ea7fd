"""Draws every screen: `python -m tests.desktop.gallery OUTDIR`."""

from __future__ import annotations

import os
import sys
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
sys.path.insert(0, str(Path(__file__).parent))

import window_double as double
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from desktop import fonts
from desktop.appearance import Appearance
from desktop.document import Document
from desktop.evaluation import evaluation_steps
from desktop.evaluator import Evaluator
from desktop.locale_numbers import LocaleNumbers
from desktop.plan_files import SAMPLE, open_plan
from desktop.window import MainWindow


def draw(folder: Path) -> None:
    """Saves the pictures into `folder`."""
    folder.mkdir(parents=True, exist_ok=True)
    app = QApplication([])
    fonts.load_fonts()
    appearance = Appearance(app)
    plan = open_plan(SAMPLE)
    for scheme in (Qt.ColorScheme.Light, Qt.ColorScheme.Dark):
        appearance.choose(scheme)
        for width, height in ((1280, 800), (1920, 1080)):
            document = Document(plan, SAMPLE)
            window = MainWindow(document, Evaluator(double.engine), appearance, LocaleNumbers())
            window.resize(width, height)
            window.show()
            name = f"{scheme.name.lower()}-{width}"
            document.take(list(evaluation_steps(plan, double.engine())))
            app.processEvents()
            window.grab().save(str(folder / f"main-{name}.png"))
            document.select(document.found[3])
            window.page.eggs.tabs.setCurrentIndex(1)
            canvas = window.page.money.chart.canvas
            canvas.readout.move(1500.0, canvas._picture)
            app.processEvents()
            window.grab().save(str(folder / f"selected-{name}.png"))
            window.close()


if __name__ == "__main__":
    draw(Path(sys.argv[1]))
