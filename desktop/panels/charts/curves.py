"""The kept curves and their bands of noise, as items of the plotting library."""

from __future__ import annotations

import numpy as np
from PySide6.QtGui import QColor, QPen

from core.routes.result import Floats
from desktop.marks import mark_of, mark_pen
from desktop.panels.charts.frame import Frame
from desktop.panels.charts.labels import drawn_points
from desktop.panels.charts.library import pg
from desktop.panels.charts.series import Picture, Series
from desktop.theme import Colours, colour

WIDTHS = {"cheapest": 3.0, "selected": 2.4, "other": 1.5}
# How strongly a band of noise is tinted.
BAND = 0.22
_NONE: Floats = np.zeros(0)


class Curves:
    """One curve and one band per route; data are set on them, never drawn anew."""

    def __init__(self, box: pg.ViewBox) -> None:
        self._box = box
        self._curves: dict[str, pg.PlotCurveItem] = {}
        self._bands: dict[str, pg.PlotCurveItem] = {}

    def show(self, picture: Picture, frame: Frame, colours: Colours) -> None:
        """Another picture."""
        sight = frame.sight
        self._box.setRange(xRange=(sight.low, sight.high), yRange=(sight.bottom, sight.top), padding=0)
        wanted = {one.id for one in picture.series}
        for gone in self._curves.keys() - wanted:
            self._box.removeItem(self._curves.pop(gone))
            self._box.removeItem(self._bands.pop(gone))
        for one in picture.series:
            self._show_curve(one, frame, colours)

    def ids(self) -> list[str]:
        """The routes that are drawn."""
        return list(self._curves)

    def _show_curve(self, one: Series, frame: Frame, colours: Colours) -> None:
        if one.id not in self._curves:
            self._curves[one.id] = pg.PlotCurveItem(antialias=True)
            self._bands[one.id] = pg.PlotCurveItem(antialias=True, fillLevel="enclosed")
            for item in (self._bands[one.id], self._curves[one.id]):
                self._box.addItem(item, ignoreBounds=True)
        curve, pen = self._curves[one.id], pen_of(one, colours)
        if pen != curve.opts["pen"]:
            curve.setPen(pen)
        curve.setZValue(list(WIDTHS).index(one.emphasis) * -1.0)
        _set_points(curve, *drawn_points(one, frame))
        self._show_band(one, frame, colours)

    def _show_band(self, one: Series, frame: Frame, colours: Colours) -> None:
        band = self._bands[one.id]
        around = band_of(one, frame)
        if around is None:
            _set_points(band, _NONE, _NONE)
            return
        tint = QColor(ink_of(one, colours))
        tint.setAlphaF(BAND)
        band.setPen(None)
        band.setBrush(tint)
        band.setZValue(-10.0)
        _set_points(band, *around)


def _set_points(item: pg.PlotCurveItem, x: Floats, y: Floats) -> None:
    """Sets the corners where they are others than before: the library works its bounds out anew for each setting."""
    before_x, before_y = item.getData()
    known = before_x is not None and before_y is not None
    if not known or not (np.array_equal(before_x, x) and np.array_equal(before_y, y)):
        item.setData(x, y)


def band_of(one: Series, frame: Frame) -> tuple[Floats, Floats] | None:
    """The outline of the noise around a curve; None where it is no wider than the line."""
    tall = frame.area.height() / (frame.sight.top - frame.sight.bottom)
    if one.noise is None or not one.noise.size or float(np.max(one.noise)) * 2 * tall <= WIDTHS[one.emphasis]:
        return None
    below = drawn_points(_moved(one, -one.noise), frame)
    above = drawn_points(_moved(one, one.noise), frame)
    return np.concatenate([below[0], above[0][::-1]]), np.concatenate([below[1], above[1][::-1]])


def _moved(one: Series, by: np.ndarray) -> Series:
    return Series(one.id, one.name, one.mark, one.x, np.clip(one.y + by, 0.0, 1.0), is_step=one.is_step)


def ink_of(one: Series, colours: Colours) -> QColor:
    """The colour of a curve; grey while a new answer is on its way."""
    return colour(colours.notes) if one.is_stale else mark_of(one.mark).ink(colours)


def pen_of(one: Series, colours: Colours) -> QPen:
    """The line of a curve."""
    pen = mark_pen(mark_of(one.mark), colours, WIDTHS[one.emphasis])
    pen.setColor(ink_of(one, colours))
    return pen
