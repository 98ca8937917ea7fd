"""Route marks: colour, dash and symbol together, so that a route is told apart without colour."""

from __future__ import annotations

import math
from functools import cache

import msgspec
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPainterPath, QPen, QTransform

from core.text import tr
from desktop.theme import Colours, colour


class Mark(msgspec.Struct, frozen=True):
    """One route's mark; `dash` is in pen widths at 2 px, empty for a solid line."""

    name: str
    light: str
    dark: str
    dash: tuple[float, ...]
    symbol: str

    def ink(self, colours: Colours) -> QColor:
        """Its colour on that page."""
        return colour(self.dark if colours.dark else self.light)


_COLOURS = (
    (tr("blue"), "#0072B2", "#2A92D8"), (tr("vermillion"), "#D55E00", "#E5702A"), (tr("green"), "#009C72", "#1BAE85"),
    (tr("purple"), "#C16E9C", "#CC79A7"), (tr("orange"), "#B08100", "#E69F00"), (tr("sky"), "#1B8ED1", "#7CC8F2"),
    (tr("ink"), "#000000", "#F4F4EE"), (tr("yellow"), "#948A0C", "#F0E442"),
)  # fmt: skip
_DASHES: tuple[tuple[str, tuple[float, ...]], ...] = (
    (tr("solid"), ()), (tr("dashed"), (3.2, 2.2)), (tr("dash dot"), (4.6, 1.9, 1.2, 1.9)), (tr("dotted"), (1.2, 2)),
    (tr("long dash"), (7.6, 2.6)), (tr("dash dot dot"), (4.2, 1.7, 1.2, 1.7, 1.2, 1.7)), (tr("solid"), ()),
    (tr("sparse dot"), (1.2, 4.2)),
)  # fmt: skip
_SYMBOLS = (
    (tr("circle"), "o"), (tr("square"), "s"), (tr("triangle up"), "t1"), (tr("diamond"), "d"),
    (tr("triangle down"), "t"), (tr("star"), "star"), (tr("plus"), "+"), (tr("cross"), "x"),
)  # fmt: skip
# How far dashes and symbols are moved against the colours, each time the colours begin again. Of the first four, no
# line with its symbol comes twice, whatever its colour (two of the dashes are the solid line).
_MOVED = ((0, 0), (1, 2), (4, 1), (5, 1), (2, 4), (6, 3), (3, 7), (7, 6))
LIST_MARK_WIDTH = 56


@cache
def mark_of(number: int) -> Mark:
    """The mark of that number: 64 marks differ, the first 32 of them without their colours too."""
    moved, first = divmod(number, len(_COLOURS))
    dashes, symbols = _MOVED[moved % len(_MOVED)]
    colour_name, light, dark = _COLOURS[first]
    dash_name, dash = _DASHES[(first + dashes) % len(_DASHES)]
    symbol_name, symbol = _SYMBOLS[(first + symbols) % len(_SYMBOLS)]
    return Mark(f"{colour_name}, {dash_name}, {symbol_name}", light, dark, dash, symbol)


def mark_pen(mark: Mark, colours: Colours, width: float) -> QPen:
    """A pen for the mark's line; below 2 px the dashes keep their length."""
    pen = QPen(mark.ink(colours), width)
    pen.setCosmetic(True)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    if mark.dash:
        pen.setDashPattern([part * max(2.0, width) / width for part in mark.dash])
    return pen


def draw_symbol(
    painter: QPainter,
    mark: Mark,
    colours: Colours,
    at: QPointF,
    size: float,
    *,
    is_open: bool = False,
    ink: QColor | None = None,
) -> None:
    """Draws the mark's symbol, in another `ink` where given; an open one is filled with the page and outlined."""
    path = QTransform.fromScale(size, size).map(_symbol(mark.symbol)).translated(at)
    ink = ink or mark.ink(colours)
    painter.setBrush(QBrush(colour(colours.page) if is_open else ink))
    pen = QPen(ink if is_open else colour(colours.page), 1.8 if is_open else 0.9)
    pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
    painter.setPen(pen)
    painter.drawPath(path)


def draw_list_mark(
    painter: QPainter, mark: Mark, colours: Colours, at: QPointF, width: float = LIST_MARK_WIDTH
) -> None:
    """Draws the line and symbol as lists show them, centred at `at`; dashes grow from the middle."""
    pen = mark_pen(mark, colours, 2)
    painter.setPen(pen)
    half = width / 2
    if mark.dash:
        pen.setDashOffset(mark.dash[0] / 2)
        painter.setPen(pen)
    painter.drawLine(at, QPointF(at.x() - half, at.y()))
    painter.drawLine(at, QPointF(at.x() + half, at.y()))
    draw_symbol(painter, mark, colours, at, 10)


@cache
def _symbol(name: str) -> QPainterPath:
    """A symbol around the origin; all have about the visual area of a circle of diameter 1."""
    path = QPainterPath()
    if name == "o":
        path.addEllipse(QPointF(0, 0), 0.5, 0.5)
    elif name == "s":
        path.addRect(QRectF(-0.44, -0.44, 0.88, 0.88))
    else:
        points = _POINTS[name]
        path.moveTo(*points[0])
        for point in points[1:]:
            path.lineTo(*point)
        path.closeSubpath()
    return path


def _star() -> list[tuple[float, float]]:
    radii = (0.72, 0.30)
    return [(radii[i % 2] * math.sin(i * math.pi / 5), -radii[i % 2] * math.cos(i * math.pi / 5)) for i in range(10)]


def _plus(turn: float) -> list[tuple[float, float]]:
    arm, half = 0.58, 0.19
    corners = [(half, -arm), (half, -half), (arm, -half)]
    points = [
        (
            x * math.cos(q * math.pi / 2) - y * math.sin(q * math.pi / 2),
            x * math.sin(q * math.pi / 2) + y * math.cos(q * math.pi / 2),
        )
        for q in range(4)
        for x, y in corners
    ]
    return [(x * math.cos(turn) - y * math.sin(turn), x * math.sin(turn) + y * math.cos(turn)) for x, y in points]


_POINTS: dict[str, list[tuple[float, float]]] = {
    "t1": [(0, -0.62), (0.62, 0.46), (-0.62, 0.46)],
    "t": [(0, 0.62), (0.62, -0.46), (-0.62, -0.46)],
    "d": [(0, -0.64), (0.64, 0), (0, 0.64), (-0.64, 0)],
    "star": _star(),
    "+": _plus(0),
    "x": _plus(math.pi / 4),
}
