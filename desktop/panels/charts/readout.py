"""The read-out: every route's chance at one x, beside an upright line."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPen

from desktop import fonts
from desktop.marks import draw_symbol, mark_of
from desktop.panels.charts.frame import Frame
from desktop.panels.charts.series import Picture, Series, noise_at, value_at
from desktop.theme import Colours, colour
from desktop.words.charts import chance_read
from desktop.words.numbers import Numbers

_ROW, _PAD, _MARK = 20.0, 10.0, 18.0
_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter


class Readout:
    """What is read out, and at which x; painted by the top layer."""

    def __init__(self, numbers: Numbers, changed: Callable[[], None]) -> None:
        self._numbers, self._changed = numbers, changed
        self.x: float | None = None

    def move(self, x: float | None, picture: Picture) -> None:
        """Reads at another x; None ends it."""
        if x is not None:
            x = min(max(x, picture.low), picture.high)
            if picture.step:
                x = max(round(x / picture.step) * picture.step, picture.low)
        if x != self.x:
            self.x = x
            self._changed()

    def words(self, picture: Picture) -> str:
        """The read-out as one sentence, for those who do not see it."""
        if self.x is None:
            return picture.description
        rows = (f"{one.name}: {value}" for one, value in self._rows(picture))
        return f"{self._head(picture)}: {'; '.join(rows)}"

    def paint(self, painter: QPainter, frame: Frame, picture: Picture, colours: Colours) -> None:
        """Draws the line and the box, where something is read out."""
        if self.x is None:
            return
        x = frame.px(self.x)
        painter.setPen(QPen(colour(colours.notes), 1.2))
        painter.drawLine(QPointF(x, frame.py(0)), QPointF(x, frame.py(1)))
        rows = self._rows(picture)
        metrics = QFontMetricsF(fonts.sans(fonts.HEAD, bold=True))
        width = max((metrics.horizontalAdvance(f"{one.name}{value}") for one, value in rows), default=80.0)
        row = min(_ROW, (frame.area.bottom() + 8 - _PAD) / (len(rows) + 1))
        box = QRectF(0, 0, width + _MARK + 3 * _PAD + 16, row * (len(rows) + 1) + _PAD)
        left = x + 12 if x + 12 + box.width() < frame.width else x - 12 - box.width()
        box.moveTo(max(left, 2.0), max(2.0, frame.area.bottom() - box.height() - 8))
        self._box(painter, box, picture, rows, colours)

    def _box(
        self, painter: QPainter, box: QRectF, picture: Picture, rows: list[tuple[Series, str]], colours: Colours
    ) -> None:
        painter.setPen(QPen(colour(colours.rule), 1))
        painter.setBrush(colour(colours.field))
        painter.drawRoundedRect(box, 4, 4)
        row = (box.height() - _PAD) / (len(rows) + 1)
        line = QRectF(box.left() + _PAD, box.top() + _PAD / 2, box.width() - 2 * _PAD, row)
        painter.setPen(colour(colours.text))
        painter.setFont(fonts.sans(fonts.HEAD, bold=True))
        painter.drawText(line, _LEFT, self._head(picture))
        for one, value in rows:
            line.translate(0, row)
            draw_symbol(painter, mark_of(one.place), colours, QPointF(line.left() + 5, line.center().y()), 8)
            painter.setFont(fonts.sans(fonts.HEAD, bold=one.emphasis != "other"))
            painter.setPen(colour(colours.text))
            painter.drawText(line.adjusted(_MARK, 0, 0, 0), _LEFT, one.name)
            painter.drawText(line, _RIGHT, value)

    def _head(self, picture: Picture) -> str:
        return picture.read_at.format(self._numbers.whole(round(self.x or 0)))

    def _rows(self, picture: Picture) -> list[tuple[Series, str]]:
        at = self.x or 0.0
        valued = [(one, value_at(one, at)) for one in picture.series]
        valued.sort(key=lambda pair: -1.0 if pair[1] is None else pair[1], reverse=True)
        return [(one, chance_read(value, noise_at(one, at), self._numbers)) for one, value in valued]
