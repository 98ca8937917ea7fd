"""Looks for cautions beside the window, whenever there is something new to look at."""

from __future__ import annotations

from collections.abc import Generator
from functools import partial
from typing import TYPE_CHECKING

import msgspec
from PySide6.QtCore import QObject, QTimer, Signal

from core.advice.caution import Caution, is_read
from core.plan.model import Plan, Route
from desktop.document import Document
from desktop.errand import Errand
from desktop.evaluator import Evaluator
from desktop.findings import Finding
from desktop.words.numbers import Numbers

if TYPE_CHECKING:
    from core.advice.surplus import Surplus

# The figures come first: cautions take longer than a painted edit may, and two threads of Python share one's time.
_UNTIL_PAINTED_MS = 50


class Minded(msgspec.Struct, frozen=True, eq=False):
    """What was found for one state of the plan: the cautions per route with an answer, and those on all of it."""

    of_route: dict[str, tuple[Caution, ...]]
    of_plan: tuple[Caution, ...]


class Minder(QObject):
    """Has cautions looked for on the evaluator's thread; what was found for an older plan is dropped."""

    changed = Signal()
    # How many surplus young of each look a route leaves, by its id.
    counted = Signal(str, object)

    def __init__(
        self, document: Document, evaluator: Evaluator, numbers: Numbers, parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self._document, self._numbers = document, numbers
        self._minded = Minded({}, ())
        self._errand, self._counting = Errand(evaluator, self), Errand(evaluator, self)
        self._errand.finished.connect(self._take)
        self._counting.finished.connect(self._tell_count)
        self._counting.failed.connect(self._tell_none)
        self._counted_for = ""
        self._soon = QTimer(self, singleShot=True, interval=_UNTIL_PAINTED_MS)
        self._soon.timeout.connect(self._look)
        document.plan_changed.connect(self._soon.start)
        document.answers_changed.connect(self._soon.start)

    @property
    def is_settled(self) -> bool:
        """Whether nothing is being looked for."""
        return not self._soon.isActive() and not self._errand.is_busy

    @property
    def of_plan(self) -> tuple[Caution, ...]:
        """The cautions on the whole plan."""
        return self._minded.of_plan

    def of(self, one: Finding) -> tuple[Caution, ...] | None:
        """The cautions on a route, the last that were found; None while none were looked for."""
        return self._minded.of_route.get(one.id)

    def unread(self, cautions: tuple[Caution, ...]) -> tuple[Caution, ...]:
        """Those that the person did not mark as read."""
        return tuple(caution for caution in cautions if not is_read(self._document.plan, caution))

    def count_surplus(self, one: Finding) -> None:
        """Has the surplus young of a route counted by look; `counted` tells them."""
        self._counted_for = one.id
        self._counting.start(partial(_counted, self._document.plan, one.route))

    def _tell_count(self, found: object) -> None:
        self.counted.emit(self._counted_for, found)

    def _tell_none(self) -> None:
        self.counted.emit(self._counted_for, ())

    def _look(self) -> None:
        document = self._document
        if document.complete:
            shown = [one for one in document.found if one.result is not None and not one.stale]
            self._errand.start(partial(_looked, document.plan, shown, self._numbers))

    def _take(self, minded: Minded) -> None:
        self._minded = minded
        self.changed.emit()


def _looked(plan: Plan, shown: list[Finding], numbers: Numbers) -> Generator[float, None, Minded]:
    # Only now: the start of the program does not wait for it.
    from core.advice.cautions import plan_cautions, route_cautions

    found = {}
    for done, one in enumerate(shown):
        yield done / len(shown)
        if one.result is not None:
            found[one.id] = route_cautions(plan, one.route, one.result, numbers)
    return Minded(found, plan_cautions(plan))


def _counted(plan: Plan, route: Route) -> Generator[float, None, tuple[Surplus, ...]]:
    from core.advice.surplus import surplus_by_form

    return surplus_by_form(plan, route)
