"""Reads a list in slices, so that even a long one never holds the window up; lines read before are known."""

from __future__ import annotations

import time

from PySide6.QtCore import QObject, QTimer, Signal

from core.paste.parts import MOST_LINES, Line, Listing, Target
from core.paste.read import read_line
from core.paste.table import lines_of
from core.paste.terms import Terms, terms_of
from core.plan.model import Plan

_SLICE_S = 0.008


class Reading(QObject):
    """`listing` is of the newest text once `done` was told."""

    done = Signal()
    # Lines read so far, and how many there are.
    progressed = Signal(int, int)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.listing = Listing(())
        self._plan: Plan | None = None
        self._target: Target = "for sale"
        self._terms: Terms | None = None
        self._known: dict[str, Line] = {}
        self._texts: list[str] = []
        self._lines: list[Line] = []
        self._timer = QTimer(self, interval=0)
        self._timer.timeout.connect(self._slice)

    @property
    def busy(self) -> bool:
        """Whether the newest text is still being read."""
        return self._timer.isActive()

    def read(self, text: str, plan: Plan, target: Target) -> None:
        """Begins on a text; what fits into one slice is read before this returns."""
        if plan is not self._plan or target != self._target:
            self._plan, self._target, self._known = plan, target, {}
            self._terms = terms_of(plan)
        self._texts, self._lines = lines_of(text), []
        self._slice()

    def _slice(self) -> None:
        until = time.monotonic() + _SLICE_S
        texts = self._texts[:MOST_LINES]
        while len(self._lines) < len(texts):
            if time.monotonic() > until:
                self._timer.start()
                self.progressed.emit(len(self._lines), len(texts))
                return
            self._lines.append(self._read(texts[len(self._lines)]))
        self._timer.stop()
        self.listing = Listing(tuple(self._lines), len(self._texts) - len(texts))
        # Only what stands in the list now is worth knowing the next time.
        self._known = {line.text: line for line in self._lines}
        self.done.emit()

    def _read(self, text: str) -> Line:
        known = self._known.get(text)
        if known is None and self._plan is not None:
            known = self._known[text] = read_line(text, self._plan, self._target, self._terms)
        return known or Line(text)
