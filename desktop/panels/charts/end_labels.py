"""Paints each route's mark and name at its line's end, spread apart, with thin leaders."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter, QPainterPath, QPen

from desktop import fonts
from desktop.marks import draw_symbol, mark_of
from desktop.panels.charts.frame import Frame
from desktop.panels.charts.overlay import in_order
from desktop.panels.charts.series import Picture, Series, spread, value_at
from desktop.theme import Colours, colour

ROOM = 196.0
_LEADER, _SYMBOL, _TEXT = 20.0, 26.0, 36.0
_LINE = 16.0


@dataclass(frozen=True)
class _Label:
    series: Series
    end: QPointF
    lines: tuple[str, ...]
    font: QFont


def end_labels(painter: QPainter, frame: Frame, picture: Picture, colours: Colours) -> None:
    """Names in the order of the line ends, so that leaders do not cross."""
    low, high = frame.area.top() - 12, frame.py(0) + 4
    labels = sorted(_that_fit([_label(one, frame, picture) for one in in_order(picture)], high - low), key=_by_end)
    heights = [_LINE * len(label.lines) for label in labels]
    centres = spread([label.end.y() for label in labels], heights, low, high)
    for label, centre in zip(labels, centres, strict=True):
        _draw(painter, frame, label, centre, colours)


def _that_fit(labels: list[_Label], room: float) -> list[_Label]:
    """The strongest routes' labels, as many as there is room for; the list names them all."""
    kept: list[_Label] = []
    for label in reversed(labels):
        room -= _LINE * len(label.lines)
        if room < 0:
            break
        kept.append(label)
    return kept


def _by_end(label: _Label) -> tuple[float, int]:
    return round(label.end.y(), 1), label.series.place


def _label(one: Series, frame: Frame, picture: Picture) -> _Label:
    font = fonts.sans(fonts.HEAD, bold=one.emphasis != "other")
    x = min(picture.high, float(one.x[-1]) if not one.is_step else picture.high)
    y = value_at(one, x)
    return _Label(one, frame.at(x, y or 0.0), wrapped(one.name, font, ROOM - _TEXT), font)


def wrapped(name: str, font: QFont, room: float) -> tuple[str, ...]:
    """A name on one line where it fits, else on two, the second cut short if need be."""
    metrics = QFontMetricsF(font)
    if metrics.horizontalAdvance(name) <= room:
        return (name,)
    words = name.split(" ")
    first = words[0]
    count = 1
    while count < len(words) and metrics.horizontalAdvance(f"{first} {words[count]}") <= room:
        first = f"{first} {words[count]}"
        count += 1
    rest = " ".join(words[count:])
    lines = (first, rest) if rest else (first,)
    return tuple(metrics.elidedText(line, Qt.TextElideMode.ElideRight, room) for line in lines)


def _draw(painter: QPainter, frame: Frame, label: _Label, centre: float, colours: Colours) -> None:
    right = frame.area.right()
    mark = mark_of(label.series.place)
    path = QPainterPath(label.end)
    path.lineTo(right + 3, label.end.y())
    path.lineTo(right + _LEADER - 5, centre)
    path.lineTo(right + _LEADER, centre)
    pen = QPen(mark.ink(colours), 1)
    painter.setPen(pen)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawPath(path)
    draw_symbol(painter, mark, colours, QPointF(right + _SYMBOL, centre), 8)
    painter.setFont(label.font)
    painter.setPen(colour(colours.text if label.font.bold() else colours.second))
    top = centre - _LINE * len(label.lines) / 2
    for place, line in enumerate(label.lines):
        box = QRectF(right + _TEXT, top + place * _LINE - 1, ROOM - _TEXT, _LINE)
        painter.drawText(box, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, line)
