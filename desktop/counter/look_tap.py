"""One look of what hatches, with its dots out of 100, and the row of ten dots of a chance."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetrics, QPainter, QPainterPath, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from core.counter.card import Row
from core.text import tr
from desktop.counter.taps import RowTap, draw_words
from desktop.counter.type import Type
from desktop.theme import colour, colours_of
from desktop.words import counter as words

_ACROSS, _STEP, _RADIUS = 25, 11.5, 4.6
_LEAST_HIGH = 76
_TENS = 10


class LookTap(RowTap):
    """Tapped, it becomes the goal. The dots stand beside its name, or below it where there is no room."""

    def __init__(self, type_: Type, row: Row, parent: QWidget | None = None) -> None:
        self._dots = 0
        super().__init__(type_, "", parent=parent)
        self.setCheckable(True)
        self.show_row(row)

    def show_row(self, row: Row) -> None:
        """Shows a look."""
        self._dots = row.dots
        self.show_words(row.look, row.hides, row.share)
        self.setAccessibleName(words.look_spoken(row.look, row.hides, row.share))
        self.setChecked(row.is_goal)

    def heightForWidth(self, width: int) -> int:  # noqa: D102
        return max(self.type.px(_LEAST_HIGH), self._inside_high(width) + self.type.px(18))

    def _inside_high(self, width: int) -> int:
        words_high, dots = self._words_high(self._name_room(width)), self._dots_high()
        return max(words_high, dots) if self._is_beside(width) else words_high + dots + self.type.px(6)

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: D102
        painter, colours = QPainter(self), self.colours
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_ground(painter)
        left, room = self.type.px(14), self._name_room(self.width())
        high = self._words_high(room) if self._is_beside(self.width()) else self._inside_high(self.width())
        top = (self.height() - high) // 2
        face = self.type.strong if self.isChecked() else self.type.text
        down = top + draw_words(painter, face, colours.text, QRect(left, top, room, self.height()), self.text())
        if self._note:
            box = QRect(left, down, room, self.height())
            down += draw_words(painter, self.type.note, colours.second, box, self._note)
        ends = QRect(0, 0, self.width() - self.type.px(12), self.height())
        painter.setFont(face)
        painter.setPen(colour(colours.text))
        painter.drawText(ends, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, self._figure)
        if self._is_beside(self.width()):
            self._paint_dots(painter, left + room + self.type.px(12), (self.height() - self._dots_high()) // 2)
        else:
            self._paint_dots(painter, left, down + self.type.px(6))
        self.paint_focus(painter)

    def _paint_dots(self, painter: QPainter, left: int, top: int) -> None:
        step, radius = _STEP * self.type.unit, _RADIUS * self.type.unit
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour(self.colours.accent if self.isChecked() else self.colours.second))
        for place in range(self._dots):
            at = QPointF(left + (place % _ACROSS + 0.5) * step, top + (place // _ACROSS + 0.5) * step)
            painter.drawEllipse(at, radius, radius)

    def _dots_high(self) -> int:
        return round(-(-self._dots // _ACROSS) * _STEP * self.type.unit)

    def _dots_wide(self) -> int:
        return round(_ACROSS * _STEP * self.type.unit)

    def _share_wide(self) -> int:
        widest = tr("more than 99 in 100") if len(self._figure) > len("99 in 100") else tr("99 in 100")
        return QFontMetrics(self.type.strong).horizontalAdvance(widest) + self.type.px(24)

    def _is_beside(self, width: int) -> bool:
        return width - self._share_wide() - self._dots_wide() >= self.type.strong.pixelSize() * 9

    def _name_room(self, width: int) -> int:
        room = width - self.type.px(26) - self._share_wide()
        return max(room - self._dots_wide() - self.type.px(12) if self._is_beside(width) else room, self.type.px(80))


class Tens(QWidget):
    """A chance as ten dots: only what is certain fills the last one."""

    def __init__(self, type_: Type, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._unit = type_.unit
        self._share = 0
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def set_share(self, share: int) -> None:
        """Fills as much as `share` of 100."""
        self._share = share
        self.update()

    def sizeHint(self) -> QSize:  # noqa: D102
        return QSize(round(_TENS * self._step()), round(self._step()))

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: D102
        painter, colours = QPainter(self), colours_of(self.palette())
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        radius = 7.5 * self._unit
        full, rings = QPainterPath(), QPainterPath()
        for place in range(_TENS):
            at = QPointF((place + 0.5) * self._step(), self._step() / 2)
            full.addEllipse(at, radius, radius)
            rings.addEllipse(at, radius - 0.5, radius - 0.5)
        painter.setPen(QPen(colour(colours.rule), 1.2))
        painter.drawPath(rings)
        painter.setClipRect(QRectF(0, 0, self._edge(radius), self._step()))
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour(colours.accent))
        painter.drawPath(full)

    def _edge(self, radius: float) -> float:
        """How far to the right it is filled."""
        whole, rest = divmod(self._share, _TENS)
        begins = (whole + 0.5) * self._step() - radius
        return whole * self._step() if not rest else begins + 2 * radius * rest / _TENS

    def _step(self) -> float:
        return 18.5 * self._unit
