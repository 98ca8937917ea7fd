"""The coins of the trap: a line for each number of carriers."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from core.explain.trap import Carriers, Trap
from desktop import fonts
from desktop.theme import colour, colours_of
from desktop.why.parts import OUTDATED
from desktop.words import why as words
from desktop.words.numbers import Numbers

_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
_BAR = 110.0


class TrapView(QWidget):
    """Painted, with every line in words for those who do not see it."""

    def __init__(self, trap: Trap, numbers: Numbers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._trap = trap
        self.setAccessibleName(words.trap_spoken(trap, numbers))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        metrics = QFontMetricsF(fonts.sans(fonts.FORM, bold=True))
        self._row = metrics.height() + 4
        self._dot = metrics.height() * 0.8
        self._words = max((metrics.horizontalAdvance(line.words) for line in trap.lines), default=0.0) + 16

    def sizeHint(self) -> QSize:  # noqa: D102
        wide = self._dot * self._trap.count + 16 + self._words + _BAR + 90
        return QSize(int(wide), int(self._row * len(self._trap.lines) + 1))

    def minimumSizeHint(self) -> QSize:  # noqa: D102
        return self.sizeHint()

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: D102
        painter = QPainter(self)
        painter.setOpacity(1.0 if self.isEnabled() else OUTDATED)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for place, line in enumerate(self._trap.lines):
            self._line(painter, line, place * self._row)

    def _line(self, painter: QPainter, line: Carriers, top: float) -> None:
        colours, none = colours_of(self.palette()), line.carriers == 0
        middle, radius = top + self._row / 2, self._dot * 0.34
        for place in range(self._trap.count):
            filled = place < line.carriers
            ink = colour(colours.accent if filled else colours.rule)
            painter.setPen(QPen(ink, 1.3))
            painter.setBrush(ink if filled else Qt.BrushStyle.NoBrush)
            painter.drawEllipse(QPointF((place + 0.5) * self._dot, middle), radius, radius)
        left = self._dot * self._trap.count + 16
        painter.setFont(fonts.sans(fonts.FORM, bold=none))
        painter.setPen(colour(colours.caution if none else colours.text))
        painter.drawText(QRectF(left, top, self._words, self._row), _LEFT, line.words)
        left += self._words
        longest = max(one.chance for one in self._trap.lines)
        bar = QRectF(left, middle - self._dot * 0.3, _BAR * line.chance / longest, self._dot * 0.6)
        painter.fillRect(bar, colour(colours.caution if none else colours.second))
        painter.setFont(fonts.sans(fonts.FORM))
        painter.setPen(colour(colours.second))
        painter.drawText(QRectF(left + _BAR + 12, top, 200, self._row), _LEFT, line.share)
