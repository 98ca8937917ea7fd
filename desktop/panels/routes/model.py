"""The route list as a table model."""

from __future__ import annotations

from collections.abc import Sequence

import msgspec
from PySide6.QtCore import QAbstractTableModel, QMimeData, QModelIndex, QPersistentModelIndex, Qt, Signal

from core.plan.model import Plan
from desktop.cautions.minder import Minder
from desktop.document import Document
from desktop.findings import Finding
from desktop.panels.charts.goal_chance import GoalChance
from desktop.panels.routes.columns import CAUTIONS, COLUMNS, ROUTE, SET_ASIDE, SET_ASIDE_AT, Column, head, tip_of
from desktop.widgets.labels import tip
from desktop.words import cautions as caution_words
from desktop.words import routes as words
from desktop.words.numbers import Numbers

Index = QModelIndex | QPersistentModelIndex
# No column: the plan's own order.
OWN_ORDER = -1
_ROOT = QModelIndex()
_DRAG = "application/x-pairwright-route-row"


class Cell(msgspec.Struct, frozen=True):
    """What stands in a cell, and how: greyed, over the budget, of the cheapest route (`pill`: the word for it)."""

    finding: Finding
    text: str
    note: str
    grey: bool
    over: bool
    winner: bool
    pill: str


class RouteModel(QAbstractTableModel):
    """Rows are findings in sorted order; routes out of reach stay last whichever way a column sorts."""

    # A route is to be called otherwise (id, name); a row is to stand before another, or at the end (id, row).
    renamed = Signal(str, str)
    dropped = Signal(str, int)

    def __init__(self, document: Document, chance: GoalChance, minder: Minder, numbers: Numbers) -> None:
        super().__init__(document)
        self._document, self._chance, self._numbers = document, chance, numbers
        self._column, self._order = SET_ASIDE_AT, Qt.SortOrder.AscendingOrder
        self._minder = minder
        self._rows = self._sorted()
        self._verdict = chance.verdict()
        # Measured, painted and read aloud, but worked out once.
        self._cells: dict[tuple[int, int], Cell] = {}
        document.answers_changed.connect(self.refresh)
        minder.changed.connect(self._show_cautions)

    @property
    def rows(self) -> Sequence[Finding]:
        """The routes as they stand in the list."""
        return self._rows

    def finding(self, row: int) -> Finding:
        """The route of a row."""
        return self._rows[row]

    def cell(self, row: int, place: int) -> Cell:
        """What stands in a cell."""
        known = self._cells.get((row, place))
        if known is None:
            known = self._cells[row, place] = self._cell(self._rows[row], COLUMNS[place])
        return known

    def row_of(self, id_: str | None) -> int:
        """The row of a route, or -1."""
        return next((row for row, one in enumerate(self._rows) if one.id == id_), -1)

    def rowCount(self, parent: Index = _ROOT) -> int:  # noqa: D102
        return 0 if parent.isValid() else len(self._rows)

    def columnCount(self, parent: Index = _ROOT) -> int:  # noqa: D102
        return 0 if parent.isValid() else len(COLUMNS)

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> object:  # noqa: D102
        if orientation != Qt.Orientation.Horizontal:
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return head(self._plan, COLUMNS[section], self._numbers)
        return tip(tip_of(self._plan, COLUMNS[section])) if role == Qt.ItemDataRole.ToolTipRole else None

    def flags(self, index: Index) -> Qt.ItemFlag:  # noqa: D102
        if not index.isValid():
            return Qt.ItemFlag.ItemIsDropEnabled
        flags = super().flags(index) | Qt.ItemFlag.ItemIsDragEnabled
        return flags | Qt.ItemFlag.ItemIsEditable if COLUMNS[index.column()] is ROUTE else flags

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:  # noqa: D102
        one = self._rows[index.row()]
        if role == Qt.ItemDataRole.DisplayRole:
            return self.cell(index.row(), index.column()).text
        if role == Qt.ItemDataRole.EditRole:
            return one.name
        if role == Qt.ItemDataRole.ToolTipRole:
            return tip(self._told(index))
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return self._spoken(index)
        if role == Qt.ItemDataRole.AccessibleDescriptionRole:
            return self._whole(one)
        return None

    def setData(self, index: Index, value: object, role: int = Qt.ItemDataRole.EditRole) -> bool:  # noqa: D102
        name = str(value).strip()
        if role != Qt.ItemDataRole.EditRole or not name:
            return False
        self.renamed.emit(self._rows[index.row()].id, name)
        return True

    def sort(self, column: int, order: Qt.SortOrder = Qt.SortOrder.AscendingOrder) -> None:  # noqa: D102
        self._column, self._order = column, order
        self._rearrange(self._sorted())

    def supportedDropActions(self) -> Qt.DropAction:  # noqa: D102
        return Qt.DropAction.MoveAction

    def mimeTypes(self) -> list[str]:  # noqa: D102
        return [_DRAG]

    def mimeData(self, indexes: Sequence[QModelIndex]) -> QMimeData:  # noqa: D102
        data = QMimeData()
        data.setData(_DRAG, self._rows[indexes[0].row()].id.encode())
        return data

    def dropMimeData(  # noqa: D102
        self, data: QMimeData, action: Qt.DropAction, row: int, _column: int, parent: Index
    ) -> bool:
        if action != Qt.DropAction.MoveAction or not data.hasFormat(_DRAG):
            return False
        at = row if row >= 0 else parent.row() if parent.isValid() else len(self._rows)
        self.dropped.emit(bytes(data.data(_DRAG).data()).decode(), at)
        return True

    def refresh(self) -> None:
        """Follows the answers; a row that stays keeps its choice and its place in the view."""
        self._verdict = self._chance.verdict()
        wanted = self._sorted()
        ids = {one.id for one in wanted}
        for row in reversed(range(len(self._rows))):
            if self._rows[row].id not in ids:
                self.beginRemoveRows(_ROOT, row, row)
                del self._rows[row]
                self.endRemoveRows()
        known = {one.id for one in self._rows}
        new = [one for one in wanted if one.id not in known]
        if new:
            self.beginInsertRows(_ROOT, len(self._rows), len(self._rows) + len(new) - 1)
            self._rows += new
            self.endInsertRows()
        self._rearrange(wanted)
        self.headerDataChanged.emit(Qt.Orientation.Horizontal, 0, len(COLUMNS) - 1)

    @property
    def _plan(self) -> Plan:
        return self._chance.plan()

    def _cell(self, one: Finding, column: Column) -> Cell:
        plan, document = self._plan, self._document
        return Cell(
            finding=one,
            text=self._cautions(one) if column is CAUTIONS else column.text(plan, one, self._numbers),
            note=self._note(one, column),
            grey=one.state != "answered" or (one.stale and not document.patient),
            over=words.is_over(plan, one, column.head),
            winner=one.id == self._verdict.winner,
            pill=self._pill(one),
        )

    def _note(self, one: Finding, column: Column) -> str:
        if column is SET_ASIDE and one.stale and self._document.stopped:
            return words.OLD
        return column.note(self._plan, one, self._numbers) if column.note else ""

    def _pill(self, one: Finding) -> str:
        """The word for the cheapest route; nothing for the others."""
        if one.id != self._verdict.winner:
            return ""
        return words.CHEAPEST_SHOWN if self._verdict.beaten_by else words.CHEAPEST

    def _told(self, index: Index) -> str:
        one, column = self._rows[index.row()], COLUMNS[index.column()]
        if column is ROUTE:
            return one.reason or self._whole(one)
        said = tip_of(self._plan, column)
        return self._all_cautions(one) or said if column is CAUTIONS else said

    def _whole(self, one: Finding) -> str:
        """Everything there is to say of a route, also what has no room."""
        row = self._rows.index(one)
        parts = [self._spoken(self.index(row, place)) for place in range(1, len(COLUMNS))]
        return f"{one.name}. {'; '.join(part for part in parts if part)}."

    def _spoken(self, index: Index) -> str:
        cell, column = self.cell(index.row(), index.column()), COLUMNS[index.column()]
        if not cell.text:
            return ""
        said = f"{head(self._plan, column, self._numbers)}: {cell.text}"
        return ", ".join(part for part in (said, cell.note, cell.pill if column is ROUTE else "") if part)

    def _cautions(self, one: Finding) -> str:
        found = self._minder.of(one)
        return "" if found is None else caution_words.in_list(found, self._minder.unread(found))

    def _all_cautions(self, one: Finding) -> str:
        return "; ".join(caution.short for caution in self._minder.unread(self._minder.of(one) or ()))

    def _show_cautions(self) -> None:
        at = COLUMNS.index(CAUTIONS)
        self._cells = {place: cell for place, cell in self._cells.items() if place[1] != at}
        if self._rows:
            self.dataChanged.emit(self.index(0, at), self.index(len(self._rows) - 1, at))

    def _rearrange(self, wanted: list[Finding]) -> None:
        self.layoutAboutToBeChanged.emit()
        before = [one.id for one in self._rows]
        self._rows = wanted
        self._cells = {}
        places = {one.id: row for row, one in enumerate(self._rows)}
        for index in self.persistentIndexList():
            name = before[index.row()]
            self.changePersistentIndex(index, self.index(places.get(name, -1), index.column()))
        self.layoutChanged.emit()

    def _sorted(self) -> list[Finding]:
        rows = list(self._chance.shown())
        if self._column != OWN_ORDER:
            key = COLUMNS[self._column].sort
            rows.sort(key=lambda one: -one.chance)
            rows.sort(key=key, reverse=self._order == Qt.SortOrder.DescendingOrder)
            rows.sort(key=lambda one: one.state == "answered" and one.to_goal is None)
        return rows
