"""The range of one assumption, to be set by the person."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from core.advice.matters_ranges import Assumption
from core.plan.chances import chance
from core.plan.model import Plan
from desktop import fonts
from desktop.forms.fields import SentenceField
from desktop.forms.kinds import Amount, Refused, Share, Whole
from desktop.theme import ERROR, SECOND
from desktop.widgets.flow import Flow
from desktop.widgets.inked import button
from desktop.widgets.labels import PlainLabel
from desktop.words import worth as words
from desktop.words.numbers import Numbers

_KINDS: dict[str, Amount | Share | Whole] = {"laid": Amount(), "chance": Share(), "times": Share()}


class RangeLine(QWidget):
    """`looked_at` carries both ends of another range; `usual_asked` has the usual one again."""

    looked_at = Signal(float, float)
    usual_asked = Signal()

    def __init__(self, numbers: Numbers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._numbers = numbers
        self._assumption: Assumption | None = None
        sans, bold = fonts.sans(fonts.FORM), fonts.sans(fonts.FORM, bold=True)
        self.name = PlainLabel(font=bold)
        self.low = SentenceField(words.LOW_NAME, bold, self, quiet=True)
        self.high = SentenceField(words.HIGH_NAME, bold, self, quiet=True)
        self._unit = PlainLabel(font=sans, ink=SECOND)
        self.usual = button(words.USUAL_RANGE, "link", self)
        self.refusal = PlainLabel(font=sans, ink=ERROR)
        flow = Flow(self, gap=8)
        for widget in (
            self.name,
            PlainLabel(words.FROM, font=sans, ink=SECOND),
            self.low,
            PlainLabel(words.TO, font=sans, ink=SECOND),
            self.high,
            self._unit,
            self.usual,
            self.refusal,
        ):
            flow.addWidget(widget)
        for field in (self.low, self.high):
            field.taken.connect(self._take)
            field.taken_back.connect(self._forgive)
        self.usual.clicked.connect(self.usual_asked)
        self._forgive()

    def show_range(self, plan: Plan, assumption: Assumption) -> None:
        """The range of another assumption, or another range; what is being typed is left alone."""
        self._assumption = assumption
        self.name.setText(f"{assumption.name},")
        kind = self._kind()
        for field, end in ((self.low, assumption.low), (self.high, assumption.high)):
            value = round(end) if isinstance(kind, Whole) else round(end, 4)
            field.hold(kind.show(value, self._numbers))
        self._unit.setText(words.unit_words(plan, assumption))
        own = assumption.standing == "your own range"
        if self.usual.hasFocus() and not own:
            self.low.setFocus()
        self.usual.setVisible(own)
        self._forgive()

    def refuse(self, sentence: str) -> None:
        """Says why a range was not taken."""
        for field in (self.low, self.high):
            field.set_refused(True)
        self.refusal.setText(sentence)
        self.refusal.show()

    def _kind(self) -> Amount | Share | Whole:
        assert self._assumption is not None
        return _KINDS.get(self._assumption.unit, Whole())

    def _take(self) -> None:
        ends = []
        for field in (self.low, self.high):
            value = self._kind().read(field.text())
            if isinstance(value, Refused):
                self.refuse(value.sentence)
                return
            ends.append(chance(value))
        self.looked_at.emit(*ends)

    def _forgive(self) -> None:
        self.refusal.hide()
