"""The sentences under a chart: what is not drawn, what is simulated, what is outdated."""

from __future__ import annotations

import math

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QFontMetricsF, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from desktop import fonts
from desktop.theme import NOTES
from desktop.widgets.labels import PlainLabel, give_tip


class Notes(PlainLabel):
    """One line, cut short where it must be, with the whole of it in the tool tip; always as tall, so nothing moves."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(font=fonts.sans(fonts.NOTE), ink=NOTES, parent=parent)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self._whole = ""

    def show_notes(self, notes: tuple[str, ...]) -> None:
        """Shows other sentences."""
        self._whole = " ".join(notes)
        self.setAccessibleName(self._whole)
        give_tip(self, self._whole)
        self._cut()

    def sizeHint(self) -> QSize:  # noqa: D102
        return QSize(0, math.ceil(QFontMetricsF(self.font()).height()))

    def minimumSizeHint(self) -> QSize:  # noqa: D102
        # Qt's own is another one with words than without.
        return self.sizeHint()

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: D102
        super().resizeEvent(event)
        self._cut()

    def _cut(self) -> None:
        self.setText(self.fontMetrics().elidedText(self._whole, Qt.TextElideMode.ElideRight, self.width()))
