"""What an animal carries: a row a gene, the trade name above, and what a percentage means below."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QVBoxLayout, QWidget

from core.explain.carrying import GeneRow, gene_rows, phase_rows, with_gene, with_phase
from core.explain.phases import PhaseRow
from core.plan.model import Carries, Plan, Sex
from desktop import fonts
from desktop.carrying.rows import ChoiceRow, Shown
from desktop.widgets.inked import Inked
from desktop.widgets.labels import PlainLabel
from desktop.widgets.runs_text import RunsText
from desktop.words import carrying as words
from desktop.words.animals import animal_title
from desktop.words.numbers import Numbers

# What a possible het is taken for until a percentage is typed.
_USUAL_PERCENT = 66.0


class CarriesPanel(Inked):
    """Holds a value and shows it; `edited` tells of another one, which counts once `show_carries` brings it back."""

    edited = Signal(object)

    def __init__(self, numbers: Numbers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._numbers = numbers
        self._plan: Plan | None = None
        self._carries: Carries = {}
        self._sex: Sex = "female"
        self._genes: tuple[GeneRow, ...] = ()
        self._sides: tuple[PhaseRow, ...] = ()
        self.rows: list[ChoiceRow] = []
        self._lines: list[QFrame] = []
        self.title = PlainLabel(font=fonts.serif(fonts.SENTENCE), parent=self)
        self.title.setWordWrap(True)
        self.meaning = RunsText(fonts.sans(fonts.FORM), fonts.sans(fonts.FORM, bold=True), self)
        self._rows_here = QVBoxLayout()
        self._rows_here.setSpacing(0)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(4)
        layout.addWidget(self.title)
        layout.addLayout(self._rows_here)
        layout.addWidget(self.meaning)
        layout.addStretch(1)

    def show_carries(self, plan: Plan, name: str, carries: Carries, sex: Sex, count: int) -> None:
        """Shows what `count` animals called `name` carry."""
        self._plan, self._carries, self._sex = plan, carries, sex
        self._genes, self._sides = gene_rows(plan, carries, sex), phase_rows(plan, carries)
        what = animal_title(plan, carries)
        self.title.setText(f"{name}: {what}" if name else what)
        shown = [
            *(self._of_gene(plan, row) for row in self._genes),
            *(self._of_sides(plan, row) for row in self._sides),
        ]
        self._fit(len(shown))
        for row, one in zip(self.rows, shown, strict=False):
            row.show_row(one)
        sentences = [words.about_possible(row, plan, count, sex, self._numbers) for row in self._genes]
        first = next((one for one in sentences if one), ())
        self.meaning.set_runs(first)
        self.meaning.setVisible(bool(first))
        self.dress()

    def refuse(self, sentence: str) -> None:
        """Says at the row changed last why it was not taken."""
        row = self.sender()
        if isinstance(row, ChoiceRow):
            row.refuse(sentence)

    def _of_gene(self, plan: Plan, row: GeneRow) -> Shown:
        percent = "" if row.percent is None else words.percent_text(row.percent, self._numbers)
        return Shown(
            title=row.gene.name,
            note=words.gene_note(plan, row, self._sex),
            labels=tuple(words.option_label(plan, row, option) for option in row.options),
            chosen=row.options.index(row.chosen) if row.chosen else None,
            as_written=row.as_written,
            percent=percent,
            percent_name=words.percent_name(row),
        )

    def _of_sides(self, plan: Plan, row: PhaseRow) -> Shown:
        return Shown(
            title=words.phase_title(plan, row),
            note=words.phase_note(),
            labels=tuple(words.phase_label(plan, row, phase) for phase in row.options),
            chosen=row.options.index(row.chosen) if row.chosen else None,
            as_written=row.as_written,
            quiet=len(row.options) - 1,
        )

    def _fit(self, wanted: int) -> None:
        """As many rows as are needed; those there stay, so that the one in use keeps its focus."""
        while len(self.rows) < wanted:
            row = ChoiceRow(self)
            row.chosen.connect(self._choose)
            row.percent_taken.connect(self._choose_percent)
            if self.rows:
                self._lines.append(_hairline(self))
                self._rows_here.addWidget(self._lines[-1])
            self._rows_here.addWidget(row)
            self.rows.append(row)
        for place, row in enumerate(self.rows):
            row.setVisible(place < wanted)
            if place:
                self._lines[place - 1].setVisible(place < wanted)

    def _choose(self, place: int) -> None:
        row = self.sender()
        if self._plan is None or not isinstance(row, ChoiceRow):
            return
        number = self.rows.index(row)
        if number < len(self._genes):
            gene = self._genes[number]
            option = gene.options[place]
            percent = (gene.percent or _USUAL_PERCENT) if option.otherwise else None
            self.edited.emit(with_gene(self._plan, self._carries, self._sex, gene.gene.id, option, percent))
        else:
            sides = self._sides[number - len(self._genes)]
            self.edited.emit(with_phase(self._plan, self._carries, sides, sides.options[place].genotype))

    def _choose_percent(self, percent: float) -> None:
        row = self.sender()
        if self._plan is None or not isinstance(row, ChoiceRow):
            return
        gene = self._genes[self.rows.index(row)]
        if gene.chosen is not None:
            self.edited.emit(with_gene(self._plan, self._carries, self._sex, gene.gene.id, gene.chosen, percent))


def _hairline(parent: QWidget) -> QFrame:
    line = QFrame(parent)
    line.setFrameShape(QFrame.Shape.NoFrame)
    line.setFixedHeight(1)
    line.setProperty("look", "hairline")
    return line
