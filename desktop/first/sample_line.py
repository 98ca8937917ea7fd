"""Beside the menus, over a sample: what it is, and the ways to a plan of one's own."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QMenu, QWidget

from desktop import fonts
from desktop.files.recent import recent
from desktop.theme import SECOND
from desktop.widgets.inked import Inked, button
from desktop.widgets.labels import PlainLabel
from desktop.words import first as words

_LONGEST = 300
_TALLEST = 24


class SampleLine(Inked):
    """In the menu bar, where it takes no room from the page."""

    starts_empty = Signal()
    goes_on = Signal(Path)

    def __init__(self, samples: QMenu, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._last: Path | None = None
        self.label = PlainLabel(words.SAMPLE_LINE, font=fonts.sans(fonts.HEAD), ink=SECOND, parent=self)
        self.go_on = button("", "link", self, font=fonts.sans(fonts.HEAD, bold=True))
        self.empty = button(words.START_EMPTY, "link", self, font=fonts.sans(fonts.HEAD, bold=True))
        self.others = button(words.SAMPLES, "link", self, font=fonts.sans(fonts.HEAD, bold=True))
        self.others.setMenu(samples)
        # Beside the menus there is room for it at the usual text size; the title says "sample" too.
        self.label.setVisible(self.label.fontMetrics().height() < _TALLEST)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 22, 0)
        row.setSpacing(16)
        for part in (self.label, self.go_on, self.empty, self.others):
            row.addWidget(part)
        self.go_on.clicked.connect(self._go_on)
        self.empty.clicked.connect(self.starts_empty)
        self.dress()

    def look(self) -> None:
        """Whether there is a plan to go on with."""
        self._last = next((one for one in recent() if one.is_file()), None)
        self.go_on.setVisible(self._last is not None)
        if self._last is not None:
            name = words.go_on_with(self._last.name)
            shown = self.go_on.fontMetrics().elidedText(name, Qt.TextElideMode.ElideRight, _LONGEST)
            self.go_on.setText(shown.replace("&", "&&"))
            self.go_on.setAccessibleName(name)

    def _go_on(self) -> None:
        if self._last is not None:
            self.goes_on.emit(self._last)
