"""The kept curves and their bands of noise, as items of the plotting library."""

from __future__ import annotations

import numpy as np
from PySide6.QtGui import QColor, QPen

from desktop.marks import mark_of, mark_pen
from desktop.panels.charts.frame import Frame
from desktop.panels.charts.labels import drawn_points
from desktop.panels.charts.library import pg
from desktop.panels.charts.series import Picture, Series
from desktop.theme import Colours, colour

WIDTHS = {"cheapest": 3.0, "selected": 2.4, "other": 1.5}
_BAND = 0.22


class Curves:
    """One curve and one band per route; data are set on them, never drawn anew."""

    def __init__(self, box: pg.ViewBox) -> None:
        self._box = box
        self._curves: dict[str, pg.PlotCurveItem] = {}
        self._bands: dict[str, pg.PlotCurveItem] = {}

    def show(self, picture: Picture, frame: Frame, colours: Colours, scale: float = 1.0) -> None:
        """Another picture; `scale` widens the pens for a larger picture of the same."""
        sight = frame.sight
        self._box.setRange(xRange=(sight.low, sight.high), yRange=(sight.bottom, sight.top), padding=0)
        wanted = {one.id for one in picture.series}
        for gone in self._curves.keys() - wanted:
            self._box.removeItem(self._curves.pop(gone))
            self._box.removeItem(self._bands.pop(gone))
        for one in picture.series:
            self._show_curve(one, frame, colours, scale)

    def ids(self) -> list[str]:
        """The routes that are drawn."""
        return list(self._curves)

    def _show_curve(self, one: Series, frame: Frame, colours: Colours, scale: float) -> None:
        if one.id not in self._curves:
            self._curves[one.id] = pg.PlotCurveItem(antialias=True)
            self._bands[one.id] = pg.PlotCurveItem(antialias=True, fillLevel="enclosed")
            for item in (self._bands[one.id], self._curves[one.id]):
                self._box.addItem(item, ignoreBounds=True)
        curve = self._curves[one.id]
        curve.setPen(_pen(one, colours, scale))
        curve.setZValue(list(WIDTHS).index(one.emphasis) * -1.0)
        curve.setData(*drawn_points(one, frame))
        self._show_band(one, frame, colours)

    def _show_band(self, one: Series, frame: Frame, colours: Colours) -> None:
        band = self._bands[one.id]
        tall = frame.area.height() / (frame.sight.top - frame.sight.bottom)
        if one.noise is None or not one.noise.size or float(np.max(one.noise)) * 2 * tall <= WIDTHS[one.emphasis]:
            band.setData([], [])
            return
        tint = QColor(_ink(one, colours))
        tint.setAlphaF(_BAND)
        band.setPen(None)
        band.setBrush(tint)
        band.setZValue(-10.0)
        below = drawn_points(_moved(one, -one.noise), frame)
        above = drawn_points(_moved(one, one.noise), frame)
        band.setData(np.concatenate([below[0], above[0][::-1]]), np.concatenate([below[1], above[1][::-1]]))


def _moved(one: Series, by: np.ndarray) -> Series:
    return Series(one.id, one.name, one.mark, one.x, np.clip(one.y + by, 0.0, 1.0), is_step=one.is_step)


def _ink(one: Series, colours: Colours) -> QColor:
    return colour(colours.notes) if one.is_stale else mark_of(one.mark).ink(colours)


def _pen(one: Series, colours: Colours, scale: float) -> QPen:
    pen = mark_pen(mark_of(one.mark), colours, WIDTHS[one.emphasis])
    pen.setWidthF(WIDTHS[one.emphasis] * scale)
    pen.setColor(_ink(one, colours))
    return pen
