"""Panels of a gene: its alleles, its genotypes, and what is known of it."""

from __future__ import annotations

from PySide6.QtWidgets import QCheckBox, QGridLayout, QHBoxLayout, QVBoxLayout, QWidget

from core.explain.animals import form_name
from core.plan.gene_notes import notes_of
from core.plan.genotypes import NORMAL, Pair, Table
from core.plan.model import Plan
from desktop import fonts
from desktop.assumptions.gene_edits import can_add_allele, genotypes
from desktop.document import Document
from desktop.forms.fields import SentenceField
from desktop.forms.slots import Slot
from desktop.forms.table import Field
from desktop.theme import NOTES, SECOND
from desktop.widgets.inked import Inked, button
from desktop.widgets.labels import PlainLabel
from desktop.words import genes as words
from desktop.words.numbers import Numbers


class AllelesSlot(Slot):
    """One field an allele, with a word to take it out."""

    def __init__(self, field: Field, _document: Document, _numbers: Numbers, parent: QWidget) -> None:
        super().__init__(field, parent)
        self._panel = Inked(parent)
        self._alleles: tuple[str, ...] = ()
        self.fields: list[SentenceField] = []
        self.removes: list[QWidget] = []
        self._here = QVBoxLayout()
        self.add = button(words.ADD_ALLELE, "link", self._panel)
        layout = QVBoxLayout(self._panel)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        layout.addLayout(self._here)
        layout.addWidget(self.add)
        self.add.clicked.connect(self._add)

    @property
    def widget(self) -> QWidget:  # noqa: D102
        return self._panel

    def show_value(self, plan: Plan, subject: int) -> None:  # noqa: D102
        self._alleles = plan.genes[subject].alleles
        while len(self.fields) < len(self._alleles):
            self._make_line()
        for place, (edit, remove) in enumerate(zip(self.fields, self.removes, strict=True)):
            is_there = place < len(self._alleles)
            edit.setVisible(is_there)
            remove.setVisible(is_there and len(self._alleles) > 1)
            if is_there:
                edit.hold(self._alleles[place])
                edit.setAccessibleName(f"{words.ALLELES}: {self._alleles[place]}")
                remove.setAccessibleName(f"{words.REMOVE_ALLELE}: {self._alleles[place]}")
        self.add.setVisible(can_add_allele(plan, subject))
        self._panel.dress()

    def _make_line(self) -> None:
        edit = SentenceField(words.ALLELES, fonts.sans(fonts.FORM, bold=True), self._panel, most=160, quiet=True)
        remove = button(words.REMOVE_ALLELE, "link", self._panel)
        line = QHBoxLayout()
        line.addWidget(edit)
        line.addWidget(remove)
        line.addStretch(1)
        self._here.addLayout(line)
        self.fields.append(edit)
        self.removes.append(remove)
        edit.taken.connect(self._rename)
        remove.clicked.connect(self._remove)

    def _add(self) -> None:
        self.taken.emit(("add", "", ""))

    def _remove(self) -> None:
        place = next(i for i, one in enumerate(self.removes) if one is self.sender())
        self.taken.emit(("remove", self._alleles[place], ""))

    def _rename(self, text: str) -> None:
        place = next(i for i, one in enumerate(self.fields) if one is self.sender())
        self.taken.emit(("rename", self._alleles[place], text.strip()))


class GenotypesSlot(Slot):
    """One line a genotype: how it looks, and whether it never hatches."""

    def __init__(self, field: Field, _document: Document, _numbers: Numbers, parent: QWidget) -> None:
        super().__init__(field, parent)
        self._panel = Inked(parent)
        self._pairs: tuple[Pair, ...] = ()
        self._table: Table | None = None
        self.names: list[PlainLabel] = []
        self.looks: list[SentenceField] = []
        self.lethal: list[QCheckBox] = []
        self._grid = QGridLayout(self._panel)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(12)
        self._grid.setVerticalSpacing(4)
        self._grid.setColumnStretch(4, 1)

    @property
    def widget(self) -> QWidget:  # noqa: D102
        return self._panel

    def show_value(self, plan: Plan, subject: int) -> None:  # noqa: D102
        gene = plan.genes[subject]
        table = self._table = Table(gene, plan.species.sex_system)
        self._pairs = genotypes(plan, subject)
        while len(self.looks) < len(self._pairs):
            self._make_line()
        for place, (name, look, dead) in enumerate(zip(self.names, self.looks, self.lethal, strict=True)):
            is_there = place < len(self._pairs)
            for one in (name, look, dead):
                one.setVisible(is_there)
            if is_there:
                pair = self._pairs[place]
                said = words.genotype(pair, gene.alleles)
                name.setText(said)
                look.hold(form_name(table.form(pair)))
                look.setAccessibleName(f"{gene.name}: {said}")
                dead.setChecked(pair in table.lethal)
                dead.setAccessibleName(f"{gene.name}: {said}, {words.NEVER_HATCHES}")
        self._panel.dress()

    def _make_line(self) -> None:
        row = len(self.looks)
        name = PlainLabel(font=fonts.sans(fonts.FORM), ink=SECOND, parent=self._panel)
        look = SentenceField("", fonts.sans(fonts.FORM, bold=True), self._panel, most=240, quiet=True)
        look.setPlaceholderText(form_name(NORMAL))
        dead = QCheckBox(words.NEVER_HATCHES, self._panel)
        dead.setFont(fonts.sans(fonts.FORM))
        dead.setProperty("look", "check")
        for column, widget in enumerate((name, look, dead)):
            self._grid.addWidget(widget, row, column)
        self.names.append(name)
        self.looks.append(look)
        self.lethal.append(dead)
        look.taken.connect(self._look)
        dead.clicked.connect(self._kill)

    def _look(self, text: str) -> None:
        place = next(i for i, one in enumerate(self.looks) if one is self.sender())
        form = text.strip()
        self._take(place, NORMAL if form in ("", form_name(NORMAL)) else form)

    def _kill(self) -> None:
        place = next(i for i, one in enumerate(self.lethal) if one is self.sender())
        assert self._table is not None
        self._take(place, self._table.form(self._pairs[place]))

    def _take(self, place: int, form: str) -> None:
        self.taken.emit((self._pairs[place], form, self.lethal[place].isChecked()))


class KnownSlot(Slot):
    """What is known of a gene by its name, with sources; only to read."""

    def __init__(self, field: Field, _document: Document, _numbers: Numbers, parent: QWidget) -> None:
        super().__init__(field, parent)
        self.text = PlainLabel(font=fonts.sans(fonts.NOTE), ink=NOTES, parent=parent)
        self.text.setWordWrap(True)

    @property
    def widget(self) -> QWidget:  # noqa: D102
        return self.text

    def show_value(self, plan: Plan, subject: int) -> None:  # noqa: D102
        note = notes_of(plan).get(plan.genes[subject].id)
        self.text.setText("\n".join(words.known(note)) if note else "")
