"""Looks for garbage on the window's thread alone.

Python looks for it in whatever thread is at work, and whatever of Qt it finds there is freed in the wrong thread.
"""

from __future__ import annotations

import gc

from PySide6.QtCore import QObject, QTimer

_EVERY_MS = 300


class Garbage(QObject):
    """Takes the place of Python's own rounds, at the same thresholds."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        gc.disable()
        # What the start has loaded stays to the end.
        gc.freeze()
        self._timer = QTimer(self, interval=_EVERY_MS)
        self._timer.timeout.connect(self.look)
        self._timer.start()

    def look(self) -> None:
        """Looks among the young objects, and among older ones after every so many rounds."""
        counts, thresholds = gc.get_count(), gc.get_threshold()
        if counts[0] > thresholds[0]:
            due = [age for age in range(3) if counts[age] > thresholds[age]]
            gc.collect(max(due))
