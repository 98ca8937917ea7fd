"""How wide the columns of the route list are: for their heads and what stands in them, at any text size."""

from __future__ import annotations

import math
from collections.abc import Iterable

from PySide6.QtCore import Qt
from PySide6.QtGui import QFont, QFontMetricsF

from desktop import fonts
from desktop.panels.charts.size import text_scale
from desktop.panels.routes.columns import BUYS, CAUTIONS, CHANCE, COLUMNS, ROUTE, ROUTE_AT, WITH_BUDGET, Column, fitting
from desktop.panels.routes.delegate import NAME_LEFT, NOTE_GAP, NOTE_ROOM, PAD, figure_font, note_font, pill_room
from desktop.panels.routes.header import ARROW
from desktop.panels.routes.model import RouteModel

# The least and the most room for a name, for words of what is bought and for cautions; longer ones are cut short.
_NAME = 132.0
_LEAST = {BUYS: 240.0, CAUTIONS: 120.0}
_MOST = {ROUTE: 310.0, BUYS: 420.0, CAUTIONS: 250.0}
_BUYS_AT, _CAUTIONS_AT = COLUMNS.index(BUYS), COLUMNS.index(CAUTIONS)

# The text, the note and the word behind a text; all that a width depends on within a column.
_Told = tuple[str, str, str]


class Widths:
    """Columns only grow, so that an answer that comes in moves as little as can be."""

    def __init__(self) -> None:
        self._natural = [_usual(column) for column in COLUMNS]
        self._heads = [""] * len(COLUMNS)
        self._told: list[frozenset[_Told]] = [frozenset()] * len(COLUMNS)
        # Whether there is room for what stands there now, and for nothing that may come.
        self._is_tight = False

    def measure(self, model: RouteModel, columns: Iterable[int]) -> bool:
        """Takes in what stands in these columns now; whether one has to be wider for it."""
        before, told_before = list(self._natural), list(self._told)
        for place in columns:
            self._take_head(place, str(model.headerData(place, Qt.Orientation.Horizontal)))
            cells = (model.cell(row, place) for row in range(model.rowCount()))
            told = frozenset((cell.text, cell.note, cell.pill) for cell in cells)
            # Most of it stood there before, and columns never shrink.
            news = [_needed(one, COLUMNS[place]) for one in told - self._told[place]]
            self._natural[place] = max([self._natural[place], *news])
            self._told[place] = told
        return self._natural != before or (self._is_tight and self._told != told_before)

    def _take_head(self, place: int, head: str) -> None:
        if head != self._heads[place]:
            self._heads[place] = head
            self._natural[place] = max(self._natural[place], _head_width(head, COLUMNS[place]))

    def share(self, room: int, *, has_budget: bool) -> dict[int, int]:
        """The width of every column there is room for; what is left over goes to the names."""
        leave_out = () if has_budget else (WITH_BUDGET,)
        # In whole px from here on, so that names never pay for what the others round up.
        natural = list(map(math.ceil, self._natural))
        needed = [_cut(place, wide) if place == _BUYS_AT else wide for place, wide in enumerate(natural)]
        kept = fitting(needed, room, leave_out=leave_out)
        self._is_tight = _CAUTIONS_AT not in kept
        if self._is_tight:
            # No room for what is gone, then: and cautions cut short are better than figures that matter less.
            needed = [math.ceil(self._now(place)) for place in range(len(COLUMNS))]
            # They come in after all else.
            needed[_CAUTIONS_AT] = natural[_CAUTIONS_AT]
            if _CAUTIONS_AT not in fitting(needed, room, leave_out=leave_out):
                needed[_CAUTIONS_AT] = _cut(_CAUTIONS_AT, needed[_CAUTIONS_AT])
            kept = fitting(needed, room, leave_out=leave_out)
        widths = {place: needed[place] for place in kept}
        for place in (ROUTE_AT, _CAUTIONS_AT, _BUYS_AT):
            spare = max(room - sum(widths.values()), 0)
            if place in widths:
                widths[place] += min(natural[place] - widths[place], spare)
        widths[ROUTE_AT] += room - sum(widths.values())
        return widths

    def _now(self, place: int) -> float:
        """What a column needs for what stands in it now."""
        column = COLUMNS[place]
        return max(_head_width(self._heads[place], column), *(_needed(one, column) for one in self._told[place]), 0.0)


def _cut(place: int, wide: int) -> int:
    """How narrow a column of words may be."""
    column = COLUMNS[place]
    return min(wide, math.ceil(_LEAST[column] * text_scale() + _around(column)))


def _head_width(head: str, column: Column) -> float:
    return _width(head, fonts.sans(fonts.HEAD, bold=True)) + ARROW + _around(column)


def _needed(told: _Told, column: Column) -> float:
    text, note, pill = told
    width = _width(text, figure_font(column, winner=True))
    if column is ROUTE:
        width += pill_room(pill)
    if column in _MOST:
        width = min(width, _MOST[column] * text_scale())
    if note and column.note_left:
        width += _width(note, note_font(column)) + NOTE_GAP
    return width + _around(column)


def _usual(column: Column) -> float:
    width = _width(column.usual, figure_font(column, winner=True)) + _around(column)
    if column is ROUTE:
        width += _NAME * text_scale()
    if column.note_left:
        width += _width(column.usual_note, note_font(column)) + NOTE_GAP
    return width


def _around(column: Column) -> float:
    if column is ROUTE:
        return NAME_LEFT + PAD
    return 2 * PAD + (NOTE_ROOM if column is CHANCE else 0)


def _width(text: str, font: QFont) -> float:
    return QFontMetricsF(font).horizontalAdvance(text)
