"""Clutches whose every size has a chance of its own: lines that count once they sum to 100."""

from __future__ import annotations

from fractions import Fraction

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from core.explain.numbers import trimmed
from core.plan.chances import exact
from core.plan.limits import MOST_EGGS
from core.plan.model import Chance, Plan
from desktop import fonts
from desktop.document import Document
from desktop.forms.fields import SentenceField
from desktop.forms.kinds import Refused, Share, Whole
from desktop.forms.slots import Slot
from desktop.forms.table import Field
from desktop.theme import ERROR, SECOND
from desktop.widgets.inked import Inked, button
from desktop.widgets.labels import PlainLabel
from desktop.words import assumptions as words
from desktop.words.numbers import Numbers

_Row = tuple[int, Chance]


class CountsSlot(Slot):
    """Keeps the lines as typed; the plan takes them when they make sense together."""

    def __init__(self, field: Field, _document: Document, numbers: Numbers, parent: QWidget) -> None:
        super().__init__(field, parent)
        self._numbers = numbers
        self._panel = Inked(parent)
        self._rows: list[_Row] = []
        self._held: dict[str, Chance] | None = None
        self.lines: list[_CountLine] = []
        self.add = button(words.ADD_SIZE, "link", self._panel)
        self.why = PlainLabel(font=fonts.sans(fonts.HEAD), ink=ERROR, parent=self._panel)
        self.why.setWordWrap(True)
        self.why.hide()
        self._lines_here = QVBoxLayout()
        self._lines_here.setSpacing(2)
        layout = QVBoxLayout(self._panel)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addLayout(self._lines_here)
        layout.addWidget(self.why)
        layout.addWidget(self.add)
        self.add.clicked.connect(self._add)

    @property
    def widget(self) -> QWidget:  # noqa: D102
        return self._panel

    def show_value(self, plan: Plan, _subject: int) -> None:  # noqa: D102
        counts = plan.species.clutch.counts
        if counts is not None and counts != self._held:
            self._held = dict(counts)
            self._rows = [(int(size), share) for size, share in counts.items()]
            self._say("")
            self._show_rows()

    def _show_rows(self) -> None:
        while len(self.lines) < len(self._rows):
            line = _CountLine(self._panel)
            line.eggs.taken.connect(self._take_size)
            line.share.taken.connect(self._take_share)
            line.remove.clicked.connect(self._remove)
            self.lines.append(line)
            self._lines_here.addWidget(line)
        for line, row in zip(self.lines, self._rows, strict=False):
            line.show_row(row, self._numbers)
        for place, line in enumerate(self.lines):
            line.setVisible(place < len(self._rows))
        self._panel.dress()

    def _take_size(self, text: str) -> None:
        place = self._place()
        size = Whole().read(text)
        if isinstance(size, Refused) or not 0 <= size <= MOST_EGGS:
            self.lines[place].eggs.set_refused(True)
            self._say(size.sentence if isinstance(size, Refused) else words.most_eggs(MOST_EGGS))
            return
        self._rows[place] = (size, self._rows[place][1])
        self._try()

    def _take_share(self, text: str) -> None:
        place = self._place()
        share = Share().read(text)
        if isinstance(share, Refused) or not 0 <= exact(share) <= 1:
            self.lines[place].share.set_refused(True)
            self._say(share.sentence if isinstance(share, Refused) else words.SHARE_BOUNDS)
            return
        self._rows[place] = (self._rows[place][0], share)
        self._try()

    def _place(self) -> int:
        sender = self.sender()
        return next(i for i, line in enumerate(self.lines) if sender in (line.eggs, line.share, line.remove))

    def _add(self) -> None:
        largest = max((size for size, _ in self._rows), default=-1)
        missing = 1 - sum((exact(share) for _, share in self._rows), Fraction(0))
        self._rows.append((min(largest + 1, MOST_EGGS), float(max(missing, Fraction(0)))))
        self._try()
        self.lines[len(self._rows) - 1].eggs.setFocus()

    def _remove(self) -> None:
        if len(self._rows) > 1:
            del self._rows[self._place()]
            self._try()

    def _try(self) -> None:
        """Has the lines taken if they make sense together, else says why not."""
        self._show_rows()
        sizes = [size for size, _ in self._rows]
        twice = next((size for size in sizes if sizes.count(size) > 1), None)
        total = sum((exact(share) for _, share in self._rows), Fraction(0))
        if twice is not None:
            self._say(words.doubled_size(twice))
        elif abs(total - 1) > Fraction(1, 10**9):
            missing = float((1 - total) * 100)
            self._say(words.sum_of_shares(self._percent(float(total * 100)), missing, self._percent(abs(missing))))
        else:
            self._say("")
            self._held = {str(size): share for size, share in sorted(self._rows)}
            self.taken.emit(self._held)

    def _percent(self, value: float) -> str:
        return trimmed(value, 4, self._numbers)

    def _say(self, sentence: str) -> None:
        self.why.setText(sentence)
        self.why.setVisible(bool(sentence))


class _CountLine(QWidget):
    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        bold = fonts.sans(fonts.FORM, bold=True)
        self.eggs = SentenceField(words.SIZE_NAME, bold, self, quiet=True)
        self.share = SentenceField(words.SIZE_SHARE_NAME, bold, self, quiet=True)
        self.remove = button(words.REMOVE, "link", self)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(6)
        for part in (self.eggs, words.EGGS_IN, self.share, words.OF_100_CLUTCHES, self.remove):
            shown = part if isinstance(part, QWidget) else self._word(part)
            layout.addWidget(shown)
        layout.addStretch(1)

    def show_row(self, row: _Row, numbers: Numbers) -> None:
        """Shows a size and its chance."""
        size = numbers.whole(row[0])
        self.eggs.hold(size)
        self.share.hold(Share().show(row[1], numbers))
        self.remove.setAccessibleName(words.remove_size(size))

    def _word(self, text: str) -> PlainLabel:
        return PlainLabel(text, font=fonts.sans(fonts.FORM), ink=SECOND, parent=self)
