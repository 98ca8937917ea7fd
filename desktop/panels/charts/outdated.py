"""Which answers are from before the last change."""

from __future__ import annotations

from PySide6.QtCore import QObject, QTimer, Signal

from core.routes.result import RouteResult
from desktop.document import Document

# New answers that come sooner than this would only make the curves flicker.
PATIENCE_MS = 150


class Outdated(QObject):
    """Remembers the answers at each edit; `changed` tells that some are outdated now, and again once it shows."""

    changed = Signal()

    def __init__(self, document: Document, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._old: dict[str, RouteResult] = {}
        self._waited = QTimer(self)
        self._waited.setSingleShot(True)
        self._waited.setInterval(PATIENCE_MS)
        self._waited.timeout.connect(self.changed)
        document.edited.connect(self._remember)

    def ids(self) -> frozenset[str]:
        """The routes whose new answer is still to come."""
        if self._document.complete:
            return frozenset()
        return frozenset(one.id for one in self._document.found if one.result and self._old.get(one.id) is one.result)

    def noticeable(self) -> frozenset[str]:
        """The same, once it has lasted so long that it has to be shown."""
        return frozenset() if self._waited.isActive() else self.ids()

    def _remember(self) -> None:
        self._old = {one.id: one.result for one in self._document.found if one.result}
        self._waited.start()
        self.changed.emit()
