"""The library's view, with a ring while keys have led to it: a chart itself looks the same with the focus."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QFocusEvent, QPainter, QPaintEvent

from desktop.panels.charts.library import pg
from desktop.theme import colour, colours_of
from desktop.widgets.ring import draw_ring

_BY_KEYS = (Qt.FocusReason.TabFocusReason, Qt.FocusReason.BacktabFocusReason, Qt.FocusReason.ShortcutFocusReason)


class RingedView(pg.GraphicsView):  # type: ignore[misc]
    """Whoever points at a chart sees where they are."""

    _is_ringed = False

    def focusInEvent(self, event: QFocusEvent) -> None:  # noqa: D102
        super().focusInEvent(event)
        self._ring(ringed=event.reason() in _BY_KEYS)

    def focusOutEvent(self, event: QFocusEvent) -> None:  # noqa: D102
        super().focusOutEvent(event)
        self._ring(ringed=False)

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: D102
        super().paintEvent(event)
        if self._is_ringed:
            draw_ring(QPainter(self.viewport()), self.viewport().rect(), colour(colours_of(self.palette()).accent))

    def _ring(self, *, ringed: bool) -> None:
        self._is_ringed = ringed
        self.viewport().update()
