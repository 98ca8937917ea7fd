"""Start to first painted comparison, and peak memory, beside a bare window with one plot.

`python -m tests.bench.startup` runs both in turn and prints the ratios of the medians.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import time
from pathlib import Path
from statistics import median

_ROOT = Path(__file__).resolve().parents[2]
_TURNS = 9
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
# As `desktop.app.main` does it, up to the event loop.
_OURS = """
import desktop.app
import desktop.screen
desktop.app.load()
from PySide6.QtCore import QEventLoop
from PySide6.QtWidgets import QApplication
from desktop import fonts
from desktop.appearance import Appearance
from desktop.evaluator import Evaluator
from desktop.garbage import Garbage
from desktop.start import open_window
app = QApplication([])
fonts.load_fonts()
window = open_window(Appearance(app), None, Evaluator())
Garbage(app)
while window.document.verdict.kind == "waiting":
    app.processEvents(QEventLoop.ProcessEventsFlag.WaitForMoreEvents)
app.processEvents()
window.grab()
"""


def measure(code: str) -> tuple[float, int]:
    """Seconds from process start to first paint, and the peak of memory in MB."""
    # Compiled code is kept, as it is on a person's machine; without a screen Qt draws into memory.
    environment = {**os.environ, "QT_QPA_PLATFORM": "offscreen"}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    begun = time.perf_counter()
    done = subprocess.run(
        [sys.executable, "-c", code + _LEAVE], cwd=_ROOT, env=environment, capture_output=True, text=True, check=True
    )
    return time.perf_counter() - begun, int(done.stdout)


def main() -> None:
    """Print the medians and their ratios."""
    measure(_OURS)
    bare, ours = [], []
    for _ in range(_TURNS):
        bare.append(measure(_BARE))
        ours.append(measure(_OURS))
    seconds = [median(one for one, _ in many) for many in (ours, bare)]
    peak = [median(one for _, one in many) for many in (ours, bare)]
    told = {
        "start_s": round(seconds[0], 3),
        "bare_start_s": round(seconds[1], 3),
        "start_ratio": round(seconds[0] / seconds[1], 2),
        "peak_mb": peak[0],
        "bare_peak_mb": peak[1],
        "peak_ratio": round(peak[0] / peak[1], 2),
    }
    print(json.dumps(told))


if __name__ == "__main__":
    main()
