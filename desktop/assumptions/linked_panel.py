"""A linked set: genes in order, and how often they part between neighbours."""

from __future__ import annotations

from msgspec.structs import replace
from PySide6.QtWidgets import QGridLayout, QVBoxLayout, QWidget

from core.plan.model import Linkage, Plan
from core.plan.relink import without_linked
from desktop import fonts
from desktop.document import Document
from desktop.forms.fields import SentenceChoice, SentenceField
from desktop.forms.kinds import Refused, Share
from desktop.forms.slots import Slot
from desktop.forms.table import Field
from desktop.theme import SECOND
from desktop.widgets.inked import Inked, button
from desktop.widgets.labels import PlainLabel
from desktop.words import assumptions as words
from desktop.words.numbers import Numbers

_HALF = 0.5


class LinkedSlot(Slot):
    """Each line a gene; from the second on, how often it parts from the one above."""

    def __init__(self, field: Field, _document: Document, numbers: Numbers, parent: QWidget) -> None:
        super().__init__(field, parent)
        self._numbers = numbers
        self._panel = Inked(parent)
        self._row = Linkage(genes=("", ""), recombination=(0,))
        self._choices: list[list[str]] = []
        self._free: list[str] = []
        self.lines: list[_GeneLine] = []
        self._here = QVBoxLayout()
        self._here.setSpacing(2)
        self.add = button(words.ADD_LINKED, "link", self._panel)
        layout = QVBoxLayout(self._panel)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addLayout(self._here)
        layout.addWidget(self.add)
        self.add.clicked.connect(self._add)

    @property
    def widget(self) -> QWidget:  # noqa: D102
        return self._panel

    def show_value(self, plan: Plan, subject: int) -> None:  # noqa: D102
        row = self._row = plan.linkage[subject]
        taken = {gene for other in plan.linkage for gene in other.genes}
        names = {gene.id: gene.name or gene.id for gene in plan.genes}
        self._free = [gene.id for gene in plan.genes if gene.placement == "autosome" and gene.id not in taken]
        self._choices = [[gene, *self._free] for gene in row.genes]
        while len(self.lines) < len(row.genes):
            self._make_line()
        for place, line in enumerate(self.lines):
            line.setVisible(place < len(row.genes))
            if place < len(row.genes):
                share = Share().show(row.recombination[place - 1], self._numbers) if place else ""
                line.show_gene(tuple(names[gene] for gene in self._choices[place]), share, many=len(row.genes) > 2)
        self.add.setVisible(bool(self._free))
        self._panel.dress()

    def _make_line(self) -> None:
        line = _GeneLine(self._panel)
        line.gene.activated.connect(self._choose)
        line.share.taken.connect(self._part)
        line.remove.clicked.connect(self._remove)
        self._here.addWidget(line)
        self.lines.append(line)

    def _place(self) -> int:
        sender = self.sender()
        return next(i for i, line in enumerate(self.lines) if sender in (line.gene, line.share, line.remove))

    def _choose(self, index: int) -> None:
        place = self._place()
        genes = list(self._row.genes)
        genes[place] = self._choices[place][index]
        self.taken.emit(replace(self._row, genes=tuple(genes)))

    def _part(self, text: str) -> None:
        place, share = self._place(), Share().read(text)
        if isinstance(share, Refused):
            self.lines[place].share.set_refused(True)
            self.unread.emit(share.sentence)
            return
        shares = list(self._row.recombination)
        shares[place - 1] = share
        self.taken.emit(replace(self._row, recombination=tuple(shares)))

    def _add(self) -> None:
        row = self._row
        self.taken.emit(Linkage(genes=(*row.genes, self._free[0]), recombination=(*row.recombination, _HALF)))

    def _remove(self) -> None:
        (row,) = without_linked((self._row,), self._row.genes[self._place()])
        self.taken.emit(row)


class _GeneLine(QWidget):
    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        bold = fonts.sans(fonts.FORM, bold=True)
        self.share = SentenceField(words.PART_NAME, bold, self, quiet=True)
        self.gene = SentenceChoice(words.LINKED_NAME, bold, (), self, quiet=True, most=220)
        self.remove = button(words.REMOVE, "link", self)
        self._before, self._after = self._word(words.PARTS_IN), self._word(words.OF_100)
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(6)
        for column, part in enumerate((self._before, self.share, self._after)):
            grid.addWidget(part, 0, column)
        grid.addWidget(self.gene, 1, 0, 1, 3)
        grid.addWidget(self.remove, 1, 3)
        grid.setColumnStretch(4, 1)

    def show_gene(self, names: tuple[str, ...], share: str, *, many: bool) -> None:
        """Shows a gene, with how often it parts from the one above where there is one."""
        self.gene.show_words(names, 0)
        self.share.hold(share)
        for part in (self._before, self.share, self._after):
            part.setVisible(bool(share))
        self.remove.setVisible(many)
        self.remove.setAccessibleName(f"{words.REMOVE}: {names[0]}")

    def _word(self, text: str) -> PlainLabel:
        return PlainLabel(text, font=fonts.sans(fonts.FORM), ink=SECOND, parent=self)
