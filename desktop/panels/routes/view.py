"""The route list in the window: as tall as its rows, whole rows selected, sortable, by keyboard too."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QItemSelectionModel, QSize, Qt
from PySide6.QtGui import QMouseEvent, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QFrame, QHeaderView, QSizePolicy, QTableView, QWidget

from desktop.document import Document
from desktop.panels.routes.columns import COLUMNS, ROUTE, SET_ASIDE, WIDE
from desktop.panels.routes.delegate import RouteDelegate
from desktop.panels.routes.header import HEIGHT, RouteHeader
from desktop.panels.routes.model import Index, RouteModel
from desktop.words.numbers import Numbers

_ROUTE_WHEN_WIDE = 400
_MOST_ROWS = 8
_ROW, _ROW_WITH_ROOM = 26, 32


class RouteList(QTableView):
    """A view of the document's findings; selecting a row selects the route."""

    def __init__(self, document: Document, numbers: Numbers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._routes = RouteModel(document, numbers)
        self._rows = RouteDelegate(self)
        self.setModel(self._routes)
        self.setItemDelegate(self._rows)
        self.setHorizontalHeader(RouteHeader(self))
        self._plain_look()
        self.sortByColumn(SET_ASIDE, Qt.SortOrder.AscendingOrder)
        self.setSortingEnabled(True)
        self.set_roomy(False)
        self.setAccessibleName("Routes")
        self.setAccessibleDescription("A row per route, cheapest first; choose one to see its steps.")
        self._routes.modelReset.connect(self.updateGeometry)
        self._routes.layoutChanged.connect(self._show_selected)
        document.selection_changed.connect(self._show_selected)

    def set_roomy(self, roomy: bool) -> None:
        """Taller rows where the window has the height."""
        self.verticalHeader().setDefaultSectionSize(_ROW_WITH_ROOM if roomy else _ROW)
        self.updateGeometry()

    def sizeHint(self) -> QSize:  # noqa: D102
        rows = min(self._routes.rowCount(), _MOST_ROWS)
        return QSize(800, HEIGHT + rows * self.verticalHeader().defaultSectionSize() + 1)

    def minimumSizeHint(self) -> QSize:  # noqa: D102
        return QSize(640, self.sizeHint().height())

    def currentChanged(self, current: Index, previous: Index) -> None:  # noqa: D102
        super().currentChanged(current, previous)
        if current.isValid():
            self._document.select(self._routes.finding(current.row()))

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: D102
        super().resizeEvent(event)
        wide = self.width() >= WIDE
        head = self.horizontalHeader()
        for place, column in enumerate(COLUMNS):
            self.setColumnHidden(place, self.width() < column.shown_from)
        head.setSectionResizeMode(ROUTE, QHeaderView.ResizeMode.Fixed if wide else QHeaderView.ResizeMode.Stretch)
        if wide:
            self.setColumnWidth(ROUTE, _ROUTE_WHEN_WIDE)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:  # noqa: D102
        super().mouseMoveEvent(event)
        self._hover(self.indexAt(event.position().toPoint()).row())

    def leaveEvent(self, event: QEvent) -> None:  # noqa: D102
        super().leaveEvent(event)
        self._hover(-1)

    def _hover(self, row: int) -> None:
        if row != self._rows.hovered_row:
            self._rows.hovered_row = row
            self.viewport().update()

    def _show_selected(self) -> None:
        row = self._routes.row_of(self._document.selected)
        if row >= 0 and row != self.currentIndex().row():
            flags = QItemSelectionModel.SelectionFlag.ClearAndSelect | QItemSelectionModel.SelectionFlag.Rows
            self.selectionModel().setCurrentIndex(self._routes.index(row, ROUTE), flags)

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
        head = self.horizontalHeader()
        for place, column in enumerate(COLUMNS):
            fixed = column.width > 0
            mode = QHeaderView.ResizeMode.Fixed if fixed else QHeaderView.ResizeMode.Stretch
            head.setSectionResizeMode(place, mode)
            if column.width:
                self.setColumnWidth(place, column.width)
