"""A painter whose letters are outlines: a drawing then looks the same where our fonts are not installed."""

from __future__ import annotations

from PySide6.QtCore import QBuffer, QIODevice, QPointF, QRectF, QSize, QSizeF, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPainterPath
from PySide6.QtSvg import QSvgGenerator

from desktop.panels.charts.drawing import draw_chart
from desktop.panels.charts.series import Picture
from desktop.theme import LIGHT, colour
from desktop.words.numbers import Numbers


class Outlined(QPainter):
    """Draws one line of text in a box as filled shapes."""

    def drawText(self, box: QRectF, flags: int | Qt.AlignmentFlag | Qt.TextFlag, text: str) -> None:  # type: ignore[override]
        """As the painter's own, for one line."""
        metrics = QFontMetricsF(self.font())
        wide, sides = metrics.horizontalAdvance(text), Qt.AlignmentFlag(int(flags) & 0xFF)
        x = box.left()
        if sides & Qt.AlignmentFlag.AlignRight:
            x = box.right() - wide
        elif sides & Qt.AlignmentFlag.AlignHCenter:
            x = box.center().x() - wide / 2
        top = box.top()
        if sides & Qt.AlignmentFlag.AlignVCenter:
            top = box.center().y() - metrics.height() / 2
        elif sides & Qt.AlignmentFlag.AlignBottom:
            top = box.bottom() - metrics.height()
        path = QPainterPath()
        path.addText(QPointF(x, top + metrics.ascent()), self.font(), text)
        self.fillPath(path, self.pen().color())


def chart_svg(picture: Picture, numbers: Numbers, size: QSize, title: str) -> bytes:
    """A chart as a drawing, on white, in the light colours."""
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    generator = QSvgGenerator(QSvgGenerator.SvgVersion.Svg11)
    generator.setOutputDevice(buffer)
    generator.setSize(size)
    generator.setViewBox(QRectF(QPointF(0, 0), QSizeF(size)))
    generator.setTitle(title)
    generator.setDescription(picture.description)
    painter = Outlined(generator)
    painter.fillRect(QRectF(QPointF(0, 0), QSizeF(size)), colour("#FFFFFF"))
    draw_chart(painter, QSizeF(size), picture, numbers, LIGHT)
    painter.end()
    return bytes(buffer.data().data())
