"""A clutch on hatching day: the pair, the season, what hatched and what did not."""

from __future__ import annotations

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from core.plan.model import Animal, ClutchRecord, Plan
from core.season.hatching import Look
from desktop import fonts
from desktop.forms.fields import SentenceChoice
from desktop.panels.charts.size import text_scale
from desktop.season.stepper import Stepper
from desktop.season.young_rows import YoungRows
from desktop.theme import NOTES, SECOND
from desktop.widgets.flow import Flow
from desktop.widgets.inked import button
from desktop.widgets.labels import PlainLabel, wrapped
from desktop.words import hatched as words
from desktop.words import my_animals as animal_words
from desktop.words.births import Births
from desktop.words.numbers import Numbers

_NAME_WIDTH = 190
# A clutch from before the plan began can be entered, too.
_YEARS_BEFORE = 5
_SOON_MS = 120


class ClutchForm(QWidget):
    """`pair_chosen` tells that other young are to be expected, `changed` that something else was counted."""

    pair_chosen = Signal(str, str)
    changed = Signal()
    entered = Signal()

    def __init__(self, numbers: Numbers, said: Births, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._births = said
        self._plan: Plan | None = None
        self._sires: list[Animal] = []
        self._dams: list[Animal] = []
        self._seasons: list[int] = []
        # The number of the record that is being changed.
        self.number: int | None = None
        bold, most = fonts.sans(fonts.SENTENCE, bold=True), round(_NAME_WIDTH * text_scale())
        self.sire = SentenceChoice(said.sire, bold, (), self, most=most)
        self.dam = SentenceChoice(said.dam, bold, (), self, most=most)
        self.season = SentenceChoice(said.season, bold, (), self, most=round(300 * text_scale()))
        self.rows = YoungRows(numbers, self)
        self.another = button(words.ADD_LOOK, "link", self)
        self.slugs, self.unhatched = Stepper(words.SLUGS, self), Stepper(said.lost, self)
        self.sum = PlainLabel(font=fonts.sans(fonts.FORM, bold=True), parent=self)
        self.enter = button(said.enter, "main", self)
        self.clear = button(words.CLEAR, "plain", self)
        self._lay_out()
        self._soon = QTimer(self, singleShot=True, interval=_SOON_MS)
        self._connect()

    def show_plan(self, plan: Plan) -> None:
        """Other animals and seasons to choose from; what is chosen stays where it can."""
        sire, dam, season = self.chosen_sire, self.chosen_dam, self.chosen_season
        self._plan = plan
        self._sires = [one for one in plan.my_animals if one.sex == "male"]
        self._dams = [one for one in plan.my_animals if one.sex == "female"]
        self._seasons = list(range(-_YEARS_BEFORE + 1, plan.goal.seasons + 1))
        _fill(self.sire, self._sires, sire)
        _fill(self.dam, self._dams, dam)
        at = self._seasons.index(season) if season in self._seasons else self._seasons.index(1)
        self.season.show_words(tuple(words.season_words(one) for one in self._seasons), at)
        self._ask_looks()

    @property
    def chosen_sire(self) -> str | None:
        """The sire's id."""
        return _chosen(self._sires, self.sire)

    @property
    def chosen_dam(self) -> str | None:
        """The dam's id."""
        return _chosen(self._dams, self.dam)

    @property
    def chosen_season(self) -> int:
        """The season of the clutch."""
        at = self.season.currentIndex()
        return self._seasons[at] if 0 <= at < len(self._seasons) else 1

    @property
    def is_counting(self) -> bool:
        """Whether the last count is still to be told."""
        return self._soon.isActive()

    def show_looks(self, looks: tuple[Look, ...]) -> None:
        """What the young of the pair can look like."""
        if self._plan is not None:
            self.rows.show_looks(self._plan, looks)

    def record(self) -> ClutchRecord | None:
        """The clutch as it is counted now; None where nothing is."""
        young, slugs = self.rows.young(), self.slugs.value + self.unhatched.value
        if self.chosen_sire is None or self.chosen_dam is None or not (young or slugs):
            return None
        return ClutchRecord(
            sire=self.chosen_sire, dam=self.chosen_dam, season=self.chosen_season, young=young, slugs=slugs
        )

    def take_up(self, number: int, record: ClutchRecord) -> None:
        """A recorded clutch to be changed."""
        self.number = number
        _fill(self.sire, self._sires, record.sire)
        _fill(self.dam, self._dams, record.dam)
        if record.season in self._seasons:
            self.season.setCurrentIndex(self._seasons.index(record.season))
        self.slugs.set_value(record.slugs)
        self.unhatched.set_value(0)
        self.rows.show_young(record.young)
        self.enter.setText(words.ENTER_CHANGED)
        self.enter.setAccessibleName(words.ENTER_CHANGED)
        self._ask_looks()

    def start_over(self) -> None:
        """Nothing counted; the pair stays."""
        self.number = None
        self.rows.clear()
        for stepper in (self.slugs, self.unhatched):
            stepper.set_value(0)
        self.enter.setText(self._births.enter)
        self.enter.setAccessibleName(self._births.enter)
        self._tell()

    def _ask_looks(self) -> None:
        if self.chosen_sire is not None and self.chosen_dam is not None:
            self.pair_chosen.emit(self.chosen_sire, self.chosen_dam)
        self._tell()

    def _count(self) -> None:
        young = sum(seen.count for seen in self.rows.young())
        self.sum.setText(words.sums(young, self.slugs.value + self.unhatched.value))
        self.enter.setEnabled(self.record() is not None)
        self._soon.start()

    def _tell(self) -> None:
        self._count()

    def _connect(self) -> None:
        for choice in (self.sire, self.dam):
            choice.activated.connect(self._ask_looks)
        self.season.activated.connect(self._tell)
        self.rows.changed.connect(self._count)
        self.another.clicked.connect(self._add_look)
        for stepper in (self.slugs, self.unhatched):
            stepper.changed.connect(self._count)
        self.enter.clicked.connect(self.entered)
        self.clear.clicked.connect(self.start_over)
        self._soon.timeout.connect(self.changed)

    def _add_look(self) -> None:
        self.rows.add_named()

    def _lay_out(self) -> None:
        pair = QWidget(self)
        flow = Flow(pair, gap=8)
        for widget in (self.sire, _word("×", self), self.dam, _word(words.IN, self), self.season):
            flow.addWidget(widget)
        without = QHBoxLayout()
        without.setSpacing(10)
        for name, stepper in ((words.SLUGS, self.slugs), (self._births.lost, self.unhatched)):
            without.addWidget(PlainLabel(name, font=fonts.sans(fonts.FORM), parent=self))
            without.addWidget(stepper)
            without.addSpacing(12)
        without.addStretch(1)
        doing = QHBoxLayout()
        doing.setSpacing(12)
        doing.addWidget(self.enter)
        doing.addWidget(self.clear)
        doing.addSpacing(8)
        doing.addWidget(self.sum)
        doing.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(10)
        layout.addWidget(pair)
        layout.addWidget(self.rows)
        layout.addWidget(self.another)
        layout.addLayout(without)
        layout.addWidget(wrapped(words.NONE_TOLD, fonts.sans(fonts.HEAD), NOTES))
        layout.addLayout(doing)


def _word(text: str, parent: QWidget) -> PlainLabel:
    return PlainLabel(text, font=fonts.serif(fonts.SENTENCE), ink=SECOND, parent=parent)


def _fill(choice: SentenceChoice, animals: list[Animal], kept: str | None) -> None:
    at = next((i for i, one in enumerate(animals) if one.id == kept), 0)
    choice.show_words(tuple(animal_words.name_of(one) for one in animals), at if animals else -1)


def _chosen(animals: list[Animal], choice: SentenceChoice) -> str | None:
    at = choice.currentIndex()
    return animals[at].id if 0 <= at < len(animals) else None
