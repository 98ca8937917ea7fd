"""How long and how heavy a start is, beside a bare window with one plot: `python -m tests.desktop.startup`."""

from __future__ import annotations

import statistics
import subprocess
import sys
import time
from pathlib import Path

_ROOT = Path(__file__).resolve().parents[2]
_ROUNDS = 7
_LEAVE = "import os, resource; print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024); os._exit(0)"
_BARE = """
from PySide6 import QtWidgets
import pyqtgraph as pg
app = QtWidgets.QApplication([])
window = QtWidgets.QMainWindow()
plot = pg.PlotWidget()
plot.plot([1, 2, 3], [1, 3, 2])
window.setCentralWidget(plot)
window.resize(1280, 800)
window.show()
app.processEvents()
window.grab()
"""
_OURS = """
import desktop.app
from desktop.reckoner import started_reckoner
reckoner = started_reckoner()
import desktop.groundwork
from PySide6.QtCore import QEventLoop
from PySide6.QtWidgets import QApplication
from desktop import fonts
from desktop.appearance import Appearance
from desktop.evaluator import ready_evaluator
from desktop.start import open_window
app = QApplication([])
fonts.load_fonts()
window = open_window(Appearance(app), None, ready_evaluator(reckoner))
while window.document.verdict.kind == "waiting":
    app.processEvents(QEventLoop.ProcessEventsFlag.WaitForMoreEvents)
app.processEvents()
window.grab()
"""


def measure(code: str) -> tuple[float, int]:
    """Median seconds from process start to first paint, and the peak of memory in MB."""
    seconds, peak = [], 0
    for _ in range(_ROUNDS):
        start = time.perf_counter()
        done = subprocess.run(
            [sys.executable, "-c", code + _LEAVE], cwd=_ROOT, capture_output=True, text=True, check=True
        )
        seconds.append(time.perf_counter() - start)
        peak = max(peak, int(done.stdout))
    return statistics.median(seconds), peak


if __name__ == "__main__":
    bare, ours = measure(_BARE), measure(_OURS)
    print(f"bare  {bare[0]:.3f} s  {bare[1]} MB")
    print(f"ours  {ours[0]:.3f} s  {ours[1]} MB")
    print(f"ratio {ours[0] / bare[0]:.2f}    {ours[1] / bare[1]:.2f}")
