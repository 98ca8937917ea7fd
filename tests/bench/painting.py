"""Paints the comparison 500 times in a row and says that it is still alive: `python -m tests.bench.painting`."""

from __future__ import annotations

import json
import os
import time
from statistics import median

_TIMES = 500


def main() -> None:
    """Print how many paintings there were and what one takes."""
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    from PySide6.QtCore import QEventLoop
    from PySide6.QtWidgets import QApplication

    from desktop import fonts
    from desktop.appearance import Appearance
    from desktop.evaluator import Evaluator
    from desktop.start import Faults, open_window

    app = QApplication([])
    fonts.load_fonts()
    evaluator = Evaluator()
    window = open_window(Appearance(app), None, evaluator)
    assert not isinstance(window, Faults)
    while not window.document.complete:
        app.processEvents(QEventLoop.ProcessEventsFlag.WaitForMoreEvents)
    seconds = []
    for _ in range(_TIMES):
        begun = time.perf_counter()
        window.document.answers_changed.emit()
        window.grab()
        seconds.append(time.perf_counter() - begun)
    evaluator.stop()
    print(json.dumps({"paintings": len(seconds), "median_ms": round(1000 * median(seconds), 1)}))


if __name__ == "__main__":
    main()
