"""How animals are to look: trade names first, then a row a gene with the forms it can show."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from core.explain.showing import FormRow, form_rows, offered_combinations, with_form
from core.plan.model import AnySex, Combination, Forms, Plan
from desktop import fonts
from desktop.carrying.rows import ChoiceRow, Shown
from desktop.theme import NOTES
from desktop.widgets.inked import Inked
from desktop.widgets.labels import PlainLabel
from desktop.words import showing as words


class FormsPanel(Inked):
    """Holds a condition and shows it; `edited` tells of another one, which counts once `show_forms` brings it back."""

    edited = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._plan: Plan | None = None
        self._forms: Forms = {}
        self._genes: tuple[FormRow, ...] = ()
        self._combinations: tuple[Combination, ...] = ()
        self.rows: list[ChoiceRow] = []
        self.note = PlainLabel(font=fonts.sans(fonts.NOTE), ink=NOTES, parent=self)
        self.note.setWordWrap(True)
        self._rows_here = QVBoxLayout()
        self._rows_here.setSpacing(0)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(4)
        layout.addLayout(self._rows_here)
        layout.addWidget(self.note)

    def show_forms(self, plan: Plan, forms: Forms, sex: AnySex, *, combinations: bool = True) -> None:
        """Shows a condition on animals of a sex."""
        self._plan, self._forms = plan, forms
        self._genes = form_rows(plan, forms, sex)
        offered = offered_combinations(plan, sex) if combinations else ()
        self._combinations = offered[: words.MOST_COMBINATIONS]
        shown = [self._of_names()] if self._combinations else []
        shown += [self._of_gene(row) for row in self._genes]
        self._fit(len(shown))
        for row, one in zip(self.rows, shown, strict=False):
            row.show_row(one)
        self.note.setText(words.ANY_NOTE if plan.genes else words.NO_GENES)
        self.dress()

    def refuse(self, sentence: str) -> None:
        """Says at the row changed last why it was not taken."""
        row = self.sender()
        if isinstance(row, ChoiceRow):
            row.refuse(sentence)

    def _of_names(self) -> Shown:
        places = [place for place, one in enumerate(self._combinations) if one.forms == self._forms]
        return Shown(
            title=words.COMBINATIONS,
            note=words.COMBINATIONS_NOTE,
            labels=words.combination_labels(self._combinations),
            chosen=places[0] + 1 if places else 0,
        )

    def _of_gene(self, row: FormRow) -> Shown:
        chosen = 0 if row.chosen is None else row.forms.index(row.chosen) + 1 if row.chosen in row.forms else None
        written = row.chosen if chosen is None and row.chosen else ""
        return Shown(title=row.gene.name, note="", labels=words.option_labels(row), chosen=chosen, as_written=written)

    def _fit(self, wanted: int) -> None:
        """As many rows as are needed; those there stay, so that the one in use keeps its focus."""
        while len(self.rows) < wanted:
            row = ChoiceRow(self)
            row.chosen.connect(self._choose)
            self._rows_here.addWidget(row)
            self.rows.append(row)
        for place, row in enumerate(self.rows):
            row.setVisible(place < wanted)

    def _choose(self, place: int) -> None:
        row = self.sender()
        if self._plan is None or not isinstance(row, ChoiceRow):
            return
        number = self.rows.index(row) - (1 if self._combinations else 0)
        if number < 0:
            self.edited.emit(dict(self._combinations[place - 1].forms) if place else {})
        else:
            gene = self._genes[number]
            form = gene.forms[place - 1] if place else None
            self.edited.emit(with_form(self._plan, self._forms, gene.gene.id, form))
