"""A chart that follows the document, its data table behind it, and what can be copied from it."""

from __future__ import annotations

from functools import cached_property, partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer, Signal
from PySide6.QtGui import QContextMenuEvent, QGuiApplication, QShowEvent
from PySide6.QtWidgets import QMenu, QStackedWidget, QVBoxLayout, QWidget

from desktop.document import PATIENCE_MS, Document
from desktop.panels.charts.canvas import Canvas
from desktop.panels.charts.goal_chance import GoalChance
from desktop.panels.charts.hands import Hands
from desktop.panels.charts.notes import Notes
from desktop.panels.charts.pictures import Draw
from desktop.panels.charts.series import Picture, alike
from desktop.panels.charts.showing import Showing
from desktop.theme import colours_of
from desktop.widgets.labels import tip
from desktop.words import charts as words
from desktop.words.numbers import Numbers

if TYPE_CHECKING:
    from desktop.panels.charts.table import ChartTable

_SHARP = 2.0


class LiveChart(QWidget):
    """Shows the document while it can be seen, as a chart or as a table."""

    state_changed = Signal()
    # The chart is to be written to a file of some kind: the chart, and the kind.
    save_asked = Signal(object, str)

    def __init__(
        self,
        document: Document,
        numbers: Numbers,
        chance: GoalChance,
        draw: Draw,
        name: str,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._document, self._numbers, self._chance, self._draw = document, numbers, chance, draw
        self.name = name
        self.canvas = Canvas(name, numbers, chance, self)
        self.canvas.view.setToolTip(tip(words.CHART_TIP))
        self._hands = Hands(self.canvas)
        self.notes = Notes(self)
        self._views = QStackedWidget(self)
        self._views.addWidget(self.canvas)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self._views, 1)
        layout.addWidget(self.notes)
        self.canvas.sight_changed.connect(self.state_changed)
        self._follow()

    def call(self, name: str) -> None:
        """Another name for what it shows."""
        self.name = name
        self.canvas.view.setAccessibleName(name)

    @property
    def is_current(self) -> bool:
        """Whether nothing is waiting to be drawn."""
        return not self._soon.isActive()

    @property
    def as_table(self) -> bool:
        """Whether the table is shown."""
        return self._views.currentWidget() is not self.canvas

    @cached_property
    def table(self) -> ChartTable:
        """The data table, made when first asked for."""
        from desktop.panels.charts.table import ChartTable

        table = ChartTable(words.table_name(self.name), self._numbers, self)
        self._views.addWidget(table)
        # Where the chart stands in the order of Tab, so does its table.
        self.setTabOrder(self.canvas.view, table)
        return table

    def show_table(self, wanted: bool) -> None:
        """Turns to the table or back to the chart."""
        self._views.setCurrentWidget(self.table if wanted else self.canvas)
        self.refresh()
        self.state_changed.emit()

    def turn(self) -> None:
        """From chart to table or back."""
        self.show_table(not self.as_table)

    def refresh(self) -> None:
        """Draws the document as it is now."""
        picture = self._draw(self.showing())
        if not alike(picture, self.canvas.picture):
            self.canvas.show_picture(picture)
        if self.as_table:
            self.table.show_picture(picture)
        self.notes.show_notes(picture.notes)

    def showing(self) -> Showing:
        """What there is to draw, at the chance that is looked at."""
        document, chance = self._document, self._chance
        selected = document.selected.id if document.selected else None
        # A look ahead moves the goal line and nothing else.
        picture = self.canvas.picture
        span = (picture.low, picture.high) if picture and chance.is_ahead else None
        return Showing(
            document.plan,
            chance.shown(),
            chance.value,
            self._numbers,
            chance.verdict().winner,
            selected,
            stale=chance.outdated(),
            span=span,
        )

    def picture(self) -> Picture:
        """What there is to show now, whether it is in sight or not."""
        return self._draw(self.showing())

    def copy_picture(self) -> None:
        """The whole chart to the clipboard, sharp enough for print."""
        from desktop.panels.charts.image import chart_image

        colours = colours_of(self.palette())
        image = chart_image(self.picture(), self._numbers, colours, self.canvas.size(), _SHARP)
        QGuiApplication.clipboard().setImage(image)

    def copy_table(self) -> None:
        """The chart's numbers to the clipboard, as text with tabs."""
        from desktop.exports.tables import as_text, chart_table

        QGuiApplication.clipboard().setText(as_text(chart_table(self.picture(), self._numbers)))

    def menu(self) -> QMenu:
        """What can be done with the chart."""
        menu = QMenu(self)
        menu.addAction(words.COPY_PICTURE, self.copy_picture)
        menu.addAction(words.COPY_TABLE, self.copy_table)
        menu.addSeparator()
        for kind, text in words.SAVE_CHART.items():
            menu.addAction(text, partial(self.save_asked.emit, self, kind))
        menu.addSeparator()
        if not self.as_table:
            menu.addAction(words.ZOOM_IN, self.canvas.zoom_in)
            menu.addAction(words.ZOOM_OUT, self.canvas.zoom_out).setEnabled(self.canvas.is_zoomed)
            menu.addAction(words.WHOLE_CHART, self.canvas.show_whole).setEnabled(self.canvas.is_zoomed)
            menu.addSeparator()
        menu.addAction(words.AS_CHART if self.as_table else words.AS_TABLE, self.turn)
        return menu

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:  # noqa: D102
        menu = self.menu()
        menu.aboutToHide.connect(menu.deleteLater)
        menu.popup(event.globalPos())

    def showEvent(self, event: QShowEvent) -> None:  # noqa: D102
        super().showEvent(event)
        self.refresh()

    def _follow(self) -> None:
        # Several changes in a row are drawn once, when the event loop comes round.
        self._soon = QTimer(self)
        self._soon.setSingleShot(True)
        self._soon.timeout.connect(self._refresh_if_seen)
        for changed in (self._document.answers_changed, self._document.plan_changed):
            changed.connect(self._draw_soon)
        for changed in (self._document.selection_changed, self._chance.moved):
            changed.connect(self._draw_at_once)

    def _draw_soon(self) -> None:
        # Right after an edit new answers are about to come: curves drawn before them would only delay them.
        document = self._document
        self._soon.start(PATIENCE_MS if document.patient and document.pending else 0)

    def _draw_at_once(self) -> None:
        self._soon.start(0)

    def _refresh_if_seen(self) -> None:
        if self.isVisible():
            self.refresh()
