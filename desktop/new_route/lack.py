"""What a shape lacks, if only for a part of the goal, and what can be done about it right there."""

from __future__ import annotations

import msgspec
from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from core.plan.model import Plan
from core.routes.shapes import Proposal
from desktop import fonts
from desktop.document import Document
from desktop.forms.fields import SentenceField
from desktop.locale_reading import read_number
from desktop.theme import ERROR, SECOND
from desktop.widgets.inked import button
from desktop.widgets.labels import PlainLabel
from desktop.words import forms as form_words
from desktop.words import new_route as words

_PASTED = ("nothing listed", "no male", "no female", "no pair")


class LackNote(QWidget):
    """A sentence, with lists to paste or a price to type below it."""

    # "for sale" or "mine".
    paste_asked = Signal(str)

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self.sentence = PlainLabel(font=fonts.sans(fonts.LEAD), parent=self)
        self.sentence.setWordWrap(True)
        self.for_sale = button(words.PASTE_SALE, "plain", self)
        self.mine = button(words.PASTE_MINE, "plain", self)
        self.price = SentenceField(words.PRICE_NAME, fonts.sans(fonts.LEAD, bold=True), self)
        self._ask = PlainLabel(words.PRICE_ASK, font=fonts.sans(fonts.LEAD), ink=SECOND, parent=self)
        self._currency = PlainLabel(font=fonts.sans(fonts.LEAD), ink=SECOND, parent=self)
        self._refusal = PlainLabel(font=fonts.sans(fonts.HEAD), ink=ERROR, parent=self)
        self._lay_out()
        self.for_sale.clicked.connect(self._paste_for_sale)
        self.mine.clicked.connect(self._paste_mine)
        self.price.taken.connect(self._take_price)

    def show_lack(self, plan: Plan, proposal: Proposal | None, failure: str = "") -> None:
        """What is lacking, or nothing."""
        lack = proposal.lack if proposal else None
        self.sentence.setText(failure or (words.lacking(plan, proposal) if proposal else ""))
        for widget in (self.for_sale, self.mine):
            widget.setVisible(lack in _PASTED or bool(proposal and proposal.left))
        for part in (self._ask, self.price, self._currency):
            part.setVisible(lack == "no price")
        self._currency.setText(plan.currency)
        self._refusal.hide()
        self.setVisible(bool(self.sentence.text()))

    def _lay_out(self) -> None:
        line = QHBoxLayout()
        line.setSpacing(8)
        for widget in (self.for_sale, self.mine, self._ask, self.price, self._currency):
            line.addWidget(widget)
        line.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 8, 0, 8)
        layout.setSpacing(8)
        layout.addWidget(self.sentence)
        layout.addLayout(line)
        layout.addWidget(self._refusal)

    def _paste_for_sale(self) -> None:
        self.paste_asked.emit("for sale")

    def _paste_mine(self) -> None:
        self.paste_asked.emit("mine")

    def _take_price(self, text: str) -> None:
        value = read_number(text, whole=False)
        if value is None:
            self._refuse(form_words.not_a_number(text, whole=False))
            return
        plan = self._document.plan
        priced = msgspec.structs.replace(plan, goal=msgspec.structs.replace(plan.goal, outright_price=value))
        faults = self._document.edit(priced, words.PRICE_STEP, merge="goal.outright_price")
        if faults:
            self._refuse(words.not_so_many(faults[0].message))

    def _refuse(self, sentence: str) -> None:
        self.price.set_refused(True)
        self._refusal.setText(sentence)
        self._refusal.show()
