"""The route list in the window: as tall as its rows, whole rows selected, sortable, by keyboard too."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import QEvent, QItemSelectionModel, QSize, Qt, QTimer, Signal
from PySide6.QtGui import QContextMenuEvent, QMouseEvent, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QFrame, QHeaderView, QSizePolicy, QTableView, QWidget

from desktop.cautions.minder import Minder
from desktop.document import Document
from desktop.findings import Finding
from desktop.panels.charts.goal_chance import GoalChance
from desktop.panels.routes.columns import COLUMNS, ROUTE_AT, SET_ASIDE_AT
from desktop.panels.routes.delegate import RouteDelegate
from desktop.panels.routes.header import RouteHeader, head_height
from desktop.panels.routes.model import OWN_ORDER, Index, RouteModel
from desktop.panels.routes.widths import Widths
from desktop.words import routes as words
from desktop.words.numbers import Numbers

_MOST_ROWS = 8
_ROW, _ROW_WITH_ROOM = 26, 32


class RouteList(QTableView):
    """A view of the routes that are shown; selecting a row selects the route."""

    menu_asked = Signal(object)
    # Other rows may be in sight.
    sight_changed = Signal()

    def __init__(
        self,
        document: Document,
        numbers: Numbers,
        chance: GoalChance,
        minder: Minder,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._document = document
        self.rows = RouteModel(document, chance, minder, numbers)
        self._look = RouteDelegate(self.rows, self)
        self._widths = Widths()
        self._to_measure: set[int] = set()
        self.setModel(self.rows)
        self.setItemDelegate(self._look)
        self.setHorizontalHeader(RouteHeader(self))
        self._plain_look()
        self._let_move()
        self.sortByColumn(SET_ASIDE_AT, Qt.SortOrder.AscendingOrder)
        self.setSortingEnabled(True)
        self.set_roomy(False)
        self.setAccessibleName(words.LIST_NAME)
        self.setAccessibleDescription(words.LIST_DESCRIPTION)
        self._follow(chance)
        self._spread()

    def set_roomy(self, roomy: bool) -> None:
        """Taller rows where the window has the height."""
        self.verticalHeader().setDefaultSectionSize(_ROW_WITH_ROOM if roomy else _ROW)
        self.updateGeometry()

    @property
    def chosen(self) -> Finding | None:
        """The route of the row that is selected."""
        row = self.currentIndex().row()
        return self.rows.finding(row) if 0 <= row < self.rows.rowCount() else None

    def in_sight(self) -> frozenset[str]:
        """The routes whose rows can be seen without scrolling, and the selected one."""
        top, bottom = self.rowAt(0), self.rowAt(self.viewport().height() - 1)
        last = bottom if bottom >= 0 else self.rows.rowCount() - 1
        seen = {self.rows.finding(row).id for row in range(max(top, 0), last + 1)}
        return frozenset(seen | ({self.chosen.id} if self.chosen else set()))

    @property
    def is_in_own_order(self) -> bool:
        """Whether the rows stand as in the plan, sorted by nothing."""
        return self.horizontalHeader().sortIndicatorSection() not in range(len(COLUMNS))

    def use_own_order(self) -> None:
        """The rows as in the plan."""
        self.horizontalHeader().setSortIndicator(OWN_ORDER, Qt.SortOrder.AscendingOrder)

    def rename_chosen(self) -> None:
        """Opens the name of the selected row for typing."""
        if self.chosen is not None:
            self.edit(self.rows.index(self.currentIndex().row(), ROUTE_AT))

    def sizeHint(self) -> QSize:  # noqa: D102
        rows = min(self.rows.rowCount(), _MOST_ROWS)
        return QSize(800, head_height() + rows * self.verticalHeader().defaultSectionSize() + 1)

    def minimumSizeHint(self) -> QSize:  # noqa: D102
        return QSize(640, self.sizeHint().height())

    def currentChanged(self, current: Index, previous: Index) -> None:  # noqa: D102
        super().currentChanged(current, previous)
        if current.isValid():
            self._document.select(self.rows.finding(current.row()))

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: D102
        super().resizeEvent(event)
        self._spread()
        self.sight_changed.emit()

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:  # noqa: D102
        self.menu_asked.emit(event.globalPos())

    def mouseMoveEvent(self, event: QMouseEvent) -> None:  # noqa: D102
        super().mouseMoveEvent(event)
        self._hover(self.indexAt(event.position().toPoint()).row())

    def leaveEvent(self, event: QEvent) -> None:  # noqa: D102
        super().leaveEvent(event)
        self._hover(-1)

    def _follow(self, chance: GoalChance) -> None:
        for changed in (self.rows.rowsInserted, self.rows.rowsRemoved):
            changed.connect(self.updateGeometry)
        self.rows.layoutChanged.connect(self._show_selected)
        self.verticalScrollBar().valueChanged.connect(self.sight_changed)
        for changed in (self.rows.rowsInserted, self.rows.rowsRemoved, self.rows.layoutChanged):
            changed.connect(self.sight_changed)
        self._measuring = QTimer(self, singleShot=True, interval=0)
        self._measuring.timeout.connect(self._measure)
        self.rows.layoutChanged.connect(self._measure_all)
        self.rows.dataChanged.connect(self._measure_some)
        self._document.selection_changed.connect(self._show_selected)
        # While the goal line is dragged, looks ahead come faster than a list can be laid out.
        self._soon = QTimer(self, singleShot=True, interval=0)
        self._soon.timeout.connect(self.rows.refresh)
        chance.moved.connect(self._soon.start)

    def _measure_all(self) -> None:
        self._measure_soon(range(len(COLUMNS)))

    def _measure_some(self, first: Index, last: Index) -> None:
        self._measure_soon(range(first.column(), last.column() + 1))

    def _measure_soon(self, columns: Iterable[int]) -> None:
        # Several changes in a row are measured once.
        self._to_measure.update(columns)
        self._measuring.start()

    def _measure(self) -> None:
        columns, self._to_measure = sorted(self._to_measure), set()
        if self._widths.measure(self.rows, columns):
            self._spread()

    def _spread(self) -> None:
        """Columns as far as there is room for them; none is ever cut."""
        has_budget = self._document.plan.goal.budget is not None
        shares = self._widths.share(self.viewport().width(), has_budget=has_budget)
        for place in range(len(COLUMNS)):
            self.setColumnHidden(place, place not in shares)
            if place in shares:
                self.setColumnWidth(place, shares[place])

    def _hover(self, row: int) -> None:
        if row != self._look.hovered_row:
            self._look.hovered_row = row
            self.viewport().update()

    def _show_selected(self) -> None:
        selected = self._document.selected
        row = self.rows.row_of(selected.id if selected else None)
        if row >= 0 and row != self.currentIndex().row():
            flags = QItemSelectionModel.SelectionFlag.ClearAndSelect | QItemSelectionModel.SelectionFlag.Rows
            self.selectionModel().setCurrentIndex(self.rows.index(row, ROUTE_AT), flags)
        elif selected is None:
            self.selectionModel().clear()

    def _let_move(self) -> None:
        self.setDragDropMode(QAbstractItemView.DragDropMode.InternalMove)
        self.setDragDropOverwriteMode(False)
        self.setDropIndicatorShown(True)
        # A double click, like Enter, is for the route as a whole: it opens the editor.
        self.setEditTriggers(QAbstractItemView.EditTrigger.EditKeyPressed)

    def _plain_look(self) -> None:
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setShowGrid(False)
        self.setMouseTracking(True)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setTabKeyNavigation(False)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.verticalHeader().hide()
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.horizontalHeader().setMinimumSectionSize(1)
