"""A small table of figures: two routes side by side and their difference."""

from __future__ import annotations

from collections.abc import Sequence

from core.explain.beats import Line
from desktop.widgets.figure_table import FigureTable
from desktop.words import why as words
from desktop.words.numbers import Numbers

# Cents below this still matter.
_WHOLE_FROM = 100


class Figures(FigureTable):
    """Two routes' figures."""

    def show_lines(self, names: tuple[str, str], lines: Sequence[Line], numbers: Numbers) -> None:
        """Other lines; the last is their sum where it says so."""
        places = 0 if max((abs(line.first) for line in lines), default=0.0) >= _WHOLE_FROM else 2
        rows = [
            (
                line.words,
                *(
                    words.money(figure, numbers, places, signed=place == 2)
                    for place, figure in enumerate((line.first, line.second, line.difference))
                ),
            )
            for line in lines
        ]
        together = [row for row, line in enumerate(lines) if line.words == words.TOGETHER]
        self.show_rows(("", *names, words.DIFFERENCE), rows, together)
