"""One application, one window."""

from __future__ import annotations

import signal
import sys
from pathlib import Path

from PySide6.QtWidgets import QApplication

from desktop import fonts
from desktop.appearance import Appearance
from desktop.document import Document
from desktop.evaluator import Evaluator
from desktop.locale_numbers import LocaleNumbers
from desktop.plan_files import SAMPLE, Faults, open_plan


def run(path: Path | None) -> int:
    """Opens the window on the plan at `path`, or on the sample, and serves it until it is closed."""
    opened = open_plan(path or SAMPLE)
    faults = opened if isinstance(opened, Faults) else None
    plan = open_plan(SAMPLE) if isinstance(opened, Faults) else opened
    if isinstance(plan, Faults):
        print(
            "Pairwright's own sample plan cannot be read: install the program again.",
            *plan.lines,
            sep="\n",
            file=sys.stderr,
        )
        return 1
    app = QApplication(sys.argv[:1])
    app.setApplicationName("Pairwright")
    app.setApplicationDisplayName("Pairwright")
    fonts.load_fonts()
    document = Document(plan, path if path and not faults else None)
    evaluator = Evaluator()
    # The routes are worked out while the charts' library is still loading.
    evaluator.start(plan)
    from desktop.window import MainWindow

    window = MainWindow(document, evaluator, Appearance(app), LocaleNumbers())
    window.show()
    if faults:
        window.show_faults(faults)
    # Ctrl+C in the terminal ends the program as usual instead of waiting for Qt.
    signal.signal(signal.SIGINT, signal.SIG_DFL)
    status = app.exec()
    evaluator.stop()
    return status
