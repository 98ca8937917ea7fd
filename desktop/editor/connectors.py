"""Paints where held-back young come from: from the clutch down or up to their own line."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QPainter, QPainterPath, QPen

from core.plan.model import Held
from desktop.lanes import Breeding, Lane, Stay
from desktop.panels.steps.drawing import Lanes
from desktop.theme import colour

_CORNER, _TIP = 5.0, 4.0
# Where in a season young are taken; they grow from a little later.
_TAKEN, _GROW = 0.7, 0.78

Placed = tuple[Lane, float]


def connectors(painter: QPainter, drawing: Lanes, placed: Sequence[Placed]) -> None:
    """Draws one line per group that is held back within the seasons of the plan."""
    painter.setPen(QPen(colour(drawing.colours.notes), 1.2))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    for lane, middle in placed:
        if isinstance(lane, Stay) and isinstance(lane.group, Held) and lane.arrives <= drawing.plan.goal.seasons:
            for source, start in _sources(placed, lane):
                painter.drawPath(_path(drawing, source, start, lane.arrives, middle))


def _sources(placed: Sequence[Placed], stay: Stay) -> Iterator[tuple[Breeding, float]]:
    for lane, middle in placed:
        if (
            isinstance(lane, Breeding)
            and isinstance(stay.group, Held)
            and lane.pairing.id in stay.group.source
            and lane.laying[:1] == (stay.arrives,)
        ):
            yield lane, middle


def _path(drawing: Lanes, source: Breeding, start: float, season: int, end: float) -> QPainterPath:
    box = drawing.pill(season, drawing.breeding_text(source, season), start)
    x = drawing.season_x(season + _TAKEN)
    path = QPainterPath()
    down = 1.0 if end > start else -1.0
    if box.right() + _CORNER < x:
        path.moveTo(box.right() + 2, start)
        path.lineTo(x - _CORNER, start)
        path.quadTo(QPointF(x, start), QPointF(x, start + down * _CORNER))
    else:
        path.moveTo(x, box.bottom() if down > 0 else box.top())
    tip = QPointF(drawing.season_x(season + _GROW), end)
    path.lineTo(x, end - down * _CORNER)
    path.quadTo(QPointF(x, end), QPointF(min(x + _CORNER, tip.x()), end))
    path.lineTo(tip)
    path.moveTo(tip + QPointF(-_TIP, -_TIP))
    path.lineTo(tip)
    path.lineTo(tip + QPointF(-_TIP, _TIP))
    return path
