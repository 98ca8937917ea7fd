"""What is drawn in a row: a price against what the animal is worth, and a bar between both ends of a range."""

from __future__ import annotations

import msgspec
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPen, QPolygonF

from desktop import fonts
from desktop.panels.charts.size import text_scale
from desktop.theme import Colours, colour
from desktop.worth.look import HIGH

_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
_THICK, _GAP, _TIP = 14.0, 8.0, 9.0


class Gauge(msgspec.Struct, frozen=True):
    """What is asked, and the most it is worth (None: there is no such sum), of `full` for the whole width."""

    asked: float
    most: float | None
    full: float
    good: bool


class End(msgspec.Struct, frozen=True):
    """One end of a bar: how far along, None for out of reach; and its two lines of words."""

    at: float | None
    lines: tuple[str, str]


class Bar(msgspec.Struct, frozen=True):
    """Both ends, the plan's own value, the scale all rows share, and the room that labels take beside it.

    more_is_worse: money; of chances, less is.
    """

    ends: tuple[End, End]
    usual: float
    scale: tuple[float, float]
    label: float
    more_is_worse: bool


def gauge_high() -> float:
    """How tall a price is drawn."""
    return 16.0 * text_scale()


def draw_gauge(painter: QPainter, box: QRectF, colours: Colours, gauge: object) -> None:
    """A bar to what it is worth, and an upright line at what is asked."""
    assert isinstance(gauge, Gauge)
    middle, wide = box.top() + gauge_high() / 2 + 1, box.width() / max(gauge.full, 1e-9)
    thick = 8.0 * text_scale()
    painter.fillRect(QRectF(box.left(), middle - 0.5, box.width(), 1), colour(colours.hairline))
    if gauge.most:
        ink = colour(colours.accent if gauge.good else colours.rule)
        painter.fillRect(QRectF(box.left(), middle - thick / 2, gauge.most * wide, thick), ink)
    x = box.left() + gauge.asked * wide
    ink = colour(colours.text)
    painter.setPen(QPen(colour(colours.page), 1))
    painter.setBrush(ink)
    painter.drawRect(QRectF(x - 2, middle - thick, 4, 2 * thick))


def bar_high() -> float:
    """How tall a bar with its two lines of words is."""
    return 2 * QFontMetricsF(fonts.sans(fonts.HEAD)).height()


def label_wide(lines: tuple[str, str]) -> float:
    """The room that the words of an end take."""
    quiet, loud = QFontMetricsF(fonts.sans(fonts.HEAD)), QFontMetricsF(fonts.sans(fonts.HEAD, bold=True))
    return max(quiet.horizontalAdvance(lines[0]), loud.horizontalAdvance(lines[1])) + 2


def draw_bar(painter: QPainter, box: QRectF, colours: Colours, bar: object) -> None:
    """From the plan's own value to both ends, each with its words; what is out of reach ends in a point."""
    assert isinstance(bar, Bar)
    low, high = bar.scale
    first, last = box.left() + bar.label + _GAP, box.right() - bar.label - _GAP - _TIP

    def x(at: float | None) -> float:
        return last if at is None else first + (at - low) / max(high - low, 1e-9) * (last - first)

    middle, usual = box.top() + bar_high() / 2, x(bar.usual)
    for end in bar.ends:
        worse = (x(end.at) > usual) == bar.more_is_worse
        ink = colour(colours.caution if worse else colours.accent)
        span = QRectF(min(usual, x(end.at)), middle - _THICK / 2, abs(x(end.at) - usual), _THICK)
        painter.fillRect(span, ink)
        if end.at is None:
            _point(painter, QPointF(last, middle), colours)
    painter.fillRect(QRectF(usual - 0.75, box.top() - HIGH, 1.5, box.height() + 2 * HIGH), colour(colours.second))
    left, right = sorted(bar.ends, key=lambda end: (end.at is None, x(end.at)))
    tip = _TIP if right.at is None else 0.0
    begin, finish = min(x(left.at), usual), max(x(right.at), usual) + tip
    _words(painter, QRectF(begin - _GAP - bar.label, box.top(), bar.label, bar_high()), colours, left.lines, _RIGHT)
    _words(painter, QRectF(finish + _GAP, box.top(), bar.label, bar_high()), colours, right.lines, _LEFT)


def _point(painter: QPainter, at: QPointF, colours: Colours) -> None:
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colour(colours.caution))
    half = QPointF(0, _THICK / 2 + 3)
    painter.drawPolygon(QPolygonF([at - half, at + QPointF(_TIP, 0), at + half]))


def _words(painter: QPainter, box: QRectF, colours: Colours, lines: tuple[str, str], side: Qt.AlignmentFlag) -> None:
    half = box.height() / 2
    for place, (text, ink) in enumerate(zip(lines, (colours.second, colours.text), strict=True)):
        painter.setFont(fonts.sans(fonts.HEAD, bold=bool(place)))
        painter.setPen(colour(ink))
        painter.drawText(QRectF(box.left(), box.top() + place * half, box.width(), half), int(side), text)
