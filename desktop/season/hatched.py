"""What hatched: the form, what it says, the clutches so far, and the difference one of them made."""

from __future__ import annotations

from PySide6.QtCore import QItemSelectionModel, Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QListWidget, QVBoxLayout, QWidget

from core.plan.faults import Fault
from core.plan.model import Plan
from desktop import fonts
from desktop.season.asking import Told, Trouble
from desktop.season.clutch_form import ClutchForm
from desktop.season.difference import DifferenceView
from desktop.theme import ERROR, NOTES, SECOND, colours_of
from desktop.widgets.inked import Inked, button
from desktop.widgets.labels import PlainLabel, wrapped
from desktop.widgets.tab_order import TabOrder
from desktop.words import hatched as words
from desktop.words import my_animals as animal_words
from desktop.words.births import Births
from desktop.words.numbers import Numbers
from desktop.words.told import told as fault_told

_LEAST_LIST = 96


class HatchedSheet(Inked):
    """`record_chosen` tells which clutch's difference is of interest; changes and removals carry its number."""

    record_chosen = Signal(int)
    change_asked = Signal(int)
    remove_asked = Signal(int)

    def __init__(self, numbers: Numbers, said: Births, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._numbers, self._births = numbers, said
        self._order = TabOrder(self)
        self.form = ClutchForm(numbers, said, self)
        self.says = PlainLabel(said.says, font=fonts.sans(fonts.HEADING, bold=True), parent=self)
        self.told = wrapped(said.nothing_yet, fonts.sans(fonts.LEAD))
        self.refused = wrapped("", fonts.sans(fonts.FORM), ERROR)
        self.slips = wrapped("", fonts.sans(fonts.FORM), SECOND)
        self.records = QListWidget(self)
        self.records.setProperty("look", "list")
        self.records.setFrameShape(QFrame.Shape.NoFrame)
        self.records.setAccessibleName(said.records)
        self.records.setFont(fonts.sans(fonts.FORM))
        self.records.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.none = wrapped(said.no_records, fonts.sans(fonts.FORM), NOTES)
        self.change, self.remove = button(words.CHANGE, "link", self), button(words.REMOVE, "link", self)
        self.difference = DifferenceView(numbers, said, self)
        self._lay_out()
        self.records.currentRowChanged.connect(self.record_chosen)
        self.change.clicked.connect(self._change)
        self.remove.clicked.connect(self._remove)
        self.form.rows.made.connect(self._take_in)
        self.say_trouble(None)
        self._take_in()

    def dress(self) -> None:
        """Puts the colours on the table too."""
        super().dress()
        self.difference.routes.ink(colours_of(self.palette()))

    def _take_in(self) -> None:
        """New fields take on the colours, and Tab goes by them where they stand."""
        self.dress()
        self._order.follow_the_eye()

    def show_plan(self, plan: Plan) -> None:
        """Other animals and clutches; the clutch that is looked at stays."""
        self.form.show_plan(plan)
        before, row = self.records.count(), self.records.currentRow()
        self.records.blockSignals(True)
        self.records.clear()
        for record in plan.clutch_records:
            self.records.addItem(words.record_words(plan, record))
        count = self.records.count()
        row = count - 1 if count > before else min(row, count - 1)
        if count:
            self.records.setCurrentRow(max(row, 0), QItemSelectionModel.SelectionFlag.ClearAndSelect)
        self.records.blockSignals(False)
        for widget in (self.records, self.change, self.remove, self.difference):
            widget.setVisible(bool(count))
        self.none.setVisible(not count)
        self.record_chosen.emit(self.records.currentRow())

    def show_told(self, plan: Plan, told: Told) -> None:
        """What the clutch in the form would say."""
        self.say_trouble(told.trouble)
        if told.trouble is None:
            said = [animal_words.change_words(plan, change, self._numbers) for change in told.changes]
            self.told.setText("\n".join(said) or words.SAYS_NOTHING)

    def show_nothing(self) -> None:
        """Nothing is counted."""
        self.say_trouble(None)
        self.told.setText(self._births.nothing_yet)

    def say_trouble(self, trouble: Trouble | None) -> None:
        """Why the clutch cannot be, with the likeliest slips."""
        self.refused.setText(trouble.sentence if trouble else "")
        self.slips.setText("\n".join(trouble.slips) if trouble else "")
        for widget in (self.refused, self.slips):
            widget.setVisible(bool(widget.text()))
        self.told.setVisible(trouble is None)

    def refuse(self, plan: Plan, fault: Fault) -> None:
        """Why the plan does not take the clutch."""
        self.say_trouble(Trouble(fault_told(plan, fault.place, fault)))

    def _change(self) -> None:
        self.change_asked.emit(self.records.currentRow())

    def _remove(self) -> None:
        self.remove_asked.emit(self.records.currentRow())

    def _lay_out(self) -> None:
        doing = QHBoxLayout()
        doing.setSpacing(12)
        doing.addWidget(PlainLabel(self._births.records, font=fonts.sans(fonts.HEADING, bold=True), parent=self))
        doing.addWidget(self.change)
        doing.addWidget(self.remove)
        doing.addStretch(1)
        self.records.setMinimumHeight(_LEAST_LIST)
        left, right = QVBoxLayout(), QVBoxLayout()
        left.setSpacing(8)
        left.addWidget(self.form)
        left.addSpacing(8)
        left.addLayout(doing)
        left.addWidget(self.none, 0, Qt.AlignmentFlag.AlignTop)
        left.addWidget(self.records, 1)
        left.addStretch(0)
        right.setSpacing(8)
        for widget in (self.says, self.told, self.refused, self.slips):
            right.addWidget(widget)
        right.addSpacing(16)
        right.addWidget(self.difference)
        right.addStretch(1)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(24, 0, 24, 0)
        layout.setSpacing(40)
        layout.addLayout(left, 6)
        layout.addLayout(right, 5)
