"""The charts in their places: money on the left, eggs and seasons as tabs on the right, or all three side by side."""

from __future__ import annotations

from itertools import pairwise

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QStackedWidget, QVBoxLayout, QWidget

from desktop import fonts
from desktop.document import Document
from desktop.panels.charts.chart import LiveChart
from desktop.panels.charts.goal_chance import GoalChance
from desktop.panels.charts.pictures import eggs_picture, money_picture, season_picture
from desktop.panels.charts.series import Picture
from desktop.panels.charts.size import text_scale
from desktop.panels.charts.tools import Tools
from desktop.widgets.labels import PlainLabel
from desktop.widgets.text_tabs import TextTabs
from desktop.words import charts, labels
from desktop.words.numbers import Numbers

# The height of a head in letter sizes.
_HEAD = 1.75
# From here on three charts have room for their names, at the usual text size.
_WIDE = 1700


class Place(QWidget):
    """One chart at a time under a head, with the words for what can be done with it."""

    def __init__(self, *heads: QWidget) -> None:
        super().__init__()
        self.tools = Tools(self)
        self._charts = QStackedWidget(self)
        top = QHBoxLayout()
        for head in heads:
            head.setFixedHeight(round(fonts.sans(fonts.HEADING).pixelSize() * _HEAD))
            top.addWidget(head)
        top.addWidget(self.tools, 1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        layout.addLayout(top)
        layout.addWidget(self._charts, 1)
        for head in heads:
            if head.focusPolicy() != Qt.FocusPolicy.NoFocus:
                # Made after the tools' words, but it stands before them.
                for before, after in pairwise((head, *self.tools.words)):
                    QWidget.setTabOrder(before, after)
        self.tools.whole.clicked.connect(self._whole)
        self.tools.zoom_in.clicked.connect(self._zoom_in)
        self.tools.zoom_out.clicked.connect(self._zoom_out)
        self.tools.table.clicked.connect(self._turn)

    @property
    def chart(self) -> LiveChart:
        """The chart that is shown now."""
        chart = self._charts.currentWidget()
        if not isinstance(chart, LiveChart):
            raise LookupError("no chart has been put here")
        return chart

    def put(self, chart: LiveChart) -> None:
        """One more chart here; another place loses it."""
        self._charts.addWidget(chart)
        chart.state_changed.connect(self._show_state)
        self._show_state()

    def lose(self, chart: LiveChart) -> None:
        """The chart goes to another place."""
        self._charts.removeWidget(chart)
        chart.state_changed.disconnect(self._show_state)

    def show_chart(self, place: int) -> None:
        """Turns to another chart."""
        self._charts.setCurrentIndex(place)
        self._show_state()

    def _show_state(self) -> None:
        self.tools.show_state(zoomed=self.chart.canvas.is_zoomed, as_table=self.chart.as_table)

    def _whole(self) -> None:
        self.chart.canvas.show_whole()

    def _zoom_in(self) -> None:
        self.chart.canvas.zoom_in()

    def _zoom_out(self) -> None:
        self.chart.canvas.zoom_out()

    def _turn(self) -> None:
        self.chart.turn()


class EggsAndSeasons(Place):
    """Chance by eggs, and by season once asked for; by eggs alone where seasons have a place of their own."""

    def __init__(self, by_eggs: str) -> None:
        self.tabs = TextTabs((by_eggs, labels.CHANCE_BY_SEASON))
        self.tabs.setAccessibleName(labels.CHARTS)
        self._alone = _head(by_eggs)
        self._alone.hide()
        super().__init__(self.tabs, self._alone)
        self.tabs.currentChanged.connect(self.show_chart)

    def call(self, by_eggs: str) -> None:
        """Another name for the chart by eggs: live-bearers have young."""
        self.tabs.setTabText(0, by_eggs)
        self._alone.setText(by_eggs)

    def set_alone(self, alone: bool) -> None:
        """Whether there is only one chart to turn to."""
        self.tabs.setCurrentIndex(0)
        self.tabs.setVisible(not alone)
        self._alone.setVisible(alone)

    def current(self) -> QWidget:
        """The plot that is shown now."""
        plot: QWidget = self.chart.canvas.view
        return plot


class Evidence(QWidget):
    """Two charts side by side, or all three where there is room; `save_asked` is passed on from them."""

    save_asked = Signal(object, str)

    def __init__(self, document: Document, numbers: Numbers, chance: GoalChance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document, by_eggs = document, charts.by_eggs(document.plan)
        self.money, self.eggs = Place(_head(labels.CHANCE_BY_MONEY)), EggsAndSeasons(by_eggs)
        self.seasons = Place(_head(labels.CHANCE_BY_SEASON))
        self.seasons.hide()
        self.money.put(LiveChart(document, numbers, chance, money_picture, labels.CHANCE_BY_MONEY))
        self._eggs_chart = LiveChart(document, numbers, chance, eggs_picture, by_eggs)
        self.eggs.put(self._eggs_chart)
        self._season_chart = LiveChart(document, numbers, chance, season_picture, labels.CHANCE_BY_SEASON)
        self.eggs.put(self._season_chart)
        self._wide = False
        for chart in (self.money.chart, self._eggs_chart, self._season_chart):
            chart.save_asked.connect(self.save_asked)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(24)
        for place in (self.money, self.eggs, self.seasons):
            layout.addWidget(place, 1)
        document.plan_changed.connect(self._call)

    def _call(self) -> None:
        name = charts.by_eggs(self._document.plan)
        self.eggs.call(name)
        self._eggs_chart.call(name)

    def eggs_picture(self) -> Picture:
        """Chance by eggs, also while the chart by season stands in its place."""
        return self._eggs_chart.picture()

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: D102
        super().resizeEvent(event)
        wide = self.width() >= _WIDE * text_scale()
        if wide != self._wide:
            self._wide = wide
            self._arrange(wide)

    def _arrange(self, wide: bool) -> None:
        old, new = (self.eggs, self.seasons) if wide else (self.seasons, self.eggs)
        self.eggs.set_alone(wide)
        old.lose(self._season_chart)
        new.put(self._season_chart)
        self._season_chart.setVisible(wide)
        self.seasons.setVisible(wide)


def _head(text: str) -> PlainLabel:
    return PlainLabel(text, font=fonts.sans(fonts.HEADING, bold=True))
