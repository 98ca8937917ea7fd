"""One search beside the window: it goes on where it stopped, and what it has so far stays."""

from __future__ import annotations

import time
from collections.abc import Generator

import msgspec
from PySide6.QtCore import QObject, Signal

from core.plan.model import Plan
from core.search.found import Found
from desktop.document import Document
from desktop.errand import Errand
from desktop.evaluator import Evaluator

# After so long, in seconds, the thread is given up to whatever else is asked for.
_SLICE = 0.25


class _Work:
    """A search that the worker's thread goes on with; the window reads what it has so far, which is a value."""

    def __init__(self, plan: Plan) -> None:
        self._plan = plan
        self._steps: Generator[Found, None, Found] | None = None
        self.latest: Found | None = None

    def go_on(self) -> Generator[float, None, None]:
        """Goes on for a while, a step at a time; begun anew it takes up where it was left."""
        if self._steps is None:
            # Loaded where nobody waits for it.
            from core.search.find import find

            self._steps = find(self._plan)
        begun = time.monotonic()
        while time.monotonic() - begun < _SLICE:
            try:
                self.latest = next(self._steps)
            except StopIteration as end:
                # A search that is over has nothing more to say.
                self.latest = end.value or self.latest
                return
            yield self.latest.share


class RouteSearch(QObject):
    """Searches for one document while some part of the window looks; edits of the routes alone change nothing for it.

    Routes are worked out on the same thread: the search gives way to them, and then goes on.
    """

    changed = Signal()

    def __init__(self, document: Document, evaluator: Evaluator, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._document = document
        # While what was found is being built into the window, the search had better keep still.
        self.give_way = evaluator.give_way
        self._errand = Errand(evaluator, self)
        self._asked: Plan | None = None
        self._work: _Work | None = None
        self.stopped = True
        self.failure = ""
        self._watching: set[QObject] = set()
        # What there is so far, as far as the window was told.
        self.found: Found | None = None
        self._errand.progressed.connect(self._tell_first)
        self._errand.finished.connect(self._tell)
        self._errand.failed.connect(self._fail)
        document.plan_changed.connect(self._follow)
        document.answers_changed.connect(self._go_on)

    @property
    def is_settled(self) -> bool:
        """Whether nothing more is to come by itself."""
        return self.stopped or bool(self.failure) or (self.found is not None and self.found.ended)

    def watch(self, who: QObject) -> None:
        """Somebody looks: search, or go on with what was begun for the same plan."""
        self._watching.add(who)
        self.give_way()
        self.go_on()

    def leave(self, who: QObject) -> None:
        """Somebody does not look any more; when nobody does, the search keeps still."""
        self._watching.discard(who)
        if not self._watching:
            self.stopped = True
            self._errand.cancel()

    def go_on(self) -> None:
        """Go on after a stop."""
        self.stopped = False
        self._follow()

    def stop(self) -> None:
        """The person has seen enough; it can go on later."""
        self.stopped = True
        self._errand.cancel()
        self.changed.emit()

    def _follow(self) -> None:
        if not self._watching and self._asked is None:
            return
        asked = _without_routes(self._document.plan)
        if asked != self._asked:
            # What a search keeps takes room, and nobody will ask for the one of another plan.
            self._asked, self._work, self.found = None, None, None
        if not self._watching:
            return
        if self._asked is None:
            self._asked, self._work, self.failure, self.stopped = asked, _Work(asked), "", False
        self._errand.cancel()
        self._go_on()

    def _go_on(self) -> None:
        """Once the routes of the plan are worked out."""
        if self._watching and not self.is_settled and not self._errand.is_busy and self._document.complete:
            assert self._work is not None
            self._errand.start(self._work.go_on)
        self.changed.emit()

    def _tell_first(self, _share: object) -> None:
        """What comes first is shown as it comes; later, news now and then is enough."""
        if self.found is None or not self.found.proposals:
            self._tell(_share)

    def _tell(self, _share: object) -> None:
        self.found = self._work.latest if self._work else None
        self._go_on()

    def _fail(self, sentence: str) -> None:
        self.failure = sentence
        self.changed.emit()


def _without_routes(plan: Plan) -> Plan:
    """What a search is about; names and what was read make no difference to it."""
    return msgspec.structs.replace(plan, routes=(), notes="", title="", cautions_read=())
