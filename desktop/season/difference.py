"""The difference that one recorded clutch made: to the animals, to each route's chance, to the answer."""

from __future__ import annotations

from PySide6.QtWidgets import QVBoxLayout, QWidget

from desktop import fonts
from desktop.findings import Finding, Verdict, findings, verdict
from desktop.season.asking import Difference
from desktop.theme import SECOND
from desktop.widgets.figure_table import FigureTable
from desktop.widgets.labels import PlainLabel, wrapped
from desktop.words import hatched as words
from desktop.words import my_animals as animal_words
from desktop.words.answer import answer
from desktop.words.births import Births
from desktop.words.numbers import Numbers
from desktop.words.runs import plain


class DifferenceView(QWidget):
    """Before and now, side by side."""

    def __init__(self, numbers: Numbers, said: Births, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._numbers = numbers
        form = fonts.sans(fonts.FORM)
        self.head = wrapped(said.difference, fonts.sans(fonts.HEADING, bold=True))
        self.state = wrapped("", form, SECOND)
        self.animals, self.answer = wrapped("", form), wrapped("", form)
        self.routes = FigureTable(words.FOR_ROUTES, self)
        self._heads = {part: PlainLabel(part, font=fonts.sans(fonts.FORM, bold=True), parent=self) for part in _PARTS}
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(6)
        layout.addWidget(self.head)
        layout.addWidget(self.state)
        for part, widget in zip(_PARTS, (self.animals, self.routes, self.answer), strict=True):
            layout.addWidget(self._heads[part])
            layout.addWidget(widget)
        self.say("")

    def say(self, text: str) -> None:
        """A sentence in place of the figures."""
        self.state.setText(text)
        self.state.setVisible(bool(text))
        for widget in (*self._heads.values(), self.animals, self.routes, self.answer):
            widget.hide()

    def show_difference(self, made: Difference, now: tuple[Finding, ...], decided: Verdict) -> None:
        """What it made; `now` and `decided`: the answers with the clutch."""
        plan, numbers = made.plan, self._numbers
        moved = [animal_words.change_words(plan, change, numbers) for change in made.changes]
        self.animals.setText("\n".join(moved) or words.SAYS_NOTHING)
        before = findings(made.without, {one.id: one for one in made.before})
        rows = [row for one in now if (row := self._row(one, before)) is not None]
        self.state.setText("" if rows else words.NO_ROUTE_OF_MINE)
        self.state.setVisible(not rows)
        self.routes.show_rows((words.ROUTE, words.BEFORE, words.NOW), rows)
        first = answer(made.without, before, verdict(before, complete=True), numbers)
        second = answer(plan, now, decided, numbers)
        same = plain(first.head) == plain(second.head)
        said = [words.still(plain(second.head))] if same else words.answers(plain(first.head), plain(second.head))
        self.answer.setText("\n".join(said))
        for widget in (*self._heads.values(), self.animals, self.answer):
            widget.show()
        self.routes.setVisible(bool(rows))
        self._heads[words.FOR_ROUTES].setVisible(bool(rows))

    def _row(self, one: Finding, before: tuple[Finding, ...]) -> tuple[str, str, str] | None:
        old = next((other for other in before if other.id == one.id), None)
        if old is None or old.result is None or one.result is None or abs(old.chance - one.chance) < 1e-9:
            return None
        return (one.name, *words.route_change(old.chance, one.chance, self._numbers))


_PARTS = (words.FOR_ANIMALS, words.FOR_ROUTES, words.FOR_ANSWER)
