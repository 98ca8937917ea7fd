"""Which answers are from before the last change."""

from __future__ import annotations

from PySide6.QtCore import QObject, Signal

from desktop.document import Document


class Outdated(QObject):
    """Asks the document; `changed` tells that some may be outdated now."""

    changed = Signal()

    def __init__(self, document: Document, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._document = document
        document.edited.connect(self.changed)

    def ids(self) -> frozenset[str]:
        """The routes whose new answer is still to come."""
        return frozenset(one.id for one in self._document.found if one.result and one.stale)

    def noticeable(self) -> frozenset[str]:
        """The same, once it has lasted so long that it has to be shown."""
        return frozenset() if self._document.patient else self.ids()
