"""The cautions of a route, then those of the plan, then what always holds."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QScrollArea, QVBoxLayout, QWidget

from core.advice.caution import Caution
from core.advice.standing import STANDING
from desktop import fonts
from desktop.cautions.row import CautionRow
from desktop.theme import SECOND
from desktop.widgets.inked import Inked
from desktop.widgets.labels import PlainLabel
from desktop.words import cautions as words


class CautionSheet(QScrollArea):
    """Rows stay where they are while the figures in them change."""

    marked = Signal(str, bool)
    unfolded = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setWidgetResizable(True)
        # It follows what has the focus by itself.
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setAccessibleName(words.TITLE)
        self._body = Inked()
        self._nothing = PlainLabel(font=fonts.sans(fonts.FORM), ink=SECOND)
        self._of_route = _Rows()
        self._plan_head = _head(words.OF_PLAN)
        self._of_plan = _Rows()
        self._standing = _Rows()
        layout = QVBoxLayout(self._body)
        layout.setContentsMargins(0, 4, 8, 8)
        layout.setSpacing(2)
        parts = (self._nothing, self._of_route, self._plan_head, self._of_plan, _head(words.ALWAYS), self._standing)
        for part in parts:
            layout.addWidget(part)
        layout.addStretch(1)
        for rows in (self._of_route, self._of_plan):
            rows.marked.connect(self.marked)
            rows.unfolded.connect(self.unfolded)
        self._standing.show_rows([(one.sentence, one.sentence, one.why, one.source, None) for one in STANDING])
        self.setWidget(self._body)
        self._body.dress()

    def show_cautions(
        self, of_route: Sequence[Caution] | None, of_plan: Sequence[Caution], read: Collection[str]
    ) -> None:
        """Shows them; None for a route whose cautions are not known yet."""
        self._nothing.setText(words.WAITING if of_route is None else words.NONE_FOUND)
        self._nothing.setVisible(not of_route)
        for rows, shown in ((self._of_route, of_route or ()), (self._of_plan, of_plan)):
            rows.show_rows([(one.key, one.sentence, one.why, one.source, one.key in read) for one in shown])
        self._plan_head.setVisible(bool(of_plan))

    def add(self, key: str, text: str) -> None:
        """One more sentence to a caution, if it is in sight."""
        for row in self.rows():
            if row.key == key:
                row.add(text)

    def rows(self) -> list[CautionRow]:
        """Those in sight, from the top."""
        return [*self._of_route.shown(), *self._of_plan.shown()]


# Key, sentence, why, source, and whether it was read (None: cannot be marked).
_Said = tuple[str, str, str, str, bool | None]


class _Rows(QWidget):
    marked = Signal(str, bool)
    unfolded = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self._rows: list[CautionRow] = []
        self._many = 0
        # Kept by caution, not by row: a row tells another caution once one comes or goes above it.
        self._open: set[str] = set()
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(0)

    def show_rows(self, said: Sequence[_Said]) -> None:
        while len(self._rows) < len(said):
            row = CautionRow(self)
            row.marked.connect(self.marked)
            row.turned.connect(self._turn)
            self._rows.append(row)
            self._layout.addWidget(row)
        self._many = len(said)
        for row, (key, sentence, why, source, read) in zip(self._rows, said, strict=False):
            row.show_caution(key, sentence, why, source, read=read, unfolded=key in self._open)
        for place, row in enumerate(self._rows):
            row.setVisible(place < self._many)

    def _turn(self, key: str, is_open: bool) -> None:
        if not is_open:
            self._open.discard(key)
            return
        self._open.add(key)
        self.unfolded.emit(key)

    def shown(self) -> list[CautionRow]:
        return self._rows[: self._many]


def _head(text: str) -> PlainLabel:
    label = PlainLabel(text, font=fonts.sans(fonts.HEAD, bold=True), ink=SECOND)
    label.setContentsMargins(0, 8, 0, 2)
    return label
