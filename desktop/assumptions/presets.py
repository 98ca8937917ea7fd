"""What the program knows of the plan's species, and taking it over."""

from __future__ import annotations

from PySide6.QtCore import QSignalBlocker
from PySide6.QtWidgets import QHBoxLayout, QWidget

from core.plan.model import Plan, Species
from core.plan.presets import Preset, preset_of, species_presets
from desktop import fonts
from desktop.assumptions.species_edits import with_preset
from desktop.document import Document
from desktop.files.library import KeptLibrary
from desktop.forms.fields import SentenceChoice
from desktop.forms.slots import Slot
from desktop.forms.table import Field
from desktop.theme import SECOND
from desktop.widgets.labels import PlainLabel
from desktop.words import assumptions as words
from desktop.words.numbers import Numbers


class PresetsSlot(Slot):
    """A choice of the known species; choosing one takes over its name and what is known for a fact."""

    def __init__(self, field: Field, document: Document, _numbers: Numbers, parent: QWidget) -> None:
        super().__init__(field, parent)
        self._document = document
        self._presets: tuple[Preset | Species, ...] = (*KeptLibrary().read().species, *species_presets())
        self._line = QWidget(parent)
        bold = fonts.sans(fonts.FORM, bold=True)
        names = tuple(one.name if isinstance(one, Preset) else words.kept_as(one.name) for one in self._presets)
        self.choice = SentenceChoice(field.name, bold, names, self._line, quiet=True)
        self.choice.setPlaceholderText(words.NO_PRESET)
        layout = QHBoxLayout(self._line)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(6)
        layout.addWidget(PlainLabel(words.TAKE_OVER, font=fonts.sans(fonts.FORM), ink=SECOND, parent=self._line))
        layout.addWidget(self.choice)
        layout.addStretch(1)
        self.choice.activated.connect(self._take)

    @property
    def widget(self) -> QWidget:  # noqa: D102
        return self._line

    def show_value(self, plan: Plan, _subject: int) -> None:  # noqa: D102
        known = plan.species if plan.species in self._presets else preset_of(plan.species.name)
        # A name alone takes nothing over: whoever typed it can still choose the species here.
        taken = known is not None and with_preset(plan, 0, known) == plan
        with QSignalBlocker(self.choice):
            self.choice.setCurrentIndex(self._presets.index(known) if known and taken else -1)

    def _take(self, index: int) -> None:
        self.taken.emit(self._presets[index])
