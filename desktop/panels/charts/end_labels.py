"""Each route's mark and name at its line's end, spread apart, with thin leaders."""

from __future__ import annotations

from typing import TYPE_CHECKING

import msgspec
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter, QPainterPath, QPen

from desktop import fonts
from desktop.marks import draw_symbol, mark_of
from desktop.panels.charts.frame import Frame
from desktop.panels.charts.labels import in_order
from desktop.panels.charts.placing import spread
from desktop.panels.charts.series import Picture, Series, value_at
from desktop.theme import Colours, colour

if TYPE_CHECKING:
    from desktop.panels.charts.layer import Scene

# Room for a name of 28 letters, and no more than this share of the canvas.
_ROOM, _SHARE = 15.0, 0.36
_LEADER, _SYMBOL, _TEXT = 20.0, 26.0, 36.0
_FLAGS = (
    Qt.AlignmentFlag.AlignLeft
    | Qt.AlignmentFlag.AlignAbsolute
    | Qt.AlignmentFlag.AlignVCenter
    | Qt.TextFlag.TextSingleLine
)


class EndLabel(msgspec.Struct, frozen=True):
    """A name in a box, and the end of the line it belongs to."""

    series: Series
    end: QPointF
    box: QRectF
    lines: tuple[str, ...]
    font: QFont


def room(width: float) -> float:
    """The room right of the plot for names."""
    return min(fonts.sans(fonts.HEAD).pixelSize() * _ROOM, width * _SHARE)


def lay_out(frame: Frame, picture: Picture) -> tuple[EndLabel, ...]:
    """Names in the order of the line ends, so that leaders do not cross; as many as there is room for."""
    low, high = frame.area.top() - 12, frame.area.bottom() + 4
    labels = _labels(frame, picture, lines=2)
    if sum(label.box.height() for label in labels) > high - low:
        # Every name cut short says more than some names whole.
        labels = _labels(frame, picture, lines=1)
    labels = sorted(_that_fit(labels, high - low), key=_by_end)
    centres = spread([label.end.y() for label in labels], [label.box.height() for label in labels], low, high)
    for label, centre in zip(labels, centres, strict=True):
        label.box.moveTop(centre - label.box.height() / 2)
    return tuple(labels)


def end_labels(painter: QPainter, scene: Scene) -> None:
    """Draws them."""
    for label in scene.ends:
        _draw(painter, scene.frame, label, scene.colours)


def _that_fit(labels: list[EndLabel], free: float) -> list[EndLabel]:
    """The strongest routes' labels first; the list names them all."""
    kept: list[EndLabel] = []
    for label in reversed(labels):
        free -= label.box.height()
        if free < 0:
            break
        kept.append(label)
    return kept


def _by_end(label: EndLabel) -> tuple[float, int]:
    return round(label.end.y(), 1), label.series.mark


def _labels(frame: Frame, picture: Picture, *, lines: int) -> list[EndLabel]:
    return [label for one in in_order(picture) if (label := _label(one, frame, lines))]


def _label(one: Series, frame: Frame, most: int) -> EndLabel | None:
    font = fonts.sans(fonts.HEAD, bold=one.emphasis != "other")
    x = frame.sight.high if one.is_step or not one.x.size else min(frame.sight.high, float(one.x[-1]))
    y = value_at(one, x)
    if y is None or x < frame.sight.low:
        return None
    end = frame.at(x, min(max(y, frame.sight.bottom), frame.sight.top))
    space = frame.width - frame.area.right() - _TEXT - 2
    lines = wrapped(one.name, font, space, most)
    height = QFontMetricsF(font).height() - 0.3
    return EndLabel(one, end, QRectF(frame.area.right() + _TEXT, 0, space, height * len(lines)), lines, font)


def wrapped(name: str, font: QFont, space: float, most: int = 2) -> tuple[str, ...]:
    """A name on one line where it fits, else on two, cut short if need be."""
    metrics = QFontMetricsF(font)
    if most == 1 or metrics.horizontalAdvance(name) <= space:
        return (metrics.elidedText(name, Qt.TextElideMode.ElideRight, space),)
    words = name.split(" ")
    first = words[0]
    count = 1
    while count < len(words) and metrics.horizontalAdvance(f"{first} {words[count]}") <= space:
        first = f"{first} {words[count]}"
        count += 1
    rest = " ".join(words[count:])
    lines = (first, rest) if rest else (first,)
    return tuple(metrics.elidedText(line, Qt.TextElideMode.ElideRight, space) for line in lines)


def _draw(painter: QPainter, frame: Frame, label: EndLabel, colours: Colours) -> None:
    right, centre = frame.area.right(), label.box.center().y()
    mark = mark_of(label.series.mark)
    ink = colour(colours.notes) if label.series.is_stale else mark.ink(colours)
    path = QPainterPath(label.end)
    path.lineTo(right + 3, label.end.y())
    path.lineTo(right + _LEADER - 5, centre)
    path.lineTo(right + _LEADER, centre)
    painter.setPen(QPen(ink, 1))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawPath(path)
    draw_symbol(painter, mark, colours, QPointF(right + _SYMBOL, centre), 8, ink=ink)
    painter.setFont(label.font)
    painter.setPen(colour(colours.text if label.series.emphasis != "other" else colours.second))
    line = label.box.height() / len(label.lines)
    for place, text in enumerate(label.lines):
        box = QRectF(label.box.left(), label.box.top() + place * line - 1, label.box.width(), line)
        painter.drawText(box, _FLAGS, text)
