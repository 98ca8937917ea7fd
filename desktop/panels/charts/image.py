"""A chart as a picture, at any size and sharpness."""

from __future__ import annotations

from PySide6.QtCore import QSize, QSizeF
from PySide6.QtGui import QImage, QPainter

from desktop.panels.charts.drawing import draw_chart
from desktop.panels.charts.series import Picture
from desktop.theme import Colours, colour
from desktop.words.numbers import Numbers


def chart_image(picture: Picture, numbers: Numbers, colours: Colours, size: QSize, ratio: float) -> QImage:
    """The whole of `picture` on `size` points of `ratio` px each."""
    image = QImage(size * ratio, QImage.Format.Format_ARGB32_Premultiplied)
    image.setDevicePixelRatio(ratio)
    image.fill(colour(colours.page))
    painter = QPainter(image)
    draw_chart(painter, QSizeF(size), picture, numbers, colours)
    painter.end()
    return image
