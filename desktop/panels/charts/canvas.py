"""One chart: kept curves in pyqtgraph between two painted layers."""

from __future__ import annotations

import numpy as np
import pyqtgraph as pg
from PySide6.QtCore import QEvent, QObject, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from desktop.marks import mark_of, mark_pen
from desktop.panels.charts import axes, end_labels, overlay
from desktop.panels.charts.frame import Frame
from desktop.panels.charts.layer import Layer
from desktop.panels.charts.readout import Readout
from desktop.panels.charts.series import Picture, Series, stairs
from desktop.panels.charts.strip import strip
from desktop.theme import colour, colours_of
from desktop.words.numbers import Numbers

_WIDTHS = {"cheapest": 3.0, "selected": 2.4, "other": 1.5}
_LEFT, _TOP, _BOTTOM = 58.0, 28.0, 24.0
# Room for the thickest line at 0 and 100 %.
_LOWEST, _HIGHEST = -0.012, 1.015
_KEY_STEPS = 60
# The library keeps its curves at -100.
_UNDER_CURVES = -150


class Canvas(QWidget):
    """Shows a picture; reads out values under the pointer and by Left and Right."""

    def __init__(self, name: str, numbers: Numbers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._picture: Picture | None = None
        # A view box by itself: axes and menus of the library's plot would only be hidden again.
        self.view = pg.GraphicsView(self)
        self._item = pg.GraphicsLayout()
        self._box = pg.ViewBox(enableMenu=False, enableMouse=False, defaultPadding=0)
        self._curves: dict[str, pg.PlotCurveItem] = {}
        self._bands: dict[str, pg.PlotCurveItem] = {}
        self._set_up_view(name)
        self.readout = Readout(numbers, self._read)
        self._layers = self._layered(numbers)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.view)
        self._box.sigResized.connect(self._reframe)
        self.view.scene().sigMouseMoved.connect(self._point)
        self.view.installEventFilter(self)

    def show_picture(self, picture: Picture) -> None:
        """Another picture on the same kept curves."""
        self._picture = picture
        self._box.setRange(xRange=(picture.low, picture.high), yRange=(_LOWEST, _HIGHEST), padding=0)
        wanted = {one.id: one for one in picture.series}
        for gone in self._curves.keys() - wanted.keys():
            self._box.removeItem(self._curves.pop(gone))
            self._box.removeItem(self._bands.pop(gone))
        for one in picture.series:
            self._show_curve(one, picture)
        self.view.setAccessibleDescription(picture.description)
        self.readout.move(None, picture)
        self._reframe()

    def read_at(self, x: float | None) -> None:
        """Reads out another x, or none."""
        if self._picture is not None:
            self.readout.move(x, self._picture)

    def sizeHint(self) -> QSize:  # noqa: D102
        return QSize(560, 168)

    def minimumSizeHint(self) -> QSize:  # noqa: D102
        return QSize(440, 168)

    def changeEvent(self, event: QEvent) -> None:  # noqa: D102
        super().changeEvent(event)
        # Plots do not follow the palette by themselves.
        if event.type() == QEvent.Type.PaletteChange:
            self.view.setBackground(colour(colours_of(self.palette()).page))
            if self._picture is not None:
                self.show_picture(self._picture)

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:  # noqa: D102
        if self._picture is None:
            return False
        if event.type() == QEvent.Type.Leave:
            self.readout.move(None, self._picture)
        return isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress and self._key(event, self._picture)

    def _set_up_view(self, name: str) -> None:
        self.view.setBackground(colour(colours_of(self.palette()).page))
        self.view.setFrameShape(pg.QtWidgets.QFrame.Shape.NoFrame)
        self.view.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.view.setAccessibleName(name)
        self.view.setCentralItem(self._item)
        self._item.addItem(self._box)
        self._item.setContentsMargins(_LEFT, _TOP, end_labels.ROOM, _BOTTOM)
        # Wheel and drag belong to the page until zooming is offered.
        self.view.wheelEvent = _leave_to_the_page

    def _layered(self, numbers: Numbers) -> tuple[Layer, ...]:
        under = (axes.over_limit, axes.hairlines, axes.bottom_numbers(numbers))
        over = (
            overlay.outright_price,
            overlay.goal_line,
            overlay.symbols,
            overlay.crossings,
            end_labels.end_labels,
            strip,
        )
        return (
            Layer(self._item, _UNDER_CURVES, under),
            Layer(self._item, 50, over),
            Layer(self._item, 60, (self.readout.paint,)),
        )

    def _show_curve(self, one: Series, picture: Picture) -> None:
        curve = self._curves.get(one.id)
        if curve is None:
            curve = self._curves[one.id] = pg.PlotCurveItem(antialias=True)
            band = self._bands[one.id] = pg.PlotCurveItem()
            for item in (band, curve):
                self._box.addItem(item, ignoreBounds=True)
        colours = colours_of(self.palette())
        x, y = stairs(one.x, one.y, picture.high) if one.is_step else (one.x, one.y)
        curve.setPen(mark_pen(mark_of(one.place), colours, _WIDTHS[one.emphasis]))
        curve.setZValue(list(_WIDTHS).index(one.emphasis) * -1.0)
        curve.setData(x, y)
        self._show_band(one)

    def _show_band(self, one: Series) -> None:
        band = self._bands[one.id]
        height = self._box.height() or 160.0
        if one.noise is None or float(np.max(one.noise)) * 2 * height < _WIDTHS[one.emphasis]:
            band.setData([], [])
            return
        tint = mark_of(one.place).ink(colours_of(self.palette())).lighter(100)
        tint.setAlphaF(0.22)
        band.setPen(None)
        band.setBrush(tint)
        x = np.concatenate([one.x, one.x[::-1]])
        y = np.concatenate([one.y - one.noise, (one.y + one.noise)[::-1]])
        band.setFillLevel("enclosed")
        band.setData(x, y)

    def _reframe(self) -> None:
        frame, picture = self._frame(), self._picture
        if frame is None or picture is None:
            return
        rect = QRectF(QPointF(0, 0), self._item.size())
        for layer in self._layers:
            layer.show_scene(rect, frame, picture, colours_of(self.palette()))

    def _frame(self) -> Frame | None:
        area = self._box.geometry()
        if self._picture is None or area.width() < 10 or area.height() < 10:
            return None
        picture = self._picture
        return Frame(QRectF(area), picture.low, picture.high, _LOWEST, _HIGHEST, self._item.size().width())

    def _point(self, at: QPointF) -> None:
        frame = self._frame()
        if frame is None or self._picture is None:
            return
        inside = self._item.mapFromScene(at)
        self.readout.move(frame.x_of(inside.x()) if frame.area.contains(inside) else None, self._picture)

    def _key(self, event: QKeyEvent, picture: Picture) -> bool:
        if event.key() == Qt.Key.Key_Escape and self.readout.x is not None:
            self.readout.move(None, picture)
            return True
        turns = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}
        if event.key() not in turns:
            return False
        step = picture.step or (picture.high - picture.low) / _KEY_STEPS
        start = picture.low if self.readout.x is None else self.readout.x
        self.readout.move(start + turns[Qt.Key(event.key())] * step, picture)
        return True

    def _read(self) -> None:
        self._layers[-1].update()
        if self._picture is not None:
            self.view.setAccessibleDescription(self.readout.words(self._picture))


def _leave_to_the_page(event: QEvent) -> None:
    event.ignore()
