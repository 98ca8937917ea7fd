"""What was understood of a list, a row for each line."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt
from PySide6.QtGui import QColor

from core.paste.parts import Listing
from core.plan.model import Plan
from desktop.theme import LIGHT, Colours
from desktop.words import paste as words
from desktop.words.numbers import Numbers

_NUMBERS = (2, 3)
_Index = QModelIndex | QPersistentModelIndex


class ListingRows(QAbstractTableModel):
    """Rows of a listing; the words of an unclear one stand in the colour of what is wrong."""

    def __init__(self, numbers: Numbers, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._numbers = numbers
        self._plan: Plan | None = None
        self._listing = Listing(())
        self._colours: Colours = LIGHT

    def show_listing(self, listing: Listing, plan: Plan) -> None:
        """Another listing; the view keeps its place where there are as many rows as before."""
        same = len(listing.lines) == len(self._listing.lines) and listing.lines
        if not same:
            self.beginResetModel()
        self._listing, self._plan = listing, plan
        if same:
            self.dataChanged.emit(self.index(0, 0), self.index(len(listing.lines) - 1, len(words.COLUMNS) - 1))
        else:
            self.endResetModel()

    def ink(self, colours: Colours) -> None:
        """Takes on the page's colours."""
        self._colours = colours

    def rowCount(self, parent: _Index = QModelIndex()) -> int:  # noqa: B008, D102
        return 0 if parent.isValid() else len(self._listing.lines)

    def columnCount(self, parent: _Index = QModelIndex()) -> int:  # noqa: B008, D102
        return 0 if parent.isValid() else len(words.COLUMNS)

    def data(self, index: _Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:  # noqa: D102
        line = self._listing.lines[index.row()]
        if role == Qt.ItemDataRole.DisplayRole and self._plan is not None:
            return words.row(self._plan, line, self._numbers)[index.column()]
        if role == Qt.ItemDataRole.TextAlignmentRole:
            side = Qt.AlignmentFlag.AlignRight if index.column() in _NUMBERS else Qt.AlignmentFlag.AlignLeft
            return side | Qt.AlignmentFlag.AlignVCenter
        if role == Qt.ItemDataRole.ForegroundRole and not line.settled:
            return QColor(self._colours.error)
        return None

    def headerData(  # noqa: D102
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> Any:
        if orientation != Qt.Orientation.Horizontal:
            return None
        if role == Qt.ItemDataRole.TextAlignmentRole:
            side = Qt.AlignmentFlag.AlignRight if section in _NUMBERS else Qt.AlignmentFlag.AlignLeft
            return side | Qt.AlignmentFlag.AlignVCenter
        return words.COLUMNS[section] if role == Qt.ItemDataRole.DisplayRole else None
