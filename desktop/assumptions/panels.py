"""Panels in forms: what an animal carries, how it is to look, and whose young it is."""

from __future__ import annotations

from typing import Any

from PySide6.QtWidgets import QWidget

from core.plan.model import Plan
from core.plan.places import value_at
from desktop import fonts
from desktop.carrying.panel import CarriesPanel
from desktop.document import Document
from desktop.forms.fields import SentenceChoice
from desktop.forms.forms_panel import FormsPanel
from desktop.forms.slots import Slot
from desktop.forms.table import Field
from desktop.theme import NOTES, SECOND
from desktop.widgets.flow import Flow
from desktop.widgets.labels import PlainLabel
from desktop.words import assumptions as words
from desktop.words.numbers import Numbers


class CarriesSlot(Slot):
    """What an animal carries, in the trade's choices."""

    def __init__(self, field: Field, _document: Document, numbers: Numbers, parent: QWidget) -> None:
        super().__init__(field, parent)
        self.panel = CarriesPanel(numbers, parent)
        self.panel.edited.connect(self.taken)

    @property
    def widget(self) -> QWidget:  # noqa: D102
        return self.panel

    def show_value(self, plan: Plan, subject: int) -> None:  # noqa: D102
        entry: Any = value_at(plan, self.field.at(subject).rpartition(".")[0])
        self.panel.show_carries(plan, "", entry.carries, entry.sex, getattr(entry, "quantity", 1))


class FormsSlot(Slot):
    """How an animal is to look; a row's own sex decides what can be asked for."""

    with_names = True

    def __init__(self, field: Field, _document: Document, _numbers: Numbers, parent: QWidget) -> None:
        super().__init__(field, parent)
        self.panel = FormsPanel(parent)
        self.panel.edited.connect(self.taken)

    @property
    def widget(self) -> QWidget:  # noqa: D102
        return self.panel

    def show_value(self, plan: Plan, subject: int) -> None:  # noqa: D102
        entry: Any = value_at(plan, self.field.at(subject).rpartition(".")[0])
        self.panel.show_forms(plan, entry.forms, getattr(entry, "sex", "any"), combinations=self.with_names)


class PlainFormsSlot(FormsSlot):
    """The same without trade names: for a trade name itself."""

    with_names = False


class ParentsSlot(Slot):
    """Sire and dam, which count once both are chosen."""

    def __init__(self, field: Field, _document: Document, _numbers: Numbers, parent: QWidget) -> None:
        super().__init__(field, parent)
        self._line = QWidget(parent)
        bold = fonts.sans(fonts.FORM, bold=True)
        self.sire = SentenceChoice(words.SIRE_NAME, bold, (), self._line, quiet=True, most=200)
        self.dam = SentenceChoice(words.DAM_NAME, bold, (), self._line, quiet=True, most=200)
        self.waiting = PlainLabel(words.BOTH_PARENTS, font=fonts.sans(fonts.HEAD), ink=NOTES, parent=self._line)
        self._ids: tuple[list[str], list[str]] = ([], [])
        flow = Flow(self._line)
        for part in (self._word(words.SIRE), self.sire, self._word(words.DAM), self.dam, self.waiting):
            flow.addWidget(part)
        self.sire.activated.connect(self._take)
        self.dam.activated.connect(self._take)

    @property
    def widget(self) -> QWidget:  # noqa: D102
        return self._line

    def show_value(self, plan: Plan, subject: int) -> None:  # noqa: D102
        animal = plan.my_animals[subject]
        others = [one for one in plan.my_animals if one.id != animal.id]
        self._ids = ([one.id for one in others if one.sex == "male"], [one.id for one in others if one.sex == "female"])
        names = {one.id: one.name or one.id for one in others}
        for choice, ids, parent in ((self.sire, self._ids[0], animal.sire), (self.dam, self._ids[1], animal.dam)):
            shown = (words.NO_PARENT, *(names[one] for one in ids))
            choice.show_words(shown, ids.index(parent) + 1 if parent in ids else 0)
        self.waiting.hide()

    def _word(self, text: str) -> PlainLabel:
        return PlainLabel(text, font=fonts.sans(fonts.FORM), ink=SECOND, parent=self._line)

    def _take(self) -> None:
        sire, dam = self.sire.currentIndex(), self.dam.currentIndex()
        self.waiting.setVisible((sire > 0) != (dam > 0))
        if sire > 0 and dam > 0:
            self.taken.emit((self._ids[0][sire - 1], self._ids[1][dam - 1]))
        elif sire <= 0 and dam <= 0:
            self.taken.emit(None)
