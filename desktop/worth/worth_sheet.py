"""Worth paying: one sorted list of what can be bought, and why for the row that is chosen."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from core.advice.worth import Worth, WorthPaying
from core.advice.worth_options import Option
from core.advice.worth_words import lot_words, most_words, option_words, paying, reason_words, verdict_words
from core.plan.model import Plan
from desktop import fonts
from desktop.theme import SECOND, colours_of
from desktop.widgets.inked import Inked, button
from desktop.widgets.labels import wrapped
from desktop.words import worth as words
from desktop.words.numbers import Numbers
from desktop.worth.drawing import Gauge, draw_gauge, gauge_high
from desktop.worth.look import Cell, Column, Ink, Row
from desktop.worth.table import SentenceTable

COLUMNS = (
    Column(words.ANIMAL, 0.22),
    Column(words.ASKED),
    Column(words.UP_TO),
    Column(words.GAUGE, 0.16, draw_gauge, gauge_high),
    Column(words.BUY, 0.26),
    Column(words.OTHERWISE, 0.36),
)
_INKS: dict[str, Ink] = {"yes": "accent", "close": "text", "no": "second"}


class WorthSheet(Inked):
    """Shows the answer; the reason below the list is that of its current row.

    A plan that stands behind a row but is no route yet may be made one: `wanted` carries it, with a name.
    """

    wanted = Signal(object, str)

    def __init__(self, numbers: Numbers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._numbers = numbers
        self._shown: tuple[Plan, WorthPaying] | None = None
        self.head = wrapped("", fonts.serif(fonts.ANSWER))
        self.lead = wrapped("", fonts.sans(fonts.FORM), SECOND)
        self.table = SentenceTable(words.WORTH_TABLE, COLUMNS)
        self.reason = wrapped("", fonts.sans(fonts.LEAD))
        self.add_with, self.add_without = button(words.ADD_WITH, "link"), button(words.ADD_WITHOUT, "link")
        adding = QHBoxLayout()
        adding.setSpacing(24)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(24, 8, 24, 8)
        layout.setSpacing(8)
        layout.addWidget(self.head)
        layout.addWidget(self.lead)
        layout.addSpacing(8)
        layout.addWidget(self.table, 1000)
        layout.addWidget(self.reason)
        for one in (self.add_with, self.add_without):
            adding.addWidget(one)
            one.hide()
        adding.addStretch(1)
        layout.addLayout(adding)
        layout.addStretch(1)
        self.table.chosen.connect(self._explain)
        self.add_with.clicked.connect(self._want_with)
        self.add_without.clicked.connect(self._want_without)
        self.dress()

    def dress(self) -> None:
        """Puts the colours on the table too."""
        super().dress()
        self.table.ink(colours_of(self.palette()))

    def show_answer(self, plan: Plan, answered: WorthPaying) -> None:
        """Another answer in the same place."""
        self._shown = plan, answered
        self.head.setText(words.best_buy(plan, answered, self._numbers))
        self.lead.setText(words.measured(plan, answered, self._numbers) if answered.rows else "")
        full = max((max(row.most or 0.0, row.lot.asked) for row in answered.rows), default=1.0)
        self.table.show_rows([self._row(plan, answered, row, full) for row in answered.rows])
        self.table.setVisible(bool(answered.rows))
        self.reason.setVisible(bool(answered.rows))
        self.set_outdated(False)

    def set_outdated(self, outdated: bool) -> None:
        """Whether a newer answer is on its way."""
        self.table.set_outdated(outdated)
        for widget in (self.head, self.reason):
            widget.setEnabled(not outdated)

    def _row(self, plan: Plan, answered: WorthPaying, row: Worth, full: float) -> Row:
        good = row.verdict == "yes"
        lot, numbers = row.lot, self._numbers
        cells = (
            Cell(lot_words(plan, lot), bold=good),
            Cell(paying(lot.asked, numbers)),
            Cell(most_words(row, numbers) or "–", bold=row.most is not None, ink="text" if row.most else "notes"),
            Cell(words.gauge_spoken(row, numbers), drawn=Gauge(lot.asked, row.most, full, good)),
            Cell(verdict_words(row, numbers), bold=good, ink=_INKS[row.verdict]),
            Cell(words.otherwise(plan, answered, row, numbers), ink="second"),
        )
        return Row((lot.offer.id if lot.offer else "", lot.groups, lot.asked), cells)

    def _explain(self, place: int) -> None:
        if self._shown is None:
            return
        plan, answered = self._shown
        row = answered.rows[place]
        self.reason.setText(reason_words(plan, answered.lots, row, self._numbers))
        for link, option in ((self.add_with, row.plan), (self.add_without, row.other)):
            new = option is not None and option.origin in ("paired", "swapped", "found")
            if link.hasFocus() and not new:
                self.table.setFocus()
            link.setVisible(new)

    def _want_with(self) -> None:
        row = self._current()
        self._want(row.plan if row else None)

    def _want_without(self) -> None:
        row = self._current()
        self._want(row.other if row else None)

    def _current(self) -> Worth | None:
        at = self.table.currentRow()
        return self._shown[1].rows[at] if self._shown is not None and at >= 0 else None

    def _want(self, option: Option | None) -> None:
        if option is not None and self._shown is not None:
            plan, answered = self._shown
            self.wanted.emit(option.route, option_words(plan, answered.lots, option))
