"""Money against seasons, or against chance: the points that nothing beats, each with its number."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QEvent, Qt
from PySide6.QtWidgets import QVBoxLayout, QWidget

from desktop import fonts
from desktop.panels.charts.library import pg
from desktop.theme import Colours, colour, colours_of
from desktop.widgets.labels import PlainLabel
from desktop.words.numbers import Numbers, price

_TALL = 150
_SIZE = 9


@dataclass(frozen=True)
class Mark:
    """A point: money, season or chance, and what stands beside it."""

    x: float
    y: float
    label: str


class TradeChart(QWidget):
    """A plot that is built once and follows light and dark; what it shows stands in words in its description."""

    def __init__(self, head: str, name: str, numbers: Numbers, *, rising: bool, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._numbers, self._rising = numbers, rising
        self._marks: tuple[Mark, ...] = ()
        self.head = PlainLabel(head, font=fonts.sans(fonts.HEADING, bold=True))
        self.axis = PlainLabel(font=fonts.sans(fonts.NOTE))
        self.plot = pg.PlotWidget(background=None)
        self.plot.setAccessibleName(name)
        self.plot.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.plot.setMinimumHeight(_TALL)
        self.plot.setMouseEnabled(x=False, y=False)
        self.plot.hideButtons()
        self.plot.setMenuEnabled(False)
        self._line = self.plot.plot([], [])
        self._points = pg.ScatterPlotItem(size=_SIZE)
        self.plot.addItem(self._points)
        self._labels: list[pg.TextItem] = []
        for side in ("left", "bottom"):
            self.plot.getAxis(side).setStyle(tickFont=fonts.sans(fonts.NOTE), tickLength=0)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        layout.addWidget(self.head)
        layout.addWidget(self.axis)
        layout.addWidget(self.plot, 1)
        self._colours: Colours | None = None
        self._ink()

    def changeEvent(self, event: QEvent) -> None:  # noqa: D102
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange and colours_of(self.palette()) is not self._colours:
            self._ink()

    def show_marks(self, marks: Sequence[Mark], axis: str, told: str, ticks: Sequence[tuple[float, str]]) -> None:
        """Other points in the same place; the least money first."""
        self.axis.setText(axis)
        self.plot.setAccessibleDescription(told)
        self.setVisible(bool(marks))
        if tuple(marks) == self._marks:
            return
        self._marks = tuple(marks)
        xs, ys = [one.x for one in marks], [one.y for one in marks]
        self._line.setData(xs, ys)
        self._points.setData(xs, ys)
        self._show_labels()
        self.plot.getAxis("left").setTicks([list(ticks)])
        self.plot.getAxis("bottom").setTicks([[(x, price(round(x), self._numbers)) for x in _round_sums(xs)]])
        self._look(xs, ys)

    def _look(self, xs: Sequence[float], ys: Sequence[float]) -> None:
        if not xs:
            return
        wide, tall = max(max(xs) - min(xs), 1.0), max(max(ys) - min(ys), 1.0)
        # Room for the labels, which stand off the line: at the left of one that rises, else at the right.
        before, after = (0.28, 0.06) if self._rising else (0.06, 0.28)
        self.plot.setXRange(min(xs) - before * wide, max(xs) + after * wide, padding=0)
        self.plot.setYRange(min(ys) - 0.2 * tall, max(ys) + 0.4 * tall, padding=0)

    def _show_labels(self) -> None:
        while len(self._labels) < len(self._marks):
            label = pg.TextItem(anchor=(1, 1) if self._rising else (0, 1))
            label.setFont(fonts.sans(fonts.NOTE, bold=True))
            self.plot.addItem(label)
            self._labels.append(label)
        colours = colours_of(self.palette())
        for place, label in enumerate(self._labels):
            label.setVisible(place < len(self._marks))
            if place < len(self._marks):
                mark = self._marks[place]
                label.setText(mark.label, color=colour(colours.text))
                label.setPos(mark.x, mark.y)

    def _ink(self) -> None:
        self._colours = colours = colours_of(self.palette())
        self._line.setPen(pg.mkPen(colour(colours.rule), width=1.5))
        self._points.setPen(pg.mkPen(colour(colours.page), width=1))
        self._points.setBrush(pg.mkBrush(colour(colours.text)))
        for side in ("left", "bottom"):
            axis = self.plot.getAxis(side)
            axis.setPen(pg.mkPen(colour(colours.hairline)))
            axis.setTextPen(pg.mkPen(colour(colours.second)))
        self._show_labels()


def _round_sums(xs: Sequence[float]) -> list[float]:
    """A few round sums across what is shown."""
    if not xs:
        return []
    low, high = min(xs), max(xs)
    step = next(size for size in _STEPS if (high - low) / size <= 4)
    first = -(-low // step)
    return [step * (first + place) for place in range(5) if step * (first + place) <= high * 1.05]


_STEPS = [base * 10**power for power in range(-1, 13) for base in (1, 2, 5)]
