"""Who is in a shape: an animal and a number per role, young to hold back, the season of buying."""

from __future__ import annotations

from collections.abc import Callable

import msgspec
from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from core.plan.model import Held, Owned, Plan, Route
from core.routes.lists import Candidate
from desktop import fonts
from desktop.forms.fields import SentenceChoice, SentenceField
from desktop.locale_reading import read_number
from desktop.new_route.trial import Draft
from desktop.theme import ERROR, NOTES, SECOND
from desktop.widgets.labels import PlainLabel
from desktop.words import forms as form_words
from desktop.words import new_route as words
from desktop.words.numbers import Numbers

_HEAD_WIDTH = 168
_MOST = 380


class Line(msgspec.Struct, frozen=True):
    """What one line shows: a number, the animals to choose from (none for young and seasons), a note."""

    id: str
    head: str
    number: int | None
    name: str
    fits: tuple[Candidate, ...] = ()
    chosen: Candidate | None = None
    note: str = ""


def lines(draft: Draft, route: Route) -> tuple[Line, ...]:
    """The lines of a shape that is filled as `route`."""
    found = []
    for group in route.groups:
        role = next((role for role in draft.proposal.roles if role.id == group.id), None)
        mine = isinstance(group, Owned) and group.animals is not None
        count = group.count or 1
        note = words.held_note(group) if isinstance(group, Held) else ""
        if role is not None:
            note = words.only_so_many(role.chosen, count)
        found.append(
            Line(
                group.id,
                words.ROLES.get(group.id, group.id),
                None if mine else count,
                words.count_name(group.id),
                role.fits if role else (),
                role.chosen if role else None,
                note,
            )
        )
    if route.buy_outright is not None and route.groups:
        found.append(Line(_SEASON, words.BUY_IN, route.buy_outright, words.BUY_IN_NAME))
    return tuple(found)


_SEASON = "season"


class RoleLine(QWidget):
    """One line; `counted` and `chosen` tell of what was typed or picked."""

    counted = Signal(str, int)
    bought_in = Signal(int)
    chosen = Signal(str, str)

    def __init__(self, numbers: Numbers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._numbers = numbers
        self._line = Line("", "", None, "")
        self._head = PlainLabel(font=fonts.sans(fonts.FORM), ink=SECOND, parent=self)
        self._head.setMinimumWidth(_HEAD_WIDTH)
        bold = fonts.sans(fonts.FORM, bold=True)
        self.number = SentenceField("", bold, self, quiet=True)
        self.choice = SentenceChoice("", bold, (), self, most=_MOST, quiet=True)
        self._note = PlainLabel(font=fonts.sans(fonts.HEAD), ink=NOTES, parent=self)
        self._refusal = PlainLabel(font=fonts.sans(fonts.HEAD), ink=ERROR, parent=self)
        self._refusal.hide()
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(8)
        for widget in (self._head, self.number, self.choice, self._note, self._refusal):
            layout.addWidget(widget)
        layout.addStretch(1)
        self.number.taken.connect(self._taken)
        self.choice.activated.connect(self._pick)

    def show_line(self, plan: Plan, line: Line) -> None:
        """Shows what stands there; what is being typed is left alone."""
        self._line = line
        self._head.setText(line.head)
        self.number.setVisible(line.number is not None)
        self.number.setAccessibleName(line.name)
        self.number.hold("" if line.number is None else self._numbers.whole(line.number))
        self.choice.setVisible(bool(line.fits))
        self.choice.say(words.role_name(line.id))
        if line.fits:
            names = tuple(words.candidate(plan, one, self._numbers) for one in line.fits)
            self.choice.show_words(names, line.fits.index(line.chosen) if line.chosen else -1)
        self._note.setText(line.note)
        self._refusal.hide()

    def refuse(self, sentence: str) -> None:
        """Says why a number was not taken."""
        self.number.set_refused(True)
        self._refusal.setText(sentence)
        self._refusal.show()

    def _taken(self, text: str) -> None:
        value = read_number(text, whole=True)
        if value is None:
            self.refuse(form_words.not_a_number(text, whole=True))
        elif self._line.id == _SEASON:
            self.bought_in.emit(int(value))
        else:
            self.counted.emit(self._line.id, int(value))

    def _pick(self, at: int) -> None:
        if 0 <= at < len(self._line.fits):
            self.chosen.emit(self._line.id, self._line.fits[at].key)


class Roles(QWidget):
    """As many lines as the shape has roles; lines are kept and filled anew, so that nothing loses the keyboard."""

    def __init__(self, numbers: Numbers, connect: Callable[[RoleLine], None], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._numbers, self._connect = numbers, connect
        self.lines: list[RoleLine] = []
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(6)

    def show_lines(self, plan: Plan, shown: tuple[Line, ...]) -> bool:
        """Shows these; whether lines had to be made."""
        missing = len(shown) - len(self.lines)
        for _ in range(missing):
            line = RoleLine(self._numbers, self)
            self._connect(line)
            self.lines.append(line)
            self._layout.addWidget(line)
        for place, line in enumerate(self.lines):
            line.setVisible(place < len(shown))
            if place < len(shown):
                line.show_line(plan, shown[place])
        return missing > 0
