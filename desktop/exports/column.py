"""A column of a printed page: texts and shapes from top to bottom, measured before they are painted."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPen, QTextLayout, QTextOption

from desktop.theme import LIGHT, colour

_Op = Callable[[QPainter], None]


class Column:
    """Collects what is to be painted between `left` and `right`, from `top` on; `y` is where the next thing goes."""

    def __init__(self, left: float, right: float, top: float) -> None:
        self.left, self.right, self.y = left, right, top
        self._ops: list[_Op] = []

    @property
    def width(self) -> float:
        """How wide it is."""
        return self.right - self.left

    def paint(self, painter: QPainter) -> None:
        """Paints all that was collected."""
        for op in self._ops:
            op(painter)

    def space(self, high: float) -> None:
        """Leaves room."""
        self.y += high

    def text(self, text: str, font: QFont, ink: str = LIGHT.text, *, most: int = 0, gap: float = 0.0) -> None:
        """A paragraph; `most` lines of it, the last cut with dots; all of it by default."""
        for line in lines_of(text, font, self.width, most):
            self._line(line, font, ink)
        self.y += gap

    def row(
        self, left: str, right: str, font: QFont, ink: str = LIGHT.text, *, right_font: QFont | None = None
    ) -> None:
        """Words at the left and at the right of one line; those at the left give way."""
        other = right_font or font
        room = self.width - QFontMetricsF(other).horizontalAdvance(right) - 16
        shown = QFontMetricsF(font).elidedText(left, Qt.TextElideMode.ElideRight, room)
        high = max(QFontMetricsF(font).height(), QFontMetricsF(other).height())
        box = QRectF(self.left, self.y, self.width, high)
        self.add(drawn(box, shown, font, ink))
        self.add(drawn(box, right, other, ink, Qt.AlignmentFlag.AlignRight))
        self.y += high

    def rule(self, ink: str = LIGHT.hairline, thick: float = 1.5, gap: float = 0.0) -> None:
        """A line across."""
        y = self.y
        self.add(_ruled(QPointF(self.left, y), QPointF(self.right, y), colour(ink), thick))
        self.y += gap

    def add(self, op: _Op) -> None:
        """Anything else; it moves nothing down."""
        self._ops.append(op)

    def _line(self, text: str, font: QFont, ink: str) -> None:
        high = QFontMetricsF(font).height()
        self.add(drawn(QRectF(self.left, self.y, self.width, high), text, font, ink))
        self.y += high


def lines_of(text: str, font: QFont, width: float, most: int = 0) -> list[str]:
    """The text broken into lines, at the words where it can be; the last of `most` ends in dots where more follows."""
    # A number stays with its per cent sign.
    layout = QTextLayout(text.replace("\n", " ").replace(" %", "\u00a0%"), font)
    option = QTextOption()
    option.setWrapMode(QTextOption.WrapMode.WrapAtWordBoundaryOrAnywhere)
    layout.setTextOption(option)
    layout.beginLayout()
    lines: list[str] = []
    while (line := layout.createLine()).isValid():
        line.setLineWidth(width)
        start, length = line.textStart(), line.textLength()
        whole = layout.text()
        # Qt counts UTF-16 units.
        units = whole.encode("utf-16-le")
        rest = units[2 * start :].decode("utf-16-le", "ignore")
        if most and len(lines) == most - 1:
            lines.append(QFontMetricsF(font).elidedText(rest, Qt.TextElideMode.ElideRight, width))
            break
        lines.append(units[2 * start : 2 * (start + length)].decode("utf-16-le", "ignore").strip())
    layout.endLayout()
    return lines


def drawn(box: QRectF, text: str, font: QFont, ink: str, side: Qt.AlignmentFlag = Qt.AlignmentFlag.AlignLeft) -> _Op:
    """One line of text in a box."""
    flags = side | Qt.AlignmentFlag.AlignVCenter | Qt.TextFlag.TextSingleLine

    def op(painter: QPainter) -> None:
        painter.setFont(font)
        painter.setPen(colour(ink))
        painter.drawText(box, flags, text)

    return op


def _ruled(start: QPointF, end: QPointF, ink: QColor, thick: float) -> _Op:
    def op(painter: QPainter) -> None:
        painter.setPen(QPen(ink, thick))
        painter.drawLine(start, end)

    return op
