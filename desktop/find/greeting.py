"""The cheapest routes found so far, each one click from the plan: they come by themselves, without being asked for."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QHideEvent, QShowEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from core.plan.alike import Tried
from core.search.found import Proposal
from desktop import fonts
from desktop.document import Document
from desktop.find.adding import add
from desktop.find.row import FoundRow
from desktop.find.search import RouteSearch
from desktop.panels.routes import edits
from desktop.theme import ERROR, SECOND
from desktop.widgets.inked import button
from desktop.widgets.labels import wrapped
from desktop.words import find as words
from desktop.words.numbers import Numbers

MOST_SHOWN = 3


class Greeting(QWidget):
    """Searches while it is seen; `narrow`: beside other things, in fewer words.

    Else the finding, `head`, and how far the search is, `state`, are for whoever made it to place.
    """

    # The page with everything that was found.
    all_asked = Signal()
    # Routes were taken into the plan.
    added = Signal()
    # There are new buttons, which have yet to take on the page's colours.
    made = Signal()

    def __init__(
        self,
        document: Document,
        search: RouteSearch,
        numbers: Numbers,
        *,
        narrow: bool = False,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._document, self._search, self._numbers, self._narrow = document, search, numbers, narrow
        self.head = wrapped("", fonts.sans(fonts.LEAD, bold=True) if narrow else fonts.serif(fonts.ANSWER))
        self.state = wrapped("", fonts.sans(fonts.FORM if narrow else fonts.LEAD), SECOND)
        self.refusal = wrapped("", fonts.sans(fonts.HEAD), ERROR)
        self.refusal.hide()
        self.rows = [FoundRow(number, numbers, narrow=narrow) for number in range(1, MOST_SHOWN + 1)]
        self.add_all = button("", "plain", self)
        self.all = button(words.ALL_FOUND, "link", self)
        # What the rows stand for: kept, but not to be added, while another plan is searched.
        self._shown: tuple[Proposal, ...] = ()
        self._lay_out()
        for row in self.rows:
            row.added.connect(self._add)
        self.add_all.clicked.connect(self._add_all)
        self.all.clicked.connect(self.all_asked)
        search.changed.connect(self.show_found)
        document.plan_changed.connect(self.show_found)
        self.show_found()

    @property
    def shown(self) -> tuple[Proposal, ...]:
        """The routes that are shown."""
        return self._shown

    @property
    def is_settled(self) -> bool:
        """Whether nothing more comes by itself."""
        return self._search.is_settled

    def showEvent(self, event: QShowEvent) -> None:  # noqa: D102
        super().showEvent(event)
        self._search.watch(self)

    def hideEvent(self, event: QHideEvent) -> None:  # noqa: D102
        super().hideEvent(event)
        self._search.leave(self)

    def show_found(self) -> None:
        """The cheapest of what there is so far."""
        plan, found, numbers = self._document.plan, self._search.found, self._numbers
        known = found is not None and (bool(found.proposals) or found.ended)
        if found is not None and known:
            self._shown = found.proposals[:MOST_SHOWN]
        self.head.setText(self._search.failure or words.greeting(plan, found, numbers, narrow=self._narrow))
        self.state.setText(words.progress(found, numbers, stopped=False))
        if self._narrow:
            # What is lacking is said beside the shapes.
            nothing = known and not self._shown
            self.head.setVisible(not nothing)
            self.all.setVisible(not nothing)
            self.state.setVisible(bool(self.state.text()) and not known)
        tried, room = Tried(plan.routes), edits.has_room(plan)
        for place, row in enumerate(self.rows):
            row.setVisible(place < len(self._shown))
            if place < len(self._shown):
                one = self._shown[place]
                row.show_proposal(plan, one, taken=tried.covers(one.route), room=room and known)
        many = sum(one.result.to_goal is not None for one in self._shown)
        self.add_all.setText(words.compare_all(many))
        self.add_all.setAccessibleName(self.add_all.text())
        self.add_all.setVisible(many > 1 and not self._narrow)
        self.add_all.setEnabled(known)

    def _add(self, place: int) -> None:
        self._take(self._shown[place : place + 1])

    def _add_all(self) -> None:
        self._take(tuple(one for one in self._shown if one.result.to_goal is not None))

    def _take(self, proposals: tuple[Proposal, ...]) -> None:
        faults = add(self._document, [one.route for one in proposals])
        self.refusal.setText(words.refused(faults[0].message) if faults else "")
        self.refusal.setVisible(bool(faults))
        if not faults:
            self.added.emit()

    def _lay_out(self) -> None:
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        if self._narrow:
            layout.addWidget(self.head)
            layout.addWidget(self.state)
        for row in self.rows:
            layout.addWidget(row)
        layout.addWidget(self.refusal)
        ways = QHBoxLayout()
        ways.setSpacing(16)
        ways.addWidget(self.add_all)
        ways.addWidget(self.all)
        ways.addStretch(1)
        layout.addSpacing(4)
        layout.addLayout(ways)
        layout.setAlignment(Qt.AlignmentFlag.AlignTop)
