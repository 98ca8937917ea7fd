"""One route that was found: its number, name, reason and figures, and the way into the plan."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QWidget

from core.plan.model import Goal, Plan
from core.search.found import Proposal
from desktop import fonts
from desktop.theme import NOTES, SECOND
from desktop.widgets.inked import button
from desktop.widgets.labels import PlainLabel, ShortLabel, wrapped
from desktop.words import find as words
from desktop.words.numbers import Numbers

_CLOSE = 5


class FoundRow(QWidget):
    """Shown in place: the same row may stand for another route a moment later."""

    added = Signal(int)

    def __init__(self, number: int, numbers: Numbers, parent: QWidget | None = None, *, narrow: bool = False) -> None:
        super().__init__(parent)
        self._number, self._numbers, self._narrow = number, numbers, narrow
        self._shown: tuple[Proposal, bool, bool, Goal] | None = None
        self.number = PlainLabel(str(number), font=fonts.serif(fonts.LEAD), ink=NOTES)
        # Beside other things the name has to do with a line, and with the figures.
        bold = fonts.sans(fonts.HEADING, bold=True)
        self.name = ShortLabel(font=bold) if narrow else wrapped("", bold)
        self.why = wrapped("", fonts.sans(fonts.FORM), SECOND)
        self.figures = wrapped("", fonts.sans(fonts.HEAD), NOTES)
        self.money = PlainLabel(font=fonts.sans(fonts.LEAD, bold=True))
        self.add = button(words.ADD, "link")
        self.why.setVisible(not narrow)
        grid = QGridLayout(self)
        grid.setContentsMargins(0, *(_CLOSE, 0, _CLOSE) if narrow else (8, 0, 8))
        grid.setHorizontalSpacing(16)
        grid.setVerticalSpacing(2)
        grid.setColumnMinimumWidth(0, 24)
        grid.setColumnStretch(1, 1)
        right = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop
        grid.addWidget(self.number, 0, 0, Qt.AlignmentFlag.AlignTop)
        for place, label in enumerate((self.name, self.figures) if narrow else (self.name, self.why, self.figures)):
            grid.addWidget(label, place, 1)
        grid.addWidget(self.money, 0, 2, right)
        grid.addWidget(self.add, 1, 2, 2, 1, right)
        self.add.clicked.connect(self._add)

    def show_proposal(self, plan: Plan, one: Proposal, *, taken: bool, room: bool) -> None:
        """Shows one route; `taken`: it is in the plan already."""
        shown = one, taken, room, plan.goal
        if shown == self._shown:
            return
        self._shown = shown
        self.name.setText(one.route.name)
        self.why.setText(one.why)
        self.figures.setText(words.figures(plan, one, self._numbers, short=self._narrow))
        self.money.setText(words.money(one, self._numbers))
        self.add.setText(words.TAKEN if taken else words.ADD)
        name = words.taken_name if taken else words.add_name
        self.add.setAccessibleName(name(self._number, one.route.name))
        self.add.setEnabled(room and not taken)

    def _add(self) -> None:
        self.added.emit(self._number - 1)
