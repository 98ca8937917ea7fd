"""Money against seasons, or against chance: the points that nothing beats, each with its number."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

import msgspec
from pyqtgraph.graphicsItems.ScatterPlotItem import ScatterPlotItem
from pyqtgraph.graphicsItems.TextItem import TextItem
from pyqtgraph.widgets.PlotWidget import PlotWidget
from PySide6.QtCore import QEvent, QObject, Qt, QTimer
from PySide6.QtGui import QFont, QFontMetricsF
from PySide6.QtWidgets import QSizePolicy, QVBoxLayout, QWidget

from desktop import fonts
from desktop.panels.charts.library import pg
from desktop.theme import Colours, colour, colours_of
from desktop.widgets.labels import PlainLabel
from desktop.words.numbers import Numbers, price

_TALL = 150
_SIZE = 9
# Of the width from the first point to the last: what stays free beyond them, and the least for a label.
_MARGIN, _LEAST_ROOM = 0.06, 0.28
# Of the whole width, what a label gets at most.
_MOST_SHARE = 0.6


class Mark(msgspec.Struct, frozen=True):
    """A point: money, season or chance, and what stands beside it."""

    x: float
    y: float
    label: str


class Trade(msgspec.Struct, frozen=True):
    """What a chart shows: its points, the least money first, what its axis says, all of it in words, and its ticks."""

    marks: tuple[Mark, ...]
    axis: str
    told: str
    ticks: tuple[tuple[float, str], ...]


class Turns(QObject):
    """Charts one step after the other, each in a turn of its own: together they would hold the window up."""

    def __init__(self, give_way: Callable[[], None], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._give_way = give_way
        self._waiting: list[TradeChart] = []
        self._soon = QTimer(self, singleShot=True, interval=0)
        self._soon.timeout.connect(self._next)

    def ask(self, chart: TradeChart) -> None:
        """A step of this chart, after those that wait already."""
        if chart not in self._waiting:
            self._give_way()
            self._waiting.append(chart)
            self._soon.start()

    def is_waiting(self, chart: TradeChart) -> bool:
        """Whether a step of it is still to come."""
        return chart in self._waiting

    def _next(self) -> None:
        self._waiting.pop(0).step()
        if self._waiting:
            self._soon.start()


class TradeChart(QWidget):
    """A plot that is built once and follows light and dark; what it shows stands in words in its description."""

    def __init__(
        self, head: str, name: str, numbers: Numbers, turns: Turns, *, rising: bool, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._numbers, self._turns, self._rising, self._name = numbers, turns, rising, name
        self._wanted: Trade | None = None
        self._drawn: Trade | None = None
        self._plot: Plot | None = None
        self.head = PlainLabel(head, font=fonts.sans(fonts.HEADING, bold=True))
        self.axis = PlainLabel(font=fonts.sans(fonts.NOTE))
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(2)
        self._layout.addWidget(self.head)
        self._layout.addWidget(self.axis)
        self.hide()

    @property
    def is_current(self) -> bool:
        """Whether nothing is waiting to be drawn."""
        return not self._turns.is_waiting(self)

    @property
    def told(self) -> str:
        """What is shown, in words."""
        return self._drawn.told if self._drawn else ""

    def changeEvent(self, event: QEvent) -> None:  # noqa: D102
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange and self._plot is not None:
            self._plot.ink(colours_of(self.palette()))

    def show_trade(self, trade: Trade) -> None:
        """Other points in the same place, when it is its turn."""
        self.setVisible(bool(trade.marks))
        if trade != self._wanted:
            self._wanted = trade
            self._turns.ask(self)

    def step(self) -> None:
        """Is built or, once it is, drawn."""
        trade = self._wanted
        if trade is None or not trade.marks:
            return
        if self._plot is None:
            self._plot = Plot(self._name, self._numbers, rising=self._rising)
            self._plot.ink(colours_of(self.palette()))
            self._layout.addWidget(self._plot.widget, 1)
            self._turns.ask(self)
            return
        self._drawn = trade
        self.axis.setText(trade.axis)
        self._plot.show_trade(trade, colours_of(self.palette()))


class Plot:
    """The plot itself."""

    def __init__(self, name: str, numbers: Numbers, *, rising: bool) -> None:
        self._numbers, self._rising = numbers, rising
        self._marks: tuple[Mark, ...] = ()
        self._colours: Colours | None = None
        self.widget = PlotWidget(background=None)
        self.widget.setAccessibleName(name)
        self.widget.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.widget.setMinimumHeight(_TALL)
        # It takes what height there is, and asks for no more.
        self.widget.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Ignored)
        self.widget.setMouseEnabled(x=False, y=False)
        self.widget.hideButtons()
        self.widget.setMenuEnabled(False)
        self._line = self.widget.plot([], [])
        self._points = ScatterPlotItem(size=_SIZE)
        self.widget.addItem(self._points)
        self.labels: list[TextItem] = []
        self.ticks: list[tuple[float, str]] = []
        self.widget.getViewBox().sigResized.connect(self._look)
        for side in ("left", "bottom"):
            self.widget.getAxis(side).setStyle(tickFont=fonts.sans(fonts.NOTE), tickLength=0)
        # By itself it takes a height that large text does not fit into.
        self.widget.getAxis("bottom").setHeight(math.ceil(QFontMetricsF(fonts.sans(fonts.NOTE)).height()) + 4)

    def show_trade(self, trade: Trade, colours: Colours) -> None:
        """Other points in the same place."""
        self.widget.setAccessibleDescription(trade.told)
        self._marks = trade.marks
        xs, ys = [one.x for one in trade.marks], [one.y for one in trade.marks]
        self._line.setData(xs, ys)
        self._points.setData(xs, ys)
        self._show_labels(colours)
        self.widget.getAxis("left").setTicks([list(trade.ticks)])
        self.ticks = [(x, price(x, self._numbers)) for x in _round_sums(xs)]
        self.widget.getAxis("bottom").setTicks([self.ticks])
        self._look()

    def ink(self, colours: Colours) -> None:
        """Light or dark."""
        if colours is self._colours:
            return
        self._colours = colours
        # A plot keeps the page behind it as it was drawn first.
        self.widget.setBackground(colour(colours.page))
        self._line.setPen(pg.mkPen(colour(colours.rule), width=1.5))
        self._points.setPen(pg.mkPen(colour(colours.page), width=1))
        self._points.setBrush(pg.mkBrush(colour(colours.text)))
        for side in ("left", "bottom"):
            axis = self.widget.getAxis(side)
            axis.setPen(pg.mkPen(colour(colours.hairline)))
            axis.setTextPen(pg.mkPen(colour(colours.second)))
        self._show_labels(colours)

    def _look(self) -> None:
        if not self._marks:
            return
        xs, ys = [one.x for one in self._marks], [one.y for one in self._marks]
        wide, tall = (max(xs) - min(xs)) or 1.0, max(max(ys) - min(ys), 1.0)
        # Room for the labels, which stand off the line: at the left of one that rises, else at the right.
        room = wide * max(_LEAST_ROOM, self._label_room())
        before, after = (room, _MARGIN * wide) if self._rising else (_MARGIN * wide, room)
        self.widget.setXRange(min(xs) - before, max(xs) + after, padding=0)
        self.widget.setYRange(min(ys) - 0.2 * tall, max(ys) + 0.4 * tall, padding=0)

    def _label_room(self) -> float:
        """What the widest label takes, as a multiple of the width from the first point to the last."""
        metrics = QFontMetricsF(_label_font())
        label = max(metrics.horizontalAdvance(one.label) for one in self._marks) + 2 * _SIZE
        width = self.widget.getViewBox().width()
        share = min(label / width, _MOST_SHARE) if width > 0 else 0.0
        return share * (1 + _MARGIN) / (1 - share)

    def _show_labels(self, colours: Colours) -> None:
        while len(self.labels) < len(self._marks):
            label = TextItem(anchor=(1, 1) if self._rising else (0, 1))
            label.setFont(_label_font())
            self.widget.addItem(label)
            self.labels.append(label)
        for place, label in enumerate(self.labels):
            label.setVisible(place < len(self._marks))
            if place < len(self._marks):
                mark = self._marks[place]
                label.setText(mark.label, color=colour(colours.text))
                label.setPos(mark.x, mark.y)


def _label_font() -> QFont:
    return fonts.sans(fonts.NOTE, bold=True)


def _round_sums(xs: Sequence[float]) -> list[float]:
    """A few round sums across what is shown."""
    if not xs:
        return []
    low, high = min(xs), max(xs)
    if low == high:
        return [low]
    step = next(size for size in _STEPS if (high - low) / size <= 4)
    first = -(-low // step)
    return [step * (first + place) for place in range(5) if step * (first + place) <= high * 1.05]


_STEPS = [base * 10**power for power in range(-2, 13) for base in (1, 2, 5)]
