"""The numbers behind a chart, as text in rows and columns; no Qt."""

from __future__ import annotations

from collections.abc import Iterable

import msgspec

from desktop.panels.charts.cheapest_here import segment_at
from desktop.panels.charts.series import Picture, noise_at, value_at
from desktop.words.charts import chance_read
from desktop.words.numbers import Numbers, price, sum_of_money

_NONE = "–"


class Values(msgspec.Struct, frozen=True, eq=False):
    """A table with a row per stop of the chart: every route's chance, and in the last column which is cheapest."""

    picture: Picture
    numbers: Numbers

    @property
    def heads(self) -> tuple[str, ...]:
        """The column heads."""
        cheapest = (self.picture.segments_head,) if self.picture.segments else ()
        return (*(one.name for one in self.picture.series), *cheapest)

    @property
    def rows(self) -> int:
        """How many rows there are."""
        return int(self.picture.stops.size)

    def row_head(self, row: int) -> str:
        """The x of a row."""
        return x_text(self.picture, float(self.picture.stops[row]), self.numbers)

    def text(self, row: int, column: int) -> str:
        """One cell, by the same words as the read-out."""
        picture = self.picture
        x = float(picture.stops[row])
        if column == len(picture.series):
            stretch = segment_at(picture.segments, x)
            return stretch.name if stretch else _NONE
        one = picture.series[column]
        return chance_read(value_at(one, x), noise_at(one, x), self.numbers)

    def copied(self, rows: Iterable[int] | None = None, columns: Iterable[int] | None = None) -> str:
        """Heads and cells as text with tabs, all of them by default."""
        # A start does not wait for it.
        from desktop.cells import pasted

        across = list(range(len(self.heads)) if columns is None else columns)
        down = range(self.rows) if rows is None else rows
        lines = [(self.picture.unit, *(self.heads[column] for column in across))]
        lines += [(self.row_head(row), *(self.text(row, column) for column in across)) for row in down]
        return pasted(lines)


def x_text(picture: Picture, x: float, numbers: Numbers) -> str:
    """An x value as its axis writes it; sums are rounded up, as everywhere."""
    if abs(x - round(x)) < 1e-9:
        return numbers.whole(round(x))
    return sum_of_money(x, numbers) if picture.grid == 1 else price(x, numbers)
