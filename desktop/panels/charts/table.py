"""The data table behind a chart."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QGuiApplication, QKeyEvent, QKeySequence, QPainter, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QFrame, QHeaderView, QTableView, QWidget

from desktop import fonts
from desktop.panels.charts.end_labels import wrapped
from desktop.panels.charts.series import Picture
from desktop.panels.charts.size import text_scale
from desktop.panels.charts.values import Values
from desktop.theme import SECOND, colour, colours_of
from desktop.widgets.labels import PlainLabel, tip
from desktop.widgets.ring import RingedCells
from desktop.words.numbers import Numbers

Index = QModelIndex | QPersistentModelIndex
_ALIGNED = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
_LINE_FLAGS = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignAbsolute | Qt.TextFlag.TextSingleLine
_WIDE, _FIRST, _PAD = 104.0, 96.0, 8.0


class ValuesModel(QAbstractTableModel):
    """Rows and columns of a chart's values."""

    def __init__(self, numbers: Numbers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._numbers = numbers
        self.values: Values | None = None

    def show_picture(self, picture: Picture) -> None:
        """The values of another picture."""
        self.beginResetModel()
        self.values = Values(picture, self._numbers)
        self.endResetModel()

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008, D102
        return 0 if parent.isValid() or self.values is None else self.values.rows

    def columnCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008, D102
        return 0 if parent.isValid() or self.values is None else len(self.values.heads)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:  # noqa: D102
        if self.values is None or not index.isValid():
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return self.values.text(index.row(), index.column())
        return _ALIGNED if role == Qt.ItemDataRole.TextAlignmentRole else None

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> Any:  # noqa: D102
        if self.values is None:
            return None
        across = orientation == Qt.Orientation.Horizontal
        if section >= (len(self.values.heads) if across else self.values.rows):
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return self.values.heads[section] if across else self.values.row_head(section)
        return tip(self.values.heads[section]) if across and role == Qt.ItemDataRole.ToolTipRole else None


class QuietHead(QHeaderView):
    """Heads as text alone: names on up to two lines over a rule, or the bold x of each row."""

    def paintSection(self, painter: QPainter, rect: QRect, section: int) -> None:  # noqa: D102
        colours = colours_of(self.palette())
        across = self.orientation() == Qt.Orientation.Horizontal
        painter.save()
        painter.fillRect(rect, colour(colours.page))
        font = fonts.sans(fonts.HEAD, bold=not across)
        painter.setFont(font)
        painter.setPen(colour(colours.second if across else colours.text))
        text = str(self.model().headerData(section, self.orientation()))
        space = rect.width() - 2 * _PAD
        lines = wrapped(text, font, space) if across else (text,)
        height = QFontMetricsF(font).height()
        top = rect.bottom() - 4 - height * len(lines) if across else rect.center().y() - height / 2 + 0.5
        for place, line in enumerate(lines):
            painter.drawText(QRectF(rect.left() + _PAD, top + place * height, space, height), _LINE_FLAGS, line)
        if across:
            painter.fillRect(QRect(rect.left(), rect.bottom(), rect.width(), 1), colour(colours.rule))
        painter.restore()

    def sizeHint(self) -> QSize:  # noqa: D102
        height = QFontMetricsF(fonts.sans(fonts.HEAD)).height()
        return QSize(int(_FIRST * text_scale()), int(2 * height + 6))


class ChartTable(QTableView):
    """Shows the values; Ctrl+C copies the chosen cells, or all, as text with tabs."""

    def __init__(self, name: str, numbers: Numbers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._values = ValuesModel(numbers, self)
        self.setModel(self._values)
        self.setAccessibleName(name)
        self.setFont(fonts.sans(fonts.FORM))
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.setTextElideMode(Qt.TextElideMode.ElideRight)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        # Tab leads on to the next part of the page, as everywhere.
        self.setTabKeyNavigation(False)
        self.setItemDelegate(RingedCells(self))
        self.setCornerButtonEnabled(False)
        self._unit = PlainLabel(font=fonts.sans(fonts.HEAD), ink=SECOND, parent=self)
        self._unit.setWordWrap(True)
        self._unit.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignBottom)
        self._unit.setContentsMargins(0, 0, int(_PAD), 3)
        self._unit.setAutoFillBackground(True)
        self._set_up_heads()

    def show_picture(self, picture: Picture) -> None:
        """The values of another picture; place and choice stay where the rows do."""
        row, column = self.currentIndex().row(), self.currentIndex().column()
        down, across = self.verticalScrollBar().value(), self.horizontalScrollBar().value()
        self._values.show_picture(picture)
        self._unit.setText(picture.unit)
        # Beside numbers stand the names of the cheapest, which take what room there is.
        self.horizontalHeader().setStretchLastSection(bool(picture.segments))
        if 0 <= row < self._values.rowCount() and column < self._values.columnCount():
            self.setCurrentIndex(self._values.index(row, column))
        self.verticalScrollBar().setValue(down)
        self.horizontalScrollBar().setValue(across)
        self._place_unit()

    def copied(self) -> str:
        """The chosen cells with their heads; all of them where fewer than two are chosen."""
        values = self._values.values
        if values is None:
            return ""
        chosen = self.selectedIndexes()
        if len(chosen) < 2:
            return values.copied()
        return values.copied(sorted({one.row() for one in chosen}), sorted({one.column() for one in chosen}))

    def sizeHint(self) -> QSize:  # noqa: D102
        # The chart decides how much room there is.
        return self.minimumSizeHint()

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: D102
        if event.matches(QKeySequence.StandardKey.Copy):
            QGuiApplication.clipboard().setText(self.copied())
            return
        super().keyPressEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: D102
        super().resizeEvent(event)
        self._place_unit()

    def _place_unit(self) -> None:
        self._unit.setGeometry(0, 0, self.verticalHeader().width(), self.horizontalHeader().height())

    def _set_up_heads(self) -> None:
        across, down = QuietHead(Qt.Orientation.Horizontal, self), QuietHead(Qt.Orientation.Vertical, self)
        across.setDefaultSectionSize(int(_WIDE * text_scale()))
        across.setMinimumSectionSize(int(_WIDE * text_scale()))
        across.setSectionResizeMode(QHeaderView.ResizeMode.Interactive)
        down.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        down.setDefaultSectionSize(int(QFontMetricsF(self.font()).height()) + 6)
        down.setFixedWidth(int(_FIRST * text_scale()))
        self.setHorizontalHeader(across)
        self.setVerticalHeader(down)
