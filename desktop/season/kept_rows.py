"""The young that have been held back so far, one line each."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from core.plan.model import Animal, Held, Plan, Route
from core.season.carry_on import KeptYoung, possible_parents
from desktop import fonts
from desktop.forms.fields import SentenceChoice, SentenceField
from desktop.panels.charts.size import text_scale
from desktop.theme import NOTES, SECOND
from desktop.widgets.flow import Flow
from desktop.widgets.inked import button
from desktop.widgets.labels import PlainLabel
from desktop.words import carry_on as words
from desktop.words import hatched as hatched_words
from desktop.words import my_animals as animal_words

_NAME_WIDTH = 200


class KeptRows(QWidget):
    """A part per hold group of a route; `changed` tells of anything said, `made` of new fields."""

    changed = Signal()
    made = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.groups: list[_Group] = []
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(8)
        self._none = PlainLabel(words.NO_HELD, font=fonts.sans(fonts.FORM), ink=NOTES, parent=self)
        self._layout.addWidget(self._none)

    def show_route(self, route: Route | None) -> None:
        """The hold groups of another route, nothing said of them yet."""
        for group in self.groups:
            group.hide()
            group.deleteLater()
        held = [one for one in route.groups if isinstance(one, Held)] if route is not None else []
        self.groups = [_Group(one, self) for one in held]
        self._none.setVisible(not self.groups)
        for group in self.groups:
            self._layout.addWidget(group)
            group.changed.connect(self.changed)
            group.made.connect(self.made)
        self.made.emit()

    def show_parents(self, plan: Plan, route: Route, seasons: int) -> None:
        """Who the parents can be, and the seasons that have gone by."""
        kept = self.kept()
        for group in self.groups:
            group.show_parents(possible_parents(plan, route.id, seasons, kept, group.held.id), seasons)

    def kept(self) -> dict[str, tuple[KeptYoung, ...]]:
        """What was said, by hold group."""
        return {group.held.id: tuple(row.young() for row in group.rows) for group in self.groups if group.rows}


class _Group(QWidget):
    changed = Signal()
    made = Signal()

    def __init__(self, held: Held, parent: QWidget) -> None:
        super().__init__(parent)
        self.held = held
        self.rows: list[_Young] = []
        self._animals: tuple[Animal, ...] = ()
        self._seasons = 1
        self.head = PlainLabel(words.held_words(held, 0), font=fonts.sans(fonts.FORM, bold=True), parent=self)
        self.add, self.less = button(words.ONE_MORE_KEPT, "link", self), button(words.ONE_LESS_KEPT, "link", self)
        line = QWidget(self)
        flow = Flow(line, gap=12)
        for widget in (self.head, self.add, self.less):
            flow.addWidget(widget)
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(2)
        self._layout.addWidget(line)
        self.add.clicked.connect(self._add)
        self.less.clicked.connect(self._drop)
        self._show()

    def show_parents(self, animals: tuple[Animal, ...], seasons: int) -> None:
        """Who the parents can be, likeliest first, and the seasons that have gone by."""
        self._animals, self._seasons = animals, seasons
        for row in self.rows:
            row.show_parents(animals, seasons)

    def _add(self) -> None:
        row = _Young(self.held, self)
        row.show_parents(self._animals, self._seasons)
        row.changed.connect(self.changed)
        self.rows.append(row)
        self._layout.addWidget(row)
        self._show()
        self.made.emit()
        self.changed.emit()

    def _drop(self) -> None:
        row = self.rows.pop()
        row.hide()
        row.deleteLater()
        self._show()
        self.changed.emit()

    def _show(self) -> None:
        self.head.setText(words.held_words(self.held, len(self.rows)))
        self.add.setEnabled(len(self.rows) < self.held.count)
        self.less.setVisible(bool(self.rows))


class _Young(QWidget):
    """One young: its look, its season, its parents, its name."""

    changed = Signal()

    def __init__(self, held: Held, parent: QWidget) -> None:
        super().__init__(parent)
        self._looks = [{}, *(look for look in held.pick if look)]
        self._sires: list[Animal] = []
        self._dams: list[Animal] = []
        self._name = ""
        bold, most = fonts.sans(fonts.FORM, bold=True), round(_NAME_WIDTH * text_scale())
        looks = (hatched_words.NOT_LOOKED, *(hatched_words.look_words(look) for look in self._looks[1:]))
        self.look = SentenceChoice(words.KEPT_LOOK, bold, looks, self, most=most, quiet=True)
        self.look.show_words(looks, min(1, len(looks) - 1))
        self.season = SentenceChoice(words.KEPT_SEASON, bold, ("1",), self, quiet=True)
        self.sire = SentenceChoice(words.KEPT_SIRE, bold, (), self, most=most, quiet=True)
        self.dam = SentenceChoice(words.KEPT_DAM, bold, (), self, most=most, quiet=True)
        self.name = SentenceField(words.KEPT_NAME, bold, self, most=most, quiet=True)
        self.name.setPlaceholderText(words.NO_NAME)
        flow = Flow(self, gap=6)
        for part in (
            words.KEPT_A, self.look, words.FROM_SEASON, self.season, words.BY, self.sire, "×", self.dam, ",",
            words.CALLED, self.name,
        ):  # fmt: skip
            flow.addWidget(_word(part, self) if isinstance(part, str) else part)
        for choice in (self.look, self.season, self.sire, self.dam):
            choice.activated.connect(self.changed)
        self.name.taken.connect(self._call)

    def show_parents(self, animals: tuple[Animal, ...], seasons: int) -> None:
        """Who the parents can be, and the seasons that have gone by; what was chosen stays where it can."""
        sire, dam, at = (
            self._chosen(self._sires, self.sire),
            self._chosen(self._dams, self.dam),
            self.season.currentIndex(),
        )
        self._sires = [one for one in animals if one.sex == "male"]
        self._dams = [one for one in animals if one.sex == "female"]
        self.season.show_words(tuple(str(season) for season in range(1, seasons + 1)), min(max(at, 0), seasons - 1))
        for choice, those, kept in ((self.sire, self._sires, sire), (self.dam, self._dams, dam)):
            place = next((i for i, one in enumerate(those) if one.id == kept), 0)
            choice.show_words(tuple(animal_words.name_of(one) for one in those), place if those else -1)

    def young(self) -> KeptYoung:
        """What was said of it."""
        return KeptYoung(
            forms=self._looks[self.look.currentIndex()],
            season=self.season.currentIndex() + 1,
            sire=self._chosen(self._sires, self.sire),
            dam=self._chosen(self._dams, self.dam),
            name=self._name,
        )

    def _call(self, name: str) -> None:
        self._name = name.strip()
        self.name.hold(self._name)
        self.changed.emit()

    @staticmethod
    def _chosen(animals: list[Animal], choice: SentenceChoice) -> str | None:
        at = choice.currentIndex()
        return animals[at].id if 0 <= at < len(animals) else None


def _word(text: str, parent: QWidget) -> PlainLabel:
    return PlainLabel(text, font=fonts.sans(fonts.FORM), ink=SECOND, parent=parent)
