"""The counts of a hatching day: a row per look, a stepper per sex."""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QGridLayout, QWidget

from core.explain.animals import form_name
from core.plan.book import Book
from core.plan.genotypes import NORMAL
from core.plan.model import AnySex, Forms, Plan, YoungSeen
from core.season.hatching import Look
from desktop import fonts
from desktop.forms.fields import SentenceChoice
from desktop.panels.charts.size import text_scale
from desktop.season.stepper import Stepper
from desktop.theme import NOTES, SECOND
from desktop.widgets.flow import Flow
from desktop.widgets.labels import PlainLabel
from desktop.words import hatched as words
from desktop.words.numbers import Numbers

_SEXES: tuple[tuple[AnySex, str], ...] = (
    ("male", words.MALES), ("female", words.FEMALES), ("any", words.NOT_SEXED),
)  # fmt: skip
_WIDEST_LOOK = 260


class YoungRows(QWidget):
    """Rows for the looks that are to be expected, and more that a person names; `changed` tells of every count."""

    changed = Signal()
    # There are new fields, which have yet to take on the page's colours.
    made = Signal()

    def __init__(self, numbers: Numbers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._numbers = numbers
        self._plan: Plan | None = None
        self.rows: list[_Row] = []
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(20)
        self._grid.setVerticalSpacing(4)
        self._grid.setColumnStretch(0, 1)
        for column, (_, sex) in enumerate(_SEXES, 2):
            self._grid.addWidget(PlainLabel(sex, font=fonts.sans(fonts.HEAD), ink=SECOND, parent=self), 0, column)

    def show_looks(self, plan: Plan, looks: tuple[Look, ...]) -> None:
        """Rows for other young; what was counted of a look that stays is kept."""
        self._plan = plan
        kept = {row.key: row.counts() for row in self.rows}
        named = [row for row in self.rows if row.is_named]
        for row in self.rows:
            if not row.is_named:
                row.drop()
        self.rows = []
        for look in looks:
            row = _Row(words.look_words(look.forms), words.likely(look.share, self._numbers), look.forms, self)
            row.set_counts(kept.get(row.key, {}))
            self.rows.append(row)
        self.rows += named
        self._place()

    def add_named(self, forms: Forms | None = None) -> None:
        """One more row, whose look a person names."""
        if self._plan is not None:
            self.rows.append(_NamedRow(self._plan, forms or {}, self))
            self._place()

    def young(self) -> tuple[YoungSeen, ...]:
        """What has been counted."""
        return tuple(seen for row in self.rows for seen in row.young())

    def show_young(self, young: tuple[YoungSeen, ...]) -> None:
        """Counts as a record has them."""
        self.clear()
        for seen in young:
            row = next((one for one in self.rows if one.forms() == seen.forms), None)
            if row is None:
                self.add_named(seen.forms)
                row = self.rows[-1]
            row.set_counts({seen.sex: seen.count + row.counts().get(seen.sex, 0)})

    def clear(self) -> None:
        """Nothing counted, and no row but those to be expected."""
        for row in self.rows:
            if row.is_named:
                row.drop()
        self.rows = [row for row in self.rows if not row.is_named]
        for row in self.rows:
            row.set_counts({sex: 0 for sex, _ in _SEXES})

    def _place(self) -> None:
        for at, row in enumerate(self.rows, 1):
            row.put(self._grid, at)
        self.made.emit()
        self.changed.emit()


class _Row:
    """One look."""

    is_named = False

    def __init__(self, look: str, share: str, forms: Forms, rows: YoungRows) -> None:
        self._forms = forms
        self.key = look
        self.look: QWidget = PlainLabel(look, font=fonts.sans(fonts.FORM, bold=True), parent=rows)
        self.share = PlainLabel(share, font=fonts.sans(fonts.HEAD), ink=NOTES, parent=rows)
        self.steppers = {sex: Stepper(words.count_name(look, name), rows) for sex, name in _SEXES}
        for stepper in self.steppers.values():
            stepper.changed.connect(rows.changed)

    def forms(self) -> Forms:
        """What the young look like, by gene."""
        return self._forms

    def counts(self) -> dict[AnySex, int]:
        """The counts by sex."""
        return {sex: stepper.value for sex, stepper in self.steppers.items()}

    def set_counts(self, counts: dict[AnySex, int]) -> None:
        """Other counts, for the sexes named."""
        for sex, count in counts.items():
            self.steppers[sex].set_value(count)

    def young(self) -> Iterator[YoungSeen]:
        """The counts as a record keeps them."""
        for sex, stepper in self.steppers.items():
            if stepper.value:
                yield YoungSeen(forms=self.forms(), count=stepper.value, sex=sex)

    def put(self, grid: QGridLayout, at: int) -> None:
        """Stands in a row of the grid."""
        grid.addWidget(self.look, at, 0)
        grid.addWidget(self.share, at, 1)
        for column, stepper in enumerate(self.steppers.values(), 2):
            grid.addWidget(stepper, at, column)
        for widget in (self.look, self.share, *self.steppers.values()):
            widget.show()

    def drop(self) -> None:
        """Goes from the page."""
        for widget in (self.look, self.share, *self.steppers.values()):
            widget.hide()
            widget.deleteLater()


class _NamedRow(_Row):
    """A look that a person names, gene by gene."""

    is_named = True

    def __init__(self, plan: Plan, forms: Forms, rows: YoungRows) -> None:
        super().__init__(words.OTHER_LOOK, "", forms, rows)
        self.look.hide()
        self.look.deleteLater()
        self.look = QWidget(rows)
        flow = Flow(self.look, gap=6)
        self.genes: dict[str, tuple[SentenceChoice, tuple[str, ...]]] = {}
        bold, most = fonts.sans(fonts.FORM, bold=True), round(_WIDEST_LOOK * text_scale())
        for gene, table in sorted(
            Book(plan).tables.items(), key=lambda item: [g.id for g in plan.genes].index(item[0])
        ):
            seen = (NORMAL, *sorted({form for sex in table.shown.values() for form in sex} - {NORMAL}))
            label = PlainLabel(table.gene.name or gene, font=fonts.sans(fonts.HEAD), ink=SECOND, parent=self.look)
            name = words.form_name(table.gene.name or gene)
            choice = SentenceChoice(
                name, bold, (words.NOT_LOOKED, *map(form_name, seen)), self.look, most=most, quiet=True
            )
            at = seen.index(forms[gene]) + 1 if forms.get(gene) in seen else 0
            choice.show_words((words.NOT_LOOKED, *map(form_name, seen)), at)
            choice.activated.connect(rows.changed)
            self.genes[gene] = (choice, seen)
            flow.addWidget(label)
            flow.addWidget(choice)

    def forms(self) -> Forms:
        return {
            gene: seen[choice.currentIndex() - 1]
            for gene, (choice, seen) in self.genes.items()
            if choice.currentIndex() > 0
        }
