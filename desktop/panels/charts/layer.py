"""A layer over or under the curves that paints in px with the whole scene at hand."""

from __future__ import annotations

from collections.abc import Callable

import msgspec
from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from desktop.panels.charts.end_labels import EndLabel
from desktop.panels.charts.frame import Frame
from desktop.panels.charts.labels import Label
from desktop.panels.charts.series import Picture
from desktop.theme import Colours


class Scene(msgspec.Struct, frozen=True):
    """Everything that is painted, laid out once for many repaints."""

    frame: Frame
    picture: Picture
    colours: Colours
    labels: tuple[Label, ...]
    ends: tuple[EndLabel, ...]


Painting = Callable[[QPainter, Scene], None]


class Layer(QGraphicsItem):
    """Draws its paintings in order; knows nothing of the curves."""

    def __init__(self, parent: QGraphicsItem, depth: float, paintings: tuple[Painting, ...]) -> None:
        super().__init__(parent)
        self.setZValue(depth)
        self._paintings = paintings
        self._scene: Scene | None = None
        self._rect = QRectF()

    def show_scene(self, rect: QRectF, scene: Scene) -> None:
        """Another scene."""
        if rect != self._rect:
            self.prepareGeometryChange()
            self._rect = QRectF(rect)
        self._scene = scene
        self.update()

    def boundingRect(self) -> QRectF:  # noqa: D102
        return self._rect

    def paint(self, painter: QPainter, _option: QStyleOptionGraphicsItem, _widget: QWidget | None = None) -> None:  # noqa: D102
        if self._scene is None:
            return
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for painting in self._paintings:
            painter.save()
            painting(painter, self._scene)
            painter.restore()
