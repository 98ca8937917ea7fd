"""The charts in their places: money on the left, eggs and seasons as tabs on the right."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QTimer
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QStackedWidget, QVBoxLayout, QWidget

from core.plan.model import Plan
from desktop import fonts
from desktop.document import Document
from desktop.findings import Finding
from desktop.panels.charts.canvas import Canvas
from desktop.panels.charts.pictures import eggs_picture, money_picture, season_picture
from desktop.panels.charts.series import Picture
from desktop.widgets.labels import PlainLabel
from desktop.widgets.text_tabs import TextTabs
from desktop.words import labels
from desktop.words.numbers import Numbers

Draw = Callable[[Plan, tuple[Finding, ...], str | None, str | None, Numbers], Picture]
HEAD_HEIGHT = 28


class LiveChart(QWidget):
    """A canvas that follows the document while it can be seen."""

    def __init__(self, document: Document, numbers: Numbers, draw: Draw, name: str) -> None:
        super().__init__()
        self._document, self._numbers, self._draw = document, numbers, draw
        self.canvas = Canvas(name, numbers, self)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.canvas)
        # Several changes in a row are drawn once, when the event loop comes round.
        self._soon = QTimer(self)
        self._soon.setSingleShot(True)
        self._soon.timeout.connect(self._refresh_if_seen)
        document.answers_changed.connect(self._soon.start)
        document.selection_changed.connect(self._soon.start)

    def showEvent(self, event: QShowEvent) -> None:  # noqa: D102
        super().showEvent(event)
        self.refresh()

    def _refresh_if_seen(self) -> None:
        if self.isVisible():
            self.refresh()

    def refresh(self) -> None:
        """Draws the document as it is now."""
        document = self._document
        selected = document.selected.id if document.selected else None
        self.canvas.show_picture(
            self._draw(document.plan, document.found, document.verdict.winner, selected, self._numbers)
        )


class Money(QWidget):
    """Chance by money under its heading."""

    def __init__(self, document: Document, numbers: Numbers) -> None:
        super().__init__()
        head = PlainLabel(labels.CHANCE_BY_MONEY, font=fonts.sans(fonts.HEADING, bold=True))
        head.setFixedHeight(HEAD_HEIGHT)
        self.chart = LiveChart(document, numbers, money_picture, labels.CHANCE_BY_MONEY)
        _stack(self, head, self.chart)


class EggsAndSeasons(QWidget):
    """Chance by eggs, and by season once asked for."""

    def __init__(self, document: Document, numbers: Numbers) -> None:
        super().__init__()
        self._document, self._numbers = document, numbers
        self.tabs = TextTabs((labels.CHANCE_BY_EGGS, labels.CHANCE_BY_SEASON))
        self.tabs.setFixedHeight(HEAD_HEIGHT)
        self.tabs.setAccessibleName(labels.CHARTS)
        self._charts = QStackedWidget()
        self.chart = LiveChart(document, numbers, eggs_picture, labels.CHANCE_BY_EGGS)
        self._charts.addWidget(self.chart)
        self.tabs.currentChanged.connect(self._show_tab)
        _stack(self, self.tabs, self._charts)

    def current(self) -> QWidget:
        """The plot that is shown now."""
        chart = self._charts.currentWidget()
        return chart.canvas.view if isinstance(chart, LiveChart) else self

    def _show_tab(self, tab: int) -> None:
        if tab == self._charts.count():
            self._charts.addWidget(LiveChart(self._document, self._numbers, season_picture, labels.CHANCE_BY_SEASON))
        self._charts.setCurrentIndex(tab)


def _stack(parent: QWidget, head: QWidget, body: QWidget) -> None:
    layout = QVBoxLayout(parent)
    layout.setContentsMargins(0, 0, 0, 0)
    layout.setSpacing(4)
    layout.addWidget(head)
    layout.addWidget(body, 1)
