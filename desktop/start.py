"""One application, one window."""

from __future__ import annotations

import signal
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QApplication

from core.text import tr
from desktop import fonts, language
from desktop.appearance import Appearance
from desktop.document import Document
from desktop.evaluator import Evaluator
from desktop.files import look
from desktop.garbage import Garbage
from desktop.locale_numbers import LocaleNumbers
from desktop.log import start_log
from desktop.plan_files import SAMPLE, Faults, open_plan

if TYPE_CHECKING:
    from desktop.window import MainWindow


def run(path: Path | None, spoken: str | None = None) -> int:
    """Opens the window on the plan at `path`, or on the sample, and serves it until it is closed.

    spoken: the language of the texts where it is not English.
    """
    app = QApplication(sys.argv[:1])
    app.setApplicationName("Pairwright")
    app.setApplicationDisplayName("Pairwright")
    app.setDesktopFileName("pairwright")
    if spoken:
        language.speak(app, spoken)
    start_log()
    fonts.load_fonts()
    fonts.set_scale(look.kept_text_size() / 100)
    appearance, evaluator = Appearance(app), Evaluator()
    appearance.choose(look.kept_scheme())
    window = open_window(appearance, path, evaluator)
    if isinstance(window, Faults):
        print(
            tr("Pairwright's own sample plan cannot be read: install the program again."),
            *window.lines,
            sep="\n",
            file=sys.stderr,
        )
        evaluator.stop()
        return 1
    from desktop.windows import Windows

    windows = Windows(appearance)
    windows.add(window)
    windows.look_for_left_behind()
    Garbage(app)
    # Ctrl+C in the terminal ends the program as usual instead of waiting for Qt.
    signal.signal(signal.SIGINT, signal.SIG_DFL)
    return app.exec()


def open_window(appearance: Appearance, path: Path | None, evaluator: Evaluator) -> MainWindow | Faults:
    """A shown window on the plan at `path`; where that is broken, on the sample, with what is wrong told.

    Only a broken sample comes back as faults.
    """
    opened = open_plan(path) if path else None
    plan = open_plan(SAMPLE) if opened is None or isinstance(opened, Faults) else opened
    if isinstance(plan, Faults):
        return plan
    from desktop.window import MainWindow

    document = Document(plan, path if path and plan is opened else SAMPLE)
    window = MainWindow(document, evaluator, appearance, LocaleNumbers())
    window.filing.begin()
    window.show()
    # Not before: a thread at work would hold up the loading of the charts' library.
    window.work_out()
    if isinstance(opened, Faults):
        window.filing.show_faults(opened)
    return window
