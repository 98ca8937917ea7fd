"""My animals: what each is believed to carry, whose young it is, and what one more clutch would tell."""

from __future__ import annotations

from PySide6.QtCore import QItemSelectionModel, Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QListWidget, QVBoxLayout, QWidget

from core.plan.model import Animal, Plan
from core.season.believed import Believed
from core.season.telling import Telling
from desktop import fonts
from desktop.forms.fields import SentenceChoice
from desktop.panels.charts.size import text_scale
from desktop.season.asking import Standing
from desktop.season.pedigree import Pedigree
from desktop.theme import NOTES, SECOND, colours_of
from desktop.widgets.figure_table import FigureTable
from desktop.widgets.flow import Flow
from desktop.widgets.inked import Inked, button
from desktop.widgets.labels import PlainLabel, wrapped
from desktop.widgets.tab_order import TabOrder
from desktop.words import my_animals as words
from desktop.words.births import Births
from desktop.words.numbers import Numbers

_LEAST_WIDTH, _LIST_WIDTH, _WIDEST = 200, 330, 640
# So many further normal young head the columns.
_YOUNG = (0, 1, 2, 3, 4, 6, 8, 10, 12)


class AnimalsSheet(Inked):
    """`asked` tells of a pair whose next clutch is of interest; `edit_asked` that the animals are to be changed."""

    asked = Signal(str, str)
    edit_asked = Signal()

    def __init__(self, numbers: Numbers, said: Births, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._numbers = numbers
        self._plan: Plan | None = None
        self._animals: tuple[Believed, ...] = ()
        self.list = QListWidget(self)
        self.list.setProperty("look", "list")
        self.list.setFrameShape(QFrame.Shape.NoFrame)
        self.list.setAccessibleName(words.ANIMALS_NAME)
        self.list.setFont(fonts.sans(fonts.FORM))
        # Short names leave the rest of a small window to what is told of one.
        self.list.setMinimumWidth(round(_LEAST_WIDTH * text_scale()))
        self.list.setMaximumWidth(round(_LIST_WIDTH * text_scale()))
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.edit = button(words.EDIT_ANIMALS, "link", self)
        self.name = wrapped("", fonts.serif(fonts.SENTENCE, bold=True))
        self.taken_for = wrapped("", fonts.sans(fonts.LEAD))
        self.beliefs = wrapped("", fonts.sans(fonts.FORM))
        self.pedigree = Pedigree(self)
        self.more = _OneMore(numbers, said, self)
        self._lay_out()
        self.list.currentRowChanged.connect(self._choose)
        self.edit.clicked.connect(self.edit_asked)
        self.more.mate.activated.connect(self._ask)
        self.dress()
        TabOrder(self).follow_the_eye()

    def dress(self) -> None:
        """Puts the colours on the table too."""
        super().dress()
        self.more.table.ink(colours_of(self.palette()))

    def show_standing(self, standing: Standing) -> None:
        """Other beliefs; the animal that is looked at stays."""
        at = self.chosen.animal.id if self.chosen else None
        self._plan, self._animals = standing.plan, standing.animals
        self.list.blockSignals(True)
        self.list.clear()
        for one in self._animals:
            self.list.addItem(f"{words.name_of(one.animal)}\n{words.short(standing.plan, one)}")
        row = next((i for i, one in enumerate(self._animals) if one.animal.id == at), 0)
        self.list.setCurrentRow(row, QItemSelectionModel.SelectionFlag.ClearAndSelect)
        self.list.blockSignals(False)
        self._choose()

    @property
    def chosen(self) -> Believed | None:
        """The animal that is looked at."""
        row = self.list.currentRow()
        return self._animals[row] if 0 <= row < len(self._animals) else None

    def show_tellings(self, tellings: tuple[Telling, ...]) -> None:
        """What one more clutch of the pair asked about would tell."""
        one, mate = self.chosen, self.more.chosen
        if self._plan is not None and one is not None and mate is not None:
            self.more.show_tellings(self._plan, one.animal, mate, tellings)

    def _choose(self) -> None:
        one, plan = self.chosen, self._plan
        if one is None or plan is None:
            return
        self.name.setText(words.name_of(one.animal))
        self.taken_for.setText(words.short(plan, one))
        told = words.beliefs_of(plan, one, self._numbers)
        self.beliefs.setText("\n".join(told))
        self.beliefs.setVisible(bool(told))
        self.pedigree.show_animal(plan, one.animal)
        self.more.offer([other.animal for other in self._animals if other.animal.sex != one.animal.sex])
        self._ask()

    def _ask(self) -> None:
        one, mate = self.chosen, self.more.chosen
        if one is not None and mate is not None:
            pair = (one.animal.id, mate.id) if one.animal.sex == "male" else (mate.id, one.animal.id)
            self.asked.emit(*pair)

    def _lay_out(self) -> None:
        left = QVBoxLayout()
        left.setSpacing(4)
        left.addWidget(self.edit)
        left.addWidget(self.list, 1)
        right = QVBoxLayout()
        right.setSpacing(8)
        for widget in (self.name, self.taken_for, self.beliefs):
            right.addWidget(widget)
        right.addSpacing(8)
        right.addWidget(PlainLabel(words.PEDIGREE, font=fonts.sans(fonts.HEADING, bold=True), parent=self))
        right.addWidget(self.pedigree)
        right.addSpacing(8)
        right.addWidget(self.more)
        right.addStretch(1)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(24, 0, 24, 0)
        layout.setSpacing(32)
        layout.addLayout(left)
        layout.addLayout(right, 1)


class _OneMore(QWidget):
    """What one more clutch with a mate would tell."""

    def __init__(self, numbers: Numbers, said: Births, parent: QWidget) -> None:
        super().__init__(parent)
        self._numbers, self._births = numbers, said
        self._mates: list[Animal] = []
        head = PlainLabel(said.one_more, font=fonts.sans(fonts.HEADING, bold=True), parent=self)
        self._with = PlainLabel(words.WITH, font=fonts.sans(fonts.FORM), ink=SECOND, parent=self)
        bold = fonts.sans(fonts.FORM, bold=True)
        self.mate = SentenceChoice(said.mate, bold, (), self, most=round(260 * text_scale()), quiet=True)
        self.said = wrapped("", fonts.sans(fonts.FORM))
        self.note = wrapped(words.AFTER_NORMAL, fonts.sans(fonts.HEAD), NOTES)
        self.table = FigureTable(words.AFTER_NORMAL, self)
        self.table.setMaximumWidth(round(_WIDEST * text_scale()))
        line = QWidget(self)
        flow = Flow(line, gap=6)
        for widget in (head, self._with, self.mate):
            flow.addWidget(widget)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(6)
        for part in (line, self.said, self.note, self.table):
            layout.addWidget(part)

    @property
    def chosen(self) -> Animal | None:
        """The mate."""
        at = self.mate.currentIndex()
        return self._mates[at] if 0 <= at < len(self._mates) else None

    def offer(self, mates: list[Animal]) -> None:
        """The animals it could be bred to; its mate of before stays."""
        kept = self.chosen
        self._mates = mates
        at = next((i for i, one in enumerate(mates) if kept is not None and one.id == kept.id), 0)
        self.mate.show_words(tuple(words.name_of(one) for one in mates), at if mates else -1)
        for one in (self.mate, self._with):
            one.setVisible(bool(mates))
        self._say("" if mates else words.NO_MATE)

    def show_tellings(self, plan: Plan, animal: Animal, mate: Animal, tellings: tuple[Telling, ...]) -> None:
        """A sentence and a row a gene."""
        open_ = [one for one in tellings if _is_open(one, animal)]
        sentences = [words.tells(plan, one, animal, mate, self._numbers) for one in open_]
        self._say("\n".join(sentences) or self._births.nothing_open)
        rows = [
            (words.het_of(plan, one.gene), *(words.tells_row(one, animal, n, self._numbers) for n in _YOUNG))
            for one in open_
        ]
        self.table.show_rows((words.YOUNG_HEAD, *map(str, _YOUNG)), rows)
        for part in (self.note, self.table):
            part.setVisible(bool(rows))

    def _say(self, text: str) -> None:
        self.said.setText(text)
        self.said.setVisible(bool(text))
        for part in (self.note, self.table):
            part.hide()


def _is_open(told: Telling, animal: Animal) -> bool:
    chances = told.sire if animal.sex == "male" else told.dam
    return bool(0 < chances[0] < 1 - 1e-9)
