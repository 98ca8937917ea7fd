"""The ladder drawn: a bar for each step down, the figures beside it, one route or two."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from desktop import fonts
from desktop.marks import draw_symbol, mark_of
from desktop.theme import Colours, colour, colours_of
from desktop.why.ladder_rows import Row, Scale, rows_spoken, scale_of
from desktop.why.parts import OUTDATED
from desktop.words import why as words
from desktop.words.numbers import Numbers

_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
_CENTRE = Qt.AlignmentFlag.AlignCenter
_DOT = 5.5
# At least between two figures under the ladder.
_APART = 5.0


class LadderView(QWidget):
    """Painted; its rows are told in words too. places: of the routes in the plan, for their marks; none for one."""

    def __init__(self, numbers: Numbers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._numbers = numbers
        self._rows: tuple[Row, ...] = ()
        self._names: tuple[str, ...] = ()
        self._places: tuple[int, ...] = ()
        self._goal = 0.0
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(words.LADDER)

    def show_rows(self, rows: tuple[Row, ...], goal: float, names: tuple[str, ...], places: tuple[int, ...]) -> None:
        """Other rows; `goal` in percent."""
        self._rows, self._goal, self._names, self._places = rows, goal, names, places
        self.setAccessibleDescription(rows_spoken(rows, names))
        self.updateGeometry()
        self.update()

    def rows(self) -> tuple[Row, ...]:
        """What is shown."""
        return self._rows

    def sizeHint(self) -> QSize:  # noqa: D102
        return QSize(560, int(self._head() + sum(map(self._high, self._rows)) + self._foot() + 1))

    def minimumSizeHint(self) -> QSize:  # noqa: D102
        return QSize(420, self.sizeHint().height())

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: D102
        if not self._rows:
            return
        painter = QPainter(self)
        painter.setOpacity(1.0 if self.isEnabled() else OUTDATED)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colours, scale = colours_of(self.palette()), scale_of(self._rows, self._goal)
        self._lines(painter, colours, scale)
        top = self._head()
        last: list[QPointF | None] = [None] * len(self._rows[0].spans)
        for row in self._rows:
            self._row(painter, colours, scale, row, top, last)
            top += self._high(row)

    # Where things stand.

    def _line(self) -> float:
        return QFontMetricsF(fonts.sans(fonts.FORM, bold=True)).height()

    def _high(self, row: Row) -> float:
        return self._line() + 12 + (QFontMetricsF(fonts.sans(fonts.NOTE)).height() if row.note else 0)

    def _head(self) -> float:
        return self._line() + 6 if len(self._names) > 1 else 0.0

    def _foot(self) -> float:
        return QFontMetricsF(fonts.sans(fonts.NOTE)).height() + 6

    def _figures(self) -> float:
        """The width of a column of figures."""
        wide = QFontMetricsF(fonts.sans(fonts.FORM, bold=True)).horizontalAdvance("> 99.9 ")
        if len(self._names) > 1:
            wide = max(wide, QFontMetricsF(fonts.sans(fonts.NOTE)).horizontalAdvance(words.DIFFERENCE))
        return wide + 14

    def _left(self) -> float:
        metrics = QFontMetricsF(fonts.sans(fonts.FORM, bold=True))
        longest = max(metrics.horizontalAdvance(row.label) for row in self._rows)
        return min(longest + 16, self.width() * 0.5)

    def _right(self) -> float:
        return self.width() - self._figures() * len(self._rows[0].figures) - 8

    def _x(self, scale: Scale, value: float) -> float:
        left, right = self._left() + 8, self._right() - 8
        return left + (value - scale.low) / (scale.high - scale.low) * (right - left)

    # What is drawn.

    def _lines(self, painter: QPainter, colours: Colours, scale: Scale) -> None:
        top, bottom = self._head(), self.height() - self._foot()
        note = fonts.sans(fonts.NOTE)
        goal = self._x(scale, self._goal)
        label = words.goal(self._goal, self._numbers)
        wide = QFontMetricsF(fonts.sans(fonts.NOTE, bold=True)).horizontalAdvance(label)
        painter.setFont(note)
        painter.setPen(colour(colours.notes))
        # From the end, which tells the unit: what has no room beside it is left out.
        free = float(self.width())
        for tick in reversed(scale.ticks):
            x = self._x(scale, tick)
            painter.fillRect(QRectF(x, top, 1, bottom - top), colour(colours.hairline))
            text = words.percentage(tick, self._numbers) if tick == scale.ticks[-1] else str(tick)
            half = QFontMetricsF(note).horizontalAdvance(text) / 2
            if abs(x - goal) > wide / 2 + 14 and x + half < free:
                painter.drawText(QRectF(x - 30, bottom + 2, 60, self._foot() - 4), _CENTRE, text)
                free = x - half - _APART
        painter.fillRect(QRectF(goal - 0.75, top, 1.5, bottom - top), colour(colours.accent))
        painter.setFont(fonts.sans(fonts.NOTE, bold=True))
        painter.setPen(colour(colours.accent))
        painter.drawText(QRectF(goal - wide, bottom + 2, 2 * wide, self._foot() - 4), _CENTRE, label)
        if len(self._names) > 1:
            self._heads(painter, colours)

    def _heads(self, painter: QPainter, colours: Colours) -> None:
        """The routes' marks over their figures, and what the last column is."""
        width, middle = self._figures(), self._line() / 2
        for column, place in enumerate(self._places):
            at = QPointF(self._right() + 8 + (column + 1) * width - 8, middle)
            draw_symbol(painter, mark_of(place), colours, at, 10)
        painter.setFont(fonts.sans(fonts.NOTE))
        painter.setPen(colour(colours.second))
        painter.drawText(QRectF(self.width() - width, 0, width, self._line()), _RIGHT, words.DIFFERENCE)

    def _row(
        self, painter: QPainter, colours: Colours, scale: Scale, row: Row, top: float, last: list[QPointF | None]
    ) -> None:
        end = row.kind != "rung"
        high = self._line() + 12
        if row.note:
            self._note(painter, colours, row.note, top + self._line() + 7)
        painter.setFont(fonts.sans(fonts.FORM, bold=end))
        painter.setPen(colour(colours.text))
        label = painter.fontMetrics().elidedText(row.label, Qt.TextElideMode.ElideRight, int(self._left() - 8))
        painter.drawText(QRectF(0, top, self._left(), high), _LEFT, label)
        self._write(painter, colours, row, QRectF(self._right() + 8, top, self._figures(), high))
        lane = high / len(row.spans)
        for place, span in enumerate(row.spans):
            middle = top + (place + 0.5) * lane
            if len(row.spans) == 1:
                middle = top + high / 2
            self._span(painter, colours, scale, row, place, span, middle, last)

    def _write(self, painter: QPainter, colours: Colours, row: Row, box: QRectF) -> None:
        for column, figure in enumerate(row.figures):
            painter.setFont(fonts.sans(fonts.FORM, bold=row.kind != "rung" or column == 2))
            painter.setPen(colour(colours.text if figure.strip("0.,") else colours.notes))
            painter.drawText(box.translated(column * self._figures(), 0), _RIGHT, figure)

    def _note(self, painter: QPainter, colours: Colours, text: str, top: float) -> None:
        font = fonts.sans(fonts.NOTE)
        metrics = QFontMetricsF(font)
        text = metrics.elidedText(text, Qt.TextElideMode.ElideRight, self._right())
        box = QRectF(0, top, metrics.horizontalAdvance(text) + 6, metrics.height())
        painter.fillRect(box, colour(colours.page))
        painter.setFont(font)
        painter.setPen(colour(colours.notes))
        painter.drawText(box, _LEFT, text)

    def _span(
        self,
        painter: QPainter,
        colours: Colours,
        scale: Scale,
        row: Row,
        place: int,
        span: tuple[float, float],
        middle: float,
        last: list[QPointF | None],
    ) -> None:
        begin, end = (QPointF(self._x(scale, value), middle) for value in span)
        ink = self._ink(colours, place)
        came = last[place]
        if came is not None and row.kind == "rung":
            painter.setPen(QPen(colour(colours.notes), 1))
            painter.drawLine(QPointF(begin.x(), came.y()), begin)
        if row.kind == "textbook":
            self._dot(painter, begin, ink if len(row.spans) > 1 else colour(colours.second), filled=True)
        elif row.kind == "rung":
            thick = 8.0 if len(row.spans) > 1 else 18.0
            painter.fillRect(QRectF(begin, end).normalized().adjusted(-0.6, -thick / 2, 0.6, thick / 2), ink)
        else:
            if came is not None:
                painter.setPen(QPen(colour(colours.notes), 1))
                painter.drawLine(came, end)
            real = ink if len(row.spans) > 1 else colour(colours.accent)
            painter.setPen(QPen(real, 1.5, Qt.PenStyle.DotLine))
            painter.drawLine(end, begin)
            self._dot(painter, begin, real, filled=False)
            self._dot(painter, end, real, filled=True)
        last[place] = end

    def _ink(self, colours: Colours, place: int) -> QColor:
        return mark_of(self._places[place]).ink(colours) if self._places else colour(colours.caution)

    def _dot(self, painter: QPainter, at: QPointF, ink: QColor, *, filled: bool) -> None:
        painter.setPen(QPen(ink, 1.6))
        painter.setBrush(ink if filled else colour(colours_of(self.palette()).page))
        painter.drawEllipse(at, _DOT, _DOT)
