"""What the customer has at home, said by taps: its sex, then each gene."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QButtonGroup, QVBoxLayout, QWidget

from core.explain.carrying import GeneRow, gene_rows, with_gene
from core.explain.options import Option
from core.plan.model import Carries, Sex
from desktop.counter import parts
from desktop.counter.stall import Stall
from desktop.counter.taps import Button
from desktop.counter.type import Type
from desktop.words import counter as words
from desktop.words.carrying import odds_label, option_label

# How possible hets are sold: from two hets, and from a het and a normal.
_POSSIBLE = (66.0, 50.0)
_SEXES: tuple[tuple[Sex, str], ...] = (("male", words.MALE), ("female", words.FEMALE))


class HomePage(QWidget):
    """Every tap counts at once; the way on is always open."""

    best_wanted = Signal()
    table_wanted = Signal()
    start_wanted = Signal()

    def __init__(self, type_: Type, stall: Stall, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._type, self._stall = type_, stall
        self.title = parts.title(type_)
        self._inside = QWidget()
        self._rows = QVBoxLayout(self._inside)
        self._rows.setSpacing(type_.px(6))
        self._rows.setContentsMargins(0, 0, type_.px(8), 0)
        self.choices: list[parts.Actions] = []
        self._groups: list[QButtonGroup] = []
        self._shown: tuple[object, ...] = ()
        self._picked: list[tuple[str, Option, float | None]] = []
        self.foot = parts.Actions(type_)
        self.best = self.foot.add(words.find_best("female"), "main")
        self.table = self.foot.add(words.pick_from_table("female"))
        self.start = self.foot.add(words.START_OVER)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(type_.px(12))
        layout.addWidget(self.title)
        layout.addWidget(parts.touched(self._inside, words.WHAT_IS_AT_HOME), 1)
        layout.addWidget(self.foot)
        self.best.clicked.connect(self.best_wanted)
        self.table.clicked.connect(self.table_wanted)
        self.start.clicked.connect(self.start_wanted)
        stall.changed.connect(self._follow)

    def _follow(self) -> None:
        home = self._stall.at_home
        if home is None:
            return
        plan = self._stall.plan
        self.title.setText(f"{words.WHAT_IS_AT_HOME}: {words.home_title(plan, home.sex, home.carries)}")
        for button, text in ((self.best, words.find_best(home.sex)), (self.table, words.pick_from_table(home.sex))):
            button.setText(text)
            button.setAccessibleName(text)
        rows = gene_rows(plan, home.carries, home.sex)
        wanted = (home.sex, plan.genes)
        if wanted != self._shown:
            self._shown = wanted
            self._build(rows)
        self._check(home.sex, rows)

    def _build(self, rows: tuple[GeneRow, ...]) -> None:
        while (item := self._rows.takeAt(0)) is not None:
            if (widget := item.widget()) is not None:
                widget.hide()
                widget.deleteLater()
        self.choices, self._groups = [], []
        sexes = self._choice(words.ITS_SEX)
        for sex, name in _SEXES:
            self._pickable(sexes, name, f"{words.ITS_SEX} {name}").clicked.connect(partial(self._stall.turn_home, sex))
        self._picked = []
        for row in rows:
            self._gene(row)
        self._rows.addStretch(1)

    def _gene(self, row: GeneRow) -> None:
        choice = self._choice(row.gene.name)
        for option in row.options:
            label = option_label(self._stall.plan, row, option)
            for percent in _POSSIBLE if option.otherwise else (None,):
                text = label if percent is None else odds_label(self._stall.plan, row, option, round(percent))
                made = self._pickable(choice, text, f"{row.gene.name}: {text}")
                made.clicked.connect(partial(self._say, row.gene.id, option, percent))
                self._picked.append((row.gene.id, option, percent))

    def _choice(self, name: str) -> parts.Actions:
        self._rows.addWidget(parts.head(self._type, name))
        made = parts.Actions(self._type)
        self._rows.addWidget(made)
        group = QButtonGroup(made)
        self._groups.append(group)
        self.choices.append(made)
        return made

    def _pickable(self, choice: parts.Actions, text: str, spoken: str) -> Button:
        made = choice.add(text)
        made.setCheckable(True)
        made.setAccessibleName(spoken)
        self._groups[-1].addButton(made)
        return made

    def _check(self, sex: Sex, rows: tuple[GeneRow, ...]) -> None:
        sexes, *genes = (group.buttons() for group in self._groups)
        sexes[0 if sex == "male" else 1].setChecked(True)
        buttons = [one for group in genes for one in group]
        now = {row.gene.id: (row.chosen, row.percent) for row in rows}
        for button, (gene, option, percent) in zip(buttons, self._picked, strict=True):
            chosen, share = now[gene]
            if option == chosen and (percent is None or percent == share):
                button.setChecked(True)

    def _say(self, gene: str, option: Option, percent: float | None) -> None:
        home = self._stall.at_home
        if home is not None:
            carries: Carries = with_gene(self._stall.plan, home.carries, home.sex, gene, option, percent)
            self._stall.bring_home(home.sex, carries)
