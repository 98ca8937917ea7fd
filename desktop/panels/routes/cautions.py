"""The cautions beside the routes of the list, worked out once the figures stand there."""

from __future__ import annotations

from PySide6.QtCore import QObject, QTimer, Signal

from core.routes.result import RouteResult
from desktop.document import Document
from desktop.findings import Finding
from desktop.words import routes as words


class RouteCautions(QObject):
    """Short words per route; `found` tells that some are new."""

    found = Signal()

    def __init__(self, document: Document) -> None:
        super().__init__(document)
        self._document = document
        self._known: dict[str, tuple[RouteResult, tuple[str, ...]]] = {}
        # The figures come first: cautions take longer than a painted edit may.
        self._later = QTimer(self, singleShot=True, interval=0)
        self._later.timeout.connect(self._look)
        document.answers_changed.connect(self._later.start)

    def of(self, one: Finding) -> tuple[str, ...]:
        """The short words for a route, as far as they are known."""
        known = self._known.get(one.id)
        return known[1] if known and known[0] is one.result else ()

    def text(self, one: Finding) -> str:
        """The first of them, and how many more there are."""
        known = self._known.get(one.id)
        return words.cautions(known[1]) if known and known[0] is one.result else ""

    def _look(self) -> None:
        new = False
        for one in self._document.shown:
            known = self._known.get(one.id)
            if one.result is not None and not one.stale and not (known and known[0] is one.result):
                self._known[one.id] = (one.result, self._cautions(one, one.result))
                new = True
        if new:
            self.found.emit()

    def _cautions(self, one: Finding, result: RouteResult) -> tuple[str, ...]:
        # Not needed before the first comparison stands there.
        from core.advice.cautions import is_read, route_cautions

        plan = self._document.plan
        found = route_cautions(plan, one.route, result)
        return tuple(caution.short for caution in found if not is_read(plan, caution))
