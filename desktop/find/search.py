"""One search beside the window: it goes on where it stopped, and what it has so far stays."""

from __future__ import annotations

from collections.abc import Generator

import msgspec
from PySide6.QtCore import QObject, Signal

from core.plan.model import Plan
from core.search.find import find
from core.search.found import Found
from desktop.document import Document
from desktop.errand import Errand
from desktop.evaluator import Evaluator


class _Work:
    """A search that the worker's thread goes on with; the window reads what it has so far, which is a value."""

    def __init__(self, plan: Plan) -> None:
        self._steps = find(plan)
        self.latest: Found | None = None

    def go_on(self) -> Generator[float, None, None]:
        """Goes on to the end, a step at a time; begun anew it takes up where it was left."""
        while True:
            try:
                self.latest = next(self._steps)
            except StopIteration as end:
                # A search that is over has nothing more to say.
                self.latest = end.value or self.latest
                return
            yield self.latest.share


class RouteSearch(QObject):
    """Searches for one document while somebody looks; edits of the routes alone change nothing for it.

    Routes are worked out on the same thread: the search gives way to them, and then goes on.
    """

    changed = Signal()

    def __init__(self, document: Document, evaluator: Evaluator, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._errand = Errand(evaluator, self)
        self._asked: Plan | None = None
        self._work: _Work | None = None
        self.stopped = True
        self.failure = ""
        self._wanted = False
        # What there is so far, as far as the window was told.
        self.found: Found | None = None
        self._errand.progressed.connect(self._tell)
        self._errand.finished.connect(self._tell)
        self._errand.failed.connect(self._fail)
        document.plan_changed.connect(self._follow)
        document.answers_changed.connect(self._go_on)

    @property
    def is_settled(self) -> bool:
        """Whether nothing more is to come by itself."""
        return self.stopped or bool(self.failure) or (self.found is not None and self.found.ended)

    def begin(self) -> None:
        """Somebody looks: search, or go on with what was begun for the same plan."""
        self._wanted, self.stopped = True, False
        self._follow()

    def stop(self) -> None:
        """The person has seen enough; it can go on later."""
        self.stopped = True
        self._errand.cancel()
        self.changed.emit()

    def end(self) -> None:
        """Nobody looks any more."""
        self._wanted, self.stopped = False, True
        self._errand.cancel()

    def _follow(self) -> None:
        if not self._wanted:
            return
        asked = _without_routes(self._document.plan)
        if self._asked is None or asked != self._asked:
            self._asked, self._work, self.failure, self.stopped = asked, _Work(asked), "", False
            self.found = None
        self._errand.cancel()
        self._go_on()

    def _go_on(self) -> None:
        """Once the routes of the plan are worked out."""
        if self._wanted and not self.is_settled and not self._errand.is_busy and self._document.complete:
            assert self._work is not None
            self._errand.start(self._work.go_on)
        self.changed.emit()

    def _tell(self, _share: object) -> None:
        self.found = self._work.latest if self._work else None
        self.changed.emit()

    def _fail(self, sentence: str) -> None:
        self.failure = sentence
        self.changed.emit()


def _without_routes(plan: Plan) -> Plan:
    """What a search is about; names and what was read make no difference to it."""
    return msgspec.structs.replace(plan, routes=(), notes="", title="", cautions_read=())
