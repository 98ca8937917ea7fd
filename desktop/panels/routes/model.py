"""The route list as a table model."""

from __future__ import annotations

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt

from core.plan.model import Plan
from desktop.document import Document
from desktop.findings import Finding
from desktop.panels.routes.columns import COLUMNS, SET_ASIDE, head
from desktop.widgets.labels import tip
from desktop.words import routes as words
from desktop.words.numbers import Numbers

Index = QModelIndex | QPersistentModelIndex
FINDING = int(Qt.ItemDataRole.UserRole)
NOTE = FINDING + 1
WINNER = FINDING + 2
OVER = FINDING + 3
GREY = FINDING + 4
_ROOT = QModelIndex()


class RouteModel(QAbstractTableModel):
    """Rows are findings in sorted order; routes out of reach stay last whichever way it is sorted."""

    def __init__(self, document: Document, numbers: Numbers) -> None:
        super().__init__(document)
        self._document, self._numbers = document, numbers
        self._column, self._order = SET_ASIDE, Qt.SortOrder.AscendingOrder
        self._rows = self._sorted()
        document.answers_changed.connect(self._refresh)

    def finding(self, row: int) -> Finding:
        """The route of a row."""
        return self._rows[row]

    def row_of(self, finding: Finding | None) -> int:
        """The row of a route, or -1."""
        return next((row for row, one in enumerate(self._rows) if finding and one.id == finding.id), -1)

    def rowCount(self, parent: Index = _ROOT) -> int:  # noqa: D102
        return 0 if parent.isValid() else len(self._rows)

    def columnCount(self, parent: Index = _ROOT) -> int:  # noqa: D102
        return 0 if parent.isValid() else len(COLUMNS)

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> object:  # noqa: D102
        if orientation != Qt.Orientation.Horizontal:
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return head(self._plan, section)
        return tip(COLUMNS[section].tip) if role == Qt.ItemDataRole.ToolTipRole else None

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:  # noqa: D102
        one, column = self._rows[index.row()], COLUMNS[index.column()]
        if role == Qt.ItemDataRole.DisplayRole:
            return column.text(self._plan, one, self._numbers)
        if role == NOTE:
            return self._note(index)
        if role == Qt.ItemDataRole.ToolTipRole:
            return tip(one.reason or (one.name if index.column() == 0 else column.tip))
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return self._spoken(index)
        return self._state(one, role)

    def sort(self, column: int, order: Qt.SortOrder = Qt.SortOrder.AscendingOrder) -> None:  # noqa: D102
        self._column, self._order = column, order
        self._rearrange()

    @property
    def _plan(self) -> Plan:
        return self._document.plan

    def _note(self, index: Index) -> str:
        one, column = self._rows[index.row()], COLUMNS[index.column()]
        if index.column() == SET_ASIDE and one.stale and self._document.stopped:
            return words.OLD
        return column.note(self._plan, one, self._numbers) if column.note else ""

    def _state(self, one: Finding, role: int) -> object:
        if role == GREY:
            return one.state != "answered" or (one.stale and not self._document.patient)
        if role == FINDING:
            return one
        if role == WINNER:
            return one.id == self._document.verdict.winner
        return words.over_budget(self._plan, one) if role == OVER else None

    def _spoken(self, index: Index) -> str:
        one, column = self._rows[index.row()], COLUMNS[index.column()]
        text = f"{head(self._plan, index.column())}: {column.text(self._plan, one, self._numbers)}"
        note = self._note(index)
        winner = words.CHEAPEST if index.column() == 0 and self._state(one, WINNER) else ""
        return ", ".join(part for part in (text, note, winner) if part)

    def _refresh(self) -> None:
        if len(self._document.found) != len(self._rows):
            self.beginResetModel()
            self._rows = self._sorted()
            self.endResetModel()
        else:
            self._rearrange()
        self.headerDataChanged.emit(Qt.Orientation.Horizontal, 0, len(COLUMNS) - 1)

    def _rearrange(self) -> None:
        self.layoutAboutToBeChanged.emit()
        before = [one.id for one in self._rows]
        self._rows = self._sorted()
        places = {one.id: row for row, one in enumerate(self._rows)}
        for index in self.persistentIndexList():
            name = before[index.row()]
            self.changePersistentIndex(index, self.index(places.get(name, -1), index.column()))
        self.layoutChanged.emit()

    def _sorted(self) -> list[Finding]:
        key = COLUMNS[self._column].sort
        rows = list(self._document.found)
        rows.sort(key=lambda one: -one.chance)
        rows.sort(key=key, reverse=self._order == Qt.SortOrder.DescendingOrder)
        rows.sort(key=lambda one: one.state == "answered" and one.to_goal is None)
        return rows
