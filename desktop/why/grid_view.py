"""One cross as a grid: what the sire gives down the side, what the dam gives across the top."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from core.explain.fractions import fraction_text
from core.explain.grids import Cell, Gamete, Grid
from desktop import fonts
from desktop.theme import colour, colours_of
from desktop.why.parts import OUTDATED
from desktop.words import why as words
from desktop.words.numbers import Numbers

_CENTRE = Qt.AlignmentFlag.AlignCenter
_PAD = 12


class GridView(QWidget):
    """Painted, with the whole grid in words for those who do not see it."""

    def __init__(self, grid: Grid, numbers: Numbers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._grid, self._numbers = grid, numbers
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(words.grid_spoken(grid, numbers))
        text, bold = (
            QFontMetricsF(fonts.sans(fonts.FORM, bold=True)),
            QFontMetricsF(fonts.sans(fonts.HEADING, bold=True)),
        )
        cells = [cell.words for row in grid.cells for cell in row]
        names = [self._named(gamete) for gamete in (*grid.sire, *grid.dam)]
        self._cell = max([64.0, *(text.horizontalAdvance(one) + 2 * _PAD for one in (*cells, *names))])
        self._row = text.height() + 14
        self._side = QFontMetricsF(fonts.sans(fonts.NOTE)).horizontalAdvance(words.SIRE) + 10
        self._letters = max(bold.horizontalAdvance(self._named(gamete)) for gamete in grid.sire) + 14
        self._top = QFontMetricsF(fonts.sans(fonts.NOTE)).height() + bold.height() + 6

    def sizeHint(self) -> QSize:  # noqa: D102
        wide = self._side + self._letters + self._cell * len(self._grid.dam) + 2
        return QSize(int(wide + 0.99), int(self._top + self._row * len(self._grid.sire) + 2.99))

    def minimumSizeHint(self) -> QSize:  # noqa: D102
        return self.sizeHint()

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: D102
        painter = QPainter(self)
        painter.setOpacity(1.0 if self.isEnabled() else OUTDATED)
        colours, grid = colours_of(self.palette()), self._grid
        left = self._side + self._letters
        wide = self._cell * len(grid.dam)
        note = fonts.sans(fonts.NOTE)
        painter.setFont(note)
        painter.setPen(colour(colours.notes))
        high = QFontMetricsF(note).height()
        painter.drawText(QRectF(left, 0, wide, high), _CENTRE, words.DAM)
        tall = self._row * len(grid.sire)
        painter.drawText(QRectF(0, self._top, self._side, tall), Qt.AlignmentFlag.AlignVCenter, words.SIRE)
        painter.setFont(fonts.sans(fonts.HEADING, bold=True))
        painter.setPen(colour(colours.text))
        for column, gamete in enumerate(grid.dam):
            box = QRectF(left + column * self._cell, high, self._cell, self._top - high)
            painter.drawText(box, _CENTRE, self._named(gamete))
        for row, gamete in enumerate(grid.sire):
            box = QRectF(self._side, self._top + row * self._row, self._letters - 6, self._row)
            painter.drawText(box, _CENTRE, self._named(gamete))
        for row, cells in enumerate(grid.cells):
            for column, cell in enumerate(cells):
                corner = QRectF(left + column * self._cell, self._top + row * self._row, self._cell, self._row)
                self._draw(painter, cell, corner)

    def _draw(self, painter: QPainter, cell: Cell, box: QRectF) -> None:
        colours = colours_of(self.palette())
        if cell.is_wanted:
            painter.fillRect(box, colour(colours.selected))
        painter.setPen(colour(colours.hairline))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(box)
        painter.setFont(fonts.sans(fonts.FORM, bold=cell.is_wanted))
        ink = colours.text if cell.is_wanted else colours.caution if cell.is_lethal else colours.second
        painter.setPen(colour(ink))
        painter.drawText(box, _CENTRE, cell.words)

    def _named(self, gamete: Gamete) -> str:
        """The letters, with their share where these are not all alike."""
        return gamete.text if self._grid.is_even else f"{gamete.text}  {fraction_text(gamete.chance, self._numbers)}"
