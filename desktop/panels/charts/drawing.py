"""A whole chart on any painter, as lines and letters: for pictures, drawings and print."""

from __future__ import annotations

import numpy as np
from PySide6.QtCore import QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QColor, QPainter, QPolygonF

from desktop import fonts
from desktop.panels.charts import end_labels, labels
from desktop.panels.charts.curves import BAND, band_of, ink_of, pen_of
from desktop.panels.charts.frame import Frame
from desktop.panels.charts.grip import paint_pill, pill_size
from desktop.panels.charts.layer import Painting, Scene
from desktop.panels.charts.paintings import OVER, room_left, room_over, under
from desktop.panels.charts.series import Picture, Series
from desktop.panels.charts.viewport import whole_of
from desktop.theme import Colours
from desktop.words.charts import goal_chance
from desktop.words.numbers import Numbers


def draw_chart(painter: QPainter, size: QSizeF, picture: Picture, numbers: Numbers, colours: Colours) -> None:
    """The whole of `picture`, from the painter's origin on, at the size of a chart on screen."""
    left, top, right = room_left(numbers), room_over(), end_labels.room(size.width())
    below = fonts.sans(fonts.NOTE).pixelSize() * 1.7
    area = QRectF(left, top, size.width() - left - right, size.height() - top - below)
    frame = Frame(area, whole_of(picture), size.width())
    scene = Scene(frame, picture, colours, labels.lay_out(frame, picture), end_labels.lay_out(frame, picture))
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    for painting in under(numbers):
        _apart(painter, painting, scene)
    _draw_curves(painter, scene)
    for painting in OVER:
        _apart(painter, painting, scene)
    if frame.shows_chance(picture.goal):
        box = QRectF(QPointF(0, 0), QSizeF(pill_size(goal_chance(picture.goal, numbers))))
        box.moveCenter(frame.at(frame.sight.low, picture.goal))
        box.moveRight(area.left() - 4)
        paint_pill(painter, box, goal_chance(picture.goal, numbers), colours)


def _apart(painter: QPainter, painting: Painting, scene: Scene) -> None:
    painter.save()
    painting(painter, scene)
    painter.restore()


def _draw_curves(painter: QPainter, scene: Scene) -> None:
    """Bands first, then the curves from the faintest to the strongest, all within the plot."""
    painter.save()
    painter.setClipRect(scene.frame.area.adjusted(0, -2, 0, 2))
    for one in scene.picture.series:
        _draw_band(painter, one, scene)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    for one in labels.in_order(scene.picture):
        painter.setPen(pen_of(one, scene.colours))
        painter.drawPolyline(_polygon(*labels.drawn_points(one, scene.frame), scene.frame))
    painter.restore()


def _draw_band(painter: QPainter, one: Series, scene: Scene) -> None:
    band = band_of(one, scene.frame)
    if band is None:
        return
    tint = QColor(ink_of(one, scene.colours))
    tint.setAlphaF(BAND)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(tint)
    painter.drawPolygon(_polygon(*band, scene.frame))


def _polygon(x: np.ndarray, y: np.ndarray, frame: Frame) -> QPolygonF:
    return QPolygonF([QPointF(frame.px(float(at)), frame.py(float(high))) for at, high in zip(x, y, strict=True)])
