"""All windows of one run of the program."""

from __future__ import annotations

import gc
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt, QTimer

from desktop.appearance import Appearance
from desktop.evaluation import Engine
from desktop.evaluator import Evaluator
from desktop.files.places import recovery_folder
from desktop.plan_files import Faults
from desktop.start import open_window
from desktop.window import MainWindow

if TYPE_CHECKING:
    from desktop.files.left_behind import Left

_STEP = 32


class Windows(QObject):
    """Opens windows, and lets go of each once it is closed."""

    def __init__(self, appearance: Appearance, engine: Callable[[], Engine] | None = None) -> None:
        super().__init__(appearance)
        self._appearance, self._engine = appearance, engine
        self.shown: list[MainWindow] = []

    def open(self, path: Path | None = None) -> MainWindow | Faults:
        """One more window; only a broken sample comes back as faults."""
        evaluator = Evaluator(self._engine)
        window = open_window(self._appearance, path, evaluator)
        if isinstance(window, Faults):
            evaluator.stop()
            return window
        self.add(window)
        return window

    def add(self, window: MainWindow) -> None:
        """A window that stands already."""
        self.shown.append(window)
        window.wants_another.connect(self._another)
        # Not while it is still closing.
        window.closed.connect(self._let_go, Qt.ConnectionType.QueuedConnection)

    def look_for_left_behind(self) -> None:
        """Offers what windows left that ended without closing; once the first window is painted."""
        QTimer.singleShot(0, self._offer)

    def _offer(self) -> None:
        folder = recovery_folder()
        if not self.shown or not folder.is_dir():
            return
        # Most starts have nothing to offer, and should not wait for this.
        from desktop.files.left_behind import LeftBehind, all_left

        if left := all_left(folder):
            dialog = LeftBehind(left, self.shown[0])
            dialog.wanted.connect(self._bring_back)
            dialog.looked_at.connect(self._look_at)
            dialog.open()

    def _bring_back(self, left: Left) -> None:
        """Into the first window while nobody has done anything there, else into one of its own."""
        window = next((one for one in self.shown if one.filing.is_untouched), None) or self._another()
        if window is not None and left.kept is not None and left.plan is not None:
            window.filing.bring_back(left.file, left.kept, left.plan)

    def _look_at(self, path: Path) -> None:
        window = self._another()
        if window is not None:
            window.filing.look_at(path)

    def _another(self) -> MainWindow | None:
        asking = self.shown[-1] if self.shown else None
        window = self.open()
        if isinstance(window, Faults):
            return None
        if asking is not None:
            window.move(asking.x() + _STEP, asking.y() + _STEP)
        return window

    def _let_go(self) -> None:
        for window in [one for one in self.shown if one.isHidden()]:
            self.shown.remove(window)
            window.deleteLater()
            # What a closed window worked out is large, and hangs in a knot that only a whole round undoes.
            QTimer.singleShot(0, gc.collect)
