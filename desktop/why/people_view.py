"""One hundred dots: who reaches the goal, and why the others miss it."""

from __future__ import annotations

from typing import Literal

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QGridLayout, QSizePolicy, QVBoxLayout, QWidget

from core.explain.people import Cause, People, cause_words
from desktop import fonts
from desktop.panels.charts.size import text_scale
from desktop.theme import colour, colours_of
from desktop.why.parts import OUTDATED
from desktop.widgets.labels import PlainLabel, wrapped
from desktop.words import why as words

Glyph = Cause | Literal["reached"]
# At the usual text size.
_ACROSS, _STEP, _RADIUS = 25, 21.0, 7.0


class PeopleView(QWidget):
    """The dots over their legend."""

    def __init__(self, found: People, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(words.people_spoken(found))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(10)
        layout.addWidget(_Crowd(found))
        legend = QGridLayout()
        legend.setHorizontalSpacing(8)
        legend.setVerticalSpacing(4)
        entries: list[tuple[Glyph, int, str]] = [("reached", found.reached, words.reached(found.reached))]
        entries += [(cause, many, cause_words(cause)) for cause, many in found.missed]
        half = (len(entries) + 1) // 2
        for place, (glyph, many, text) in enumerate(entries):
            row, column = place % half, 3 * (place // half)
            legend.addWidget(_Sign(glyph), row, column, Qt.AlignmentFlag.AlignTop)
            count = PlainLabel(str(many), font=fonts.sans(fonts.FORM, bold=True))
            legend.addWidget(count, row, column + 1, Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignRight)
            legend.addWidget(wrapped(text, fonts.sans(fonts.FORM)), row, column + 2)
        for column in (2, 5):
            legend.setColumnStretch(column, 1)
        layout.addLayout(legend)


class _Crowd(QWidget):
    """The dots by themselves."""

    def __init__(self, found: People, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._glyphs: list[Glyph] = ["reached"] * found.reached
        for cause, many in found.missed:
            self._glyphs += [cause] * many
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        step = _STEP * text_scale()
        return QSize(int(_ACROSS * step + 0.99), int(-(-len(self._glyphs) // _ACROSS) * step + 0.99))

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.scale(text_scale(), text_scale())
        for place, glyph in enumerate(self._glyphs):
            at = QPointF((place % _ACROSS + 0.5) * _STEP, (place // _ACROSS + 0.5) * _STEP)
            draw_glyph(painter, glyph, at, self)


class _Sign(QWidget):
    """One dot of the legend."""

    def __init__(self, glyph: Glyph, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._glyph = glyph
        self.setFixedSize(int(18 * text_scale()), int(20 * text_scale()))

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.scale(text_scale(), text_scale())
        draw_glyph(painter, self._glyph, QPointF(9, 10), self)


def draw_glyph(painter: QPainter, glyph: Glyph, at: QPointF, on: QWidget) -> None:
    """A dot for someone who reaches the goal, or a ring that tells the cause of a miss by its shape."""
    colours = colours_of(on.palette())
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setOpacity(1.0 if on.isEnabled() else OUTDATED)
    if glyph == "reached":
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour(colours.accent))
        painter.drawEllipse(at, _RADIUS, _RADIUS)
        return
    ink = colour(colours.caution)
    painter.setPen(QPen(ink, 1.5))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawEllipse(at, _RADIUS - 0.7, _RADIUS - 0.7)
    _inside(painter, glyph, at, ink)


def _inside(painter: QPainter, glyph: Cause, at: QPointF, ink: QColor) -> None:
    """What stands in the ring."""
    r, d = _RADIUS - 2.8, (_RADIUS - 2.8) * 0.75
    strokes: dict[Cause, tuple[tuple[float, float, float, float], ...]] = {
        "genotypes": ((-d, -d, d, d), (-d, d, d, -d)),
        "holding": ((-r, 0, r, 0),),
        "breeders": ((0, -r, 0, r),),
        "laying": ((-r, 0, r, 0), (0, -r, 0, r)),
        "losses": ((-d, d, d, -d),),
    }
    for x1, y1, x2, y2 in strokes.get(glyph, ()):
        painter.drawLine(at + QPointF(x1, y1), at + QPointF(x2, y2))
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(ink)
    if glyph == "waiting":
        painter.drawEllipse(at, 2.6, 2.6)
    elif glyph == "sizes":
        outer = QRectF(at.x() - _RADIUS + 1, at.y() - _RADIUS + 1, 2 * _RADIUS - 2, 2 * _RADIUS - 2)
        painter.drawPie(outer, 180 * 16, 180 * 16)
