"""Cautions that were marked as read: how many, and showing them all again."""

from __future__ import annotations

from PySide6.QtWidgets import QHBoxLayout, QWidget

from core.plan.model import Plan
from desktop import fonts
from desktop.document import Document
from desktop.forms.slots import Slot
from desktop.forms.table import Field
from desktop.widgets.inked import button
from desktop.widgets.labels import PlainLabel
from desktop.words import assumptions as words
from desktop.words.numbers import Numbers


class ReadCautionsSlot(Slot):
    """A sentence and a word to press."""

    def __init__(self, field: Field, _document: Document, _numbers: Numbers, parent: QWidget) -> None:
        super().__init__(field, parent)
        self._line = QWidget(parent)
        self.count = PlainLabel(font=fonts.sans(fonts.FORM), parent=self._line)
        self.again = button(words.SHOW_AGAIN, "link", self._line)
        layout = QHBoxLayout(self._line)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.count)
        layout.addWidget(self.again)
        layout.addStretch(1)
        self.again.clicked.connect(self._forget)

    @property
    def widget(self) -> QWidget:  # noqa: D102
        return self._line

    def show_value(self, plan: Plan, _subject: int) -> None:  # noqa: D102
        self.count.setText(words.read_cautions(len(plan.cautions_read)))
        self.again.setVisible(bool(plan.cautions_read))

    def _forget(self) -> None:
        self.taken.emit(())
