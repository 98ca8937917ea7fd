"""A chart as a picture, at any size and sharpness."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QImage, QPainter, QPalette

from desktop.panels.charts.canvas import Canvas
from desktop.panels.charts.goal_chance import GoalChance
from desktop.panels.charts.grip import paint_pill, pill_size
from desktop.panels.charts.series import Picture
from desktop.theme import colour, colours_of
from desktop.words.charts import goal_chance
from desktop.words.numbers import Numbers


def chart_image(
    picture: Picture, numbers: Numbers, chance: GoalChance, palette: QPalette, size: QSize, ratio: float
) -> QImage:
    """The whole of `picture` on `size` points of `ratio` px each, in the colours of `palette`."""
    canvas = Canvas("", numbers, chance)
    canvas.setAttribute(Qt.WidgetAttribute.WA_DontShowOnScreen)
    canvas.setPalette(palette)
    canvas.pen_scale = ratio
    canvas.show_picture(picture)
    canvas.resize(size)
    # Layouts of hidden widgets wait for being shown.
    canvas.show()
    image = QImage(size * ratio, QImage.Format.Format_ARGB32_Premultiplied)
    image.setDevicePixelRatio(ratio)
    colours = colours_of(palette)
    image.fill(colour(colours.page))
    painter = QPainter(image)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    target = QRectF(0, 0, size.width(), size.height())
    canvas.view.scene().render(painter, target, QRectF(canvas.view.viewRect()))
    frame = canvas.frame()
    if frame is not None and frame.shows_chance(picture.goal):
        text = goal_chance(picture.goal)
        pill = QRectF(0, 0, pill_size(text).width(), pill_size(text).height())
        pill.moveCenter(frame.at(frame.sight.low, picture.goal))
        pill.moveRight(frame.area.left() - 4)
        paint_pill(painter, pill, text, colours)
    painter.end()
    canvas.close()
    canvas.deleteLater()
    return image
