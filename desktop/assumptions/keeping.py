"""Own genes and species kept for other plans, in a file of the person's own."""

from __future__ import annotations

from PySide6.QtWidgets import QHBoxLayout, QWidget

from core.plan.library import MOST_GENES, MOST_SPECIES, Library
from core.plan.model import Plan
from desktop import fonts
from desktop.document import Document
from desktop.files.library import KeptLibrary
from desktop.forms.slots import Slot
from desktop.forms.table import Field
from desktop.theme import NOTES
from desktop.widgets.inked import button
from desktop.widgets.labels import PlainLabel
from desktop.words import assumptions as words
from desktop.words.numbers import Numbers


class KeepSlot(Slot):
    """A word to press, and what came of it; the plan itself stays as it is."""

    label = ""

    def __init__(self, field: Field, document: Document, _numbers: Numbers, parent: QWidget) -> None:
        super().__init__(field, parent)
        self._document = document
        self._subject = 0
        self._line = QWidget(parent)
        self.keep = button(self.label, "link", self._line)
        self.said = PlainLabel(font=fonts.sans(fonts.HEAD), ink=NOTES, parent=self._line)
        layout = QHBoxLayout(self._line)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.keep)
        layout.addWidget(self.said)
        layout.addStretch(1)
        self.keep.clicked.connect(self._keep)

    @property
    def widget(self) -> QWidget:  # noqa: D102
        return self._line

    def show_value(self, _plan: Plan, subject: int) -> None:  # noqa: D102
        self._subject = subject
        self.said.setText("")

    def added(self, library: Library, plan: Plan, subject: int) -> Library:
        """What is kept with this one, too."""
        raise NotImplementedError

    def _keep(self) -> None:
        kept = KeptLibrary()
        library = self.added(kept.read(), self._document.plan, self._subject)
        if len(library.genes) > MOST_GENES or len(library.species) > MOST_SPECIES:
            self.said.setText(words.KEPT_FULL)
            return
        reason = kept.write(library)
        self.said.setText(words.KEPT if reason is None else words.not_kept(reason))


class KeepGeneSlot(KeepSlot):
    """Keeps one gene under the plan's species."""

    label = words.KEEP_GENE

    def added(self, library: Library, plan: Plan, subject: int) -> Library:  # noqa: D102
        return library.with_gene(plan.species.name, plan.genes[subject])


class KeepSpeciesSlot(KeepSlot):
    """Keeps the species with all its numbers."""

    label = words.KEEP_SPECIES

    def added(self, library: Library, plan: Plan, _subject: int) -> Library:  # noqa: D102
        return library.with_species(plan.species)
