"""Which young are held back: for one place in the order of preference, a row a gene with the forms there are."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from core.explain.animals import form_name
from core.plan.book import Book
from core.plan.genotypes import NORMAL
from core.plan.model import Forms, Gene, Held, Plan
from desktop import fonts
from desktop.carrying.rows import ChoiceRow, Shown
from desktop.theme import SECOND
from desktop.widgets.labels import PlainLabel
from desktop.words import editor as words
from desktop.words import editor_details as said


class LooksPanel(QWidget):
    """`edited` tells the place in the order and the forms wanted there."""

    edited = Signal(int, object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._place = 0
        self._plan: Plan | None = None
        self._group: Held | None = None
        self._options: list[tuple[str, ...]] = []
        self.rows: list[ChoiceRow] = []
        self.head = PlainLabel(font=fonts.sans(fonts.FORM), ink=SECOND, parent=self)
        self.head.setWordWrap(True)
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(0)
        self._layout.addWidget(self.head)

    def look_at(self, place: int) -> None:
        """Looks at another place in the order of preference."""
        self._place = place
        self.show_again()

    def show_again(self) -> None:
        """Shows what the plan says, after something was not taken."""
        if self._plan is not None and self._group is not None:
            self.show_looks(self._plan, self._group)

    def show_looks(self, plan: Plan, group: Held) -> None:
        """Shows the looks of young held back."""
        self._plan, self._group = plan, group
        self._place = min(self._place, len(group.pick) - 1)
        self.head.setText(said.looks_head(self._place, len(group.pick)))
        forms = group.pick[self._place]
        tables = Book(plan).tables
        self._options = [_forms(tables[gene.id].shown[group.sex]) for gene in plan.genes]
        self._fit(len(plan.genes))
        for gene, row, options in zip(plan.genes, self.rows, self._options, strict=False):
            row.show_row(_shown(gene, options, forms))

    def _fit(self, wanted: int) -> None:
        while len(self.rows) < wanted:
            row = ChoiceRow(self)
            row.chosen.connect(self._choose)
            self._layout.addWidget(row)
            self.rows.append(row)
        for place, row in enumerate(self.rows):
            row.setVisible(place < wanted)

    def _choose(self, option: int) -> None:
        row = self.sender()
        if self._plan is None or self._group is None or not isinstance(row, ChoiceRow):
            return
        number = self.rows.index(row)
        gene = self._plan.genes[number].id
        forms: Forms = {key: form for key, form in self._group.pick[self._place].items() if key != gene}
        if option:
            forms[gene] = self._options[number][option - 1]
        order = [one.id for one in self._plan.genes]
        self.edited.emit(self._place, dict(sorted(forms.items(), key=lambda item: order.index(item[0]))))


def _forms(shown: frozenset[str]) -> tuple[str, ...]:
    return (*([NORMAL] if NORMAL in shown else []), *sorted(shown - {NORMAL}))


def _shown(gene: Gene, options: tuple[str, ...], forms: Forms) -> Shown:
    wanted = forms.get(gene.id)
    chosen = 0 if wanted is None else options.index(wanted) + 1 if wanted in options else None
    return Shown(gene.name, "", (words.EITHER, *map(form_name, options)), chosen)
