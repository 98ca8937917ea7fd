"""Chance by season under the editor's own season columns: now, and before this edit in grey."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPaintEvent, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from desktop import fonts
from desktop.findings import Finding
from desktop.marks import draw_symbol, mark_of, mark_pen
from desktop.panels.charts.grip import paint_pill, pill_size
from desktop.panels.charts.size import text_scale
from desktop.panels.steps.drawing import numbered
from desktop.theme import Colours, colour, colours_of
from desktop.words import editing_answer as words
from desktop.words.charts import goal_chance
from desktop.words.numbers import Numbers, percent

_TOP, _BOTTOM, AXIS = 36.0, 22.0, 44.0
_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter


class ChanceChart(QWidget):
    """Painted, as it has to stand exactly under the lanes; its numbers are in its description too."""

    def __init__(self, numbers: Numbers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._numbers = numbers
        self._now: Finding | None = None
        self._before: Finding | None = None
        self._seasons, self._goal = 1, 0.8
        self._is_outdated = False
        self._top, self._bottom, self._left = (part * text_scale() for part in (_TOP, _BOTTOM, AXIS))
        self.setAccessibleName(words.CHANCE)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    def show_chance(
        self, now: Finding | None, before: Finding | None, seasons: int, goal: float, *, outdated: bool
    ) -> None:
        """Shows both; an `outdated` curve is grey until the new one is there."""
        self._now, self._before = now, before
        self._seasons, self._goal, self._is_outdated = seasons, goal, outdated
        self.setAccessibleDescription(words.described(now, before, self._numbers))
        self.update()

    def sizeHint(self) -> QSize:  # noqa: D102
        return QSize(556, 240)

    def minimumSizeHint(self) -> QSize:  # noqa: D102
        return QSize(240, 150)

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: D102
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colours = colours_of(self.palette())
        painter.setFont(fonts.sans(fonts.HEADING, bold=True))
        painter.setPen(colour(colours.text))
        painter.drawText(QPointF(self._left, self._top / 2), words.CHANCE)
        self._grid(painter, colours)
        moved = self._is_other()
        if self._before is not None and moved:
            self._curve(painter, colours, self._before, colour(colours.notes), is_before=True)
        if self._now is not None:
            ink = colour(colours.notes) if self._is_outdated else None
            self._curve(painter, colours, self._now, ink, is_before=False)
        self._labels(painter, colours, moved=moved)

    def _is_other(self) -> bool:
        """Whether the two curves can be told apart at all."""
        chances = (_chances(self._now), _chances(self._before))
        return len(chances[0]) != len(chances[1]) or any(
            abs(one - other) > 0.002 for one, other in zip(*chances, strict=True)
        )

    def _x(self, season: float) -> float:
        return self._left + (season - 0.5) * (self.width() - self._left) / self._seasons

    def _y(self, chance: float) -> float:
        return self._top + (1 - chance) * (self.height() - self._top - self._bottom)

    def _grid(self, painter: QPainter, colours: Colours) -> None:
        painter.setFont(fonts.sans(fonts.NOTE))
        pill = pill_size(goal_chance(self._goal, self._numbers))
        each = 20 if (self._y(0) - self._y(0.2)) > QFontMetricsF(painter.font()).height() else 100
        for share in range(0, 101, each):
            y = self._y(share / 100)
            painter.fillRect(QRectF(self._left, y, self.width() - self._left, 1), colour(colours.hairline))
            if abs(y - self._y(self._goal)) > pill.height() * 0.8:
                painter.setPen(colour(colours.notes))
                text = percent(1, self._numbers) if share == 100 else str(share)
                painter.drawText(QRectF(0, y - 20, self._left - 8, 40), _RIGHT, text)
        room = QFontMetricsF(painter.font()).horizontalAdvance(str(self._seasons)) + 6
        for season in numbered(self._seasons, self._x(2) - self._x(1), room):
            painter.setPen(colour(colours.notes))
            box = QRectF(self._x(season) - 20, self.height() - self._bottom + 2, 40, self._bottom - 2)
            painter.drawText(box, Qt.AlignmentFlag.AlignCenter, str(season))
        y = self._y(self._goal)
        painter.fillRect(QRectF(self._left - 6, y - 0.8, self.width() - self._left + 6, 1.6), colour(colours.accent))
        box = QRectF(max(self._left - 4 - pill.width(), 0), y - pill.height() / 2, pill.width(), pill.height())
        paint_pill(painter, box, goal_chance(self._goal, self._numbers), colours)

    def _curve(self, painter: QPainter, colours: Colours, one: Finding, ink: QColor | None, *, is_before: bool) -> None:
        chances = _chances(one)[: self._seasons]
        points = [QPointF(self._x(i + 1), self._y(chance)) for i, chance in enumerate(chances)]
        mark = mark_of(one.mark)
        if one.result is not None and one.result.chance_by_season_se is not None and not is_before:
            self._band(painter, one, ink or mark.ink(colours))
        pen = mark_pen(mark, colours, 1.5 if is_before else 2.4)
        if ink is not None:
            pen.setColor(ink)
        painter.setPen(pen)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPolyline(QPolygonF(points))
        for point in points:
            draw_symbol(painter, mark, colours, point, 8 if is_before else 9, is_open=is_before, ink=ink)

    def _band(self, painter: QPainter, one: Finding, ink: QColor) -> None:
        """Two standard errors on either side."""
        assert one.result is not None
        assert one.result.chance_by_season_se is not None
        pairs = [*zip(_chances(one), (2 * one.result.chance_by_season_se).tolist(), strict=True)][: self._seasons]
        upper = [QPointF(self._x(i + 1), self._y(min(c + e, 1.0))) for i, (c, e) in enumerate(pairs)]
        lower = [QPointF(self._x(i + 1), self._y(max(c - e, 0.0))) for i, (c, e) in enumerate(pairs)]
        tint = QColor(ink)
        tint.setAlphaF(0.22)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(tint)
        painter.drawPolygon(QPolygonF([*upper, *reversed(lower)]))

    def _labels(self, painter: QPainter, colours: Colours, *, moved: bool) -> None:
        """The two curves by name where they are farthest apart; nothing to tell apart where they are one."""
        now, before = _chances(self._now)[: self._seasons], _chances(self._before)[: self._seasons]
        if self._is_outdated and now:
            self._label(painter, words.SO_FAR, len(now), now[-1], colours.second, above=True, bold=False)
            return
        if not moved or not now or not before:
            return
        place = max(range(min(len(now), len(before))), key=lambda i: abs(now[i] - before[i]))
        is_above = now[place] >= before[place]
        self._label(painter, words.NOW, place + 1, now[place], colours.text, above=is_above, bold=True)
        self._label(painter, words.BEFORE, place + 1, before[place], colours.second, above=not is_above, bold=False)

    def _label(
        self, painter: QPainter, text: str, season: int, chance: float, ink: str, *, above: bool, bold: bool
    ) -> None:
        painter.setFont(fonts.sans(fonts.NOTE, bold=bold))
        width = QFontMetricsF(painter.font()).horizontalAdvance(text)
        x = min(max(self._x(season) - width / 2, self._left), self.width() - width - 2)
        y = self._y(chance) + (-10 if above else 20)
        if y > self.height() - self._bottom - 4:
            y = self._y(chance) - 10
        painter.setPen(colour(ink))
        painter.drawText(QPointF(x, max(y, self._top - 6)), text)


def _chances(one: Finding | None) -> list[float]:
    return [] if one is None or one.result is None else [float(chance) for chance in one.result.chance_by_season]
