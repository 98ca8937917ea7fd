"""Paints lanes: seasons across, groups and pairings down."""

from __future__ import annotations

import math
from collections.abc import Sequence

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from core.plan.model import Plan
from desktop import fonts
from desktop.findings import Finding
from desktop.lanes import Breeding, Lane, Purchase, Stay, lanes
from desktop.theme import Colours, colour, colours_of
from desktop.words import labels, steps
from desktop.words.numbers import Numbers, percent, sum_of_money

_HEAD = 28
_LANE, _LANE_WITH_ROOM = 20, 28
# Up to this many lanes stand at full height; longer routes stand closer, down to the tightest that can be read.
_FULL_LANES, _TIGHTEST = 5, 16
_NAMES = 0.255
_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter


class StepsStrip(QWidget):
    """One route's lanes under a row of seasons."""

    def __init__(self, numbers: Numbers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._numbers = numbers
        self._plan: Plan | None = None
        self._finding: Finding | None = None
        self._lanes: tuple[Lane, ...] = ()
        self._reserved = 1
        self._fullest = _LANE
        self.setAccessibleName(labels.STEPS)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_route(self, plan: Plan, finding: Finding | None) -> None:
        """Another route, or none."""
        self._plan, self._finding = plan, finding
        self._lanes = lanes(plan, finding.route) if finding else ()
        # As tall as the longest route needs at its tightest, so that choosing another one moves nothing.
        longest = max((len(lanes(plan, route)) for route in plan.routes), default=1)
        self._reserved = max(min(longest, _FULL_LANES), math.ceil(longest * _TIGHTEST / _LANE))
        self.setAccessibleDescription(steps.spoken(plan, self._lanes, self._numbers))
        self.updateGeometry()
        self.update()

    def set_roomy(self, roomy: bool) -> None:
        """Taller lanes where the window has the height."""
        self._fullest = _LANE_WITH_ROOM if roomy else _LANE
        self.updateGeometry()

    def sizeHint(self) -> QSize:  # noqa: D102
        return QSize(800, _HEAD + self._reserved * self._fullest + 6)

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: D102
        if self._plan is None or self._finding is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colours = colours_of(self.palette())
        self._head(painter, colours, self._plan, self._finding)
        for place, lane in enumerate(self._lanes):
            middle = _HEAD + 4 + (place + 0.5) * self._lane_height()
            if isinstance(lane, Stay):
                self._stay(painter, colours, self._plan, lane, middle)
            elif isinstance(lane, Breeding):
                self._breeding(painter, colours, self._plan, lane, middle)
            else:
                self._purchase(painter, colours, self._plan, lane, middle)

    def _lane_height(self) -> float:
        return min(float(self._fullest), (self.height() - _HEAD - 6) / max(len(self._lanes), 1))

    def _season_x(self, season: float) -> float:
        plan = self._plan
        seasons = plan.goal.seasons if plan else 1
        left = self.width() * _NAMES
        return left + (season - 1) * (self.width() - left) / seasons

    def _head(self, painter: QPainter, colours: Colours, plan: Plan, finding: Finding) -> None:
        painter.setFont(fonts.sans(fonts.HEAD))
        painter.setPen(colour(colours.second))
        painter.drawText(QRectF(0, 0, self._season_x(1), _HEAD), _LEFT, labels.STEPS_HEAD)
        painter.fillRect(QRectF(0, _HEAD, self.width(), 1), colour(colours.rule))
        for season in range(1, plan.goal.seasons + 1):
            x = self._season_x(season)
            painter.fillRect(QRectF(x, 4, 1, _HEAD + len(self._lanes) * self._lane_height()), colour(colours.hairline))
            reached = finding.to_goal is not None and finding.to_goal.season == season
            self._season(painter, colours, x + 10, season, finding, reached)

    def _season(
        self, painter: QPainter, colours: Colours, x: float, season: int, finding: Finding, reached: bool
    ) -> None:
        texts = [(str(season), colours.text, True)]
        if finding.result is not None:
            ink = colours.accent if reached else colours.second
            texts.append((percent(float(finding.result.chance_by_season[season - 1]), self._numbers), ink, reached))
            texts.append((sum_of_money(float(finding.result.paid_by_season[season - 1]), self._numbers), ink, reached))
        edge = self._season_x(season + 1) - 4
        for text, ink, bold in texts:
            font = fonts.sans(fonts.HEAD, bold=bold)
            width = QFontMetricsF(font).horizontalAdvance(text)
            if x + width > edge:
                return
            painter.setFont(font)
            painter.setPen(colour(ink))
            painter.drawText(QRectF(x, 0, width + 1, _HEAD), _LEFT, text)
            x += width + 10

    def _stay(self, painter: QPainter, colours: Colours, plan: Plan, lane: Stay, middle: float) -> None:
        name, note = steps.group_name(lane.group), steps.group_note(plan, lane.group, self._numbers)
        self._names(painter, colours, name, note, middle, bold=True)
        last = plan.goal.seasons + 1.0
        ink = colour(colours.second)
        is_held = lane.group.__struct_config__.tag == "hold"
        grows_from = lane.arrives + (0.78 if is_held else 0.08)
        if lane.breeds > lane.arrives and grows_from < last:
            self._growing(painter, colours, grows_from, min(lane.breeds + 0.06, last), middle)
        if lane.breeds > plan.goal.seasons or (lane.leaves is not None and lane.leaves < lane.breeds):
            return
        left = self._season_x(lane.breeds) + 10
        right = self._season_x(last) if lane.leaves is None else self._season_x(min(lane.leaves + 1.0, last)) - 20
        painter.setPen(QPen(ink, 2))
        painter.drawLine(QPointF(left, middle), QPointF(right, middle))
        if lane.leaves is not None and lane.leaves < plan.goal.seasons:
            painter.drawLine(QPointF(right, middle - 5), QPointF(right, middle + 5))
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(ink)
        painter.drawEllipse(QPointF(left, middle), 3.6, 3.6)

    def _growing(self, painter: QPainter, colours: Colours, start: float, end: float, middle: float) -> None:
        left, right = self._season_x(start), self._season_x(end)
        pen = QPen(colour(colours.notes), 1.2)
        pen.setDashPattern([2.5, 2.5])
        painter.setFont(fonts.sans(fonts.NOTE))
        width = QFontMetricsF(painter.font()).horizontalAdvance(steps.GROWING)
        painter.setPen(pen)
        text_at = left + 14
        if text_at + width + 24 > right:
            painter.drawLine(QPointF(left, middle), QPointF(right, middle))
            return
        painter.drawLine(QPointF(left, middle), QPointF(text_at - 5, middle))
        painter.drawLine(QPointF(text_at + width + 5, middle), QPointF(right, middle))
        painter.setPen(colour(colours.second))
        painter.drawText(QRectF(text_at, middle - 10, width + 1, 19), _LEFT, steps.GROWING)

    def _breeding(self, painter: QPainter, colours: Colours, plan: Plan, lane: Breeding, middle: float) -> None:
        self._names(painter, colours, steps.pairing_name(lane.pairing), "", middle, bold=False)
        for season in lane.seasons:
            room = self._season_x(season + 1) - self._season_x(season) - 12
            if season == lane.seasons[-1]:
                room = self.width() - self._season_x(season) - 12
            self._pill(painter, colours, season, steps.breeding_text(plan, lane, season), room, middle)

    def _purchase(self, painter: QPainter, colours: Colours, plan: Plan, lane: Purchase, middle: float) -> None:
        self._names(painter, colours, "Buy it finished", "", middle, bold=True)
        only = len(self._lanes) == 1
        texts = steps.purchase_text(plan, lane, only=only, numbers=self._numbers)
        room = self.width() - self._season_x(lane.season) - 12
        self._pill(painter, colours, lane.season, texts, room, middle)

    def _pill(
        self, painter: QPainter, colours: Colours, season: int, texts: Sequence[str], room: float, middle: float
    ) -> None:
        font = fonts.sans(fonts.HEAD)
        metrics = QFontMetricsF(font)
        text = next((one for one in texts if metrics.horizontalAdvance(one) + 16 <= room), texts[-1])
        tall = min(18.0, self._lane_height() - 1)
        box = QRectF(self._season_x(season) + 6, middle - tall / 2, metrics.horizontalAdvance(text) + 16, tall)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour(colours.selected))
        painter.drawRoundedRect(box, 4, 4)
        painter.setPen(colour(colours.text))
        painter.setFont(font)
        painter.drawText(box.adjusted(0, -1, 0, 0), Qt.AlignmentFlag.AlignCenter, text)

    def _names(self, painter: QPainter, colours: Colours, name: str, note: str, middle: float, *, bold: bool) -> None:
        room = self._season_x(1) - 8
        font = fonts.sans(fonts.FORM, bold=bold)
        left = 0.0 if bold else 18.0
        name = QFontMetricsF(font).elidedText(name, Qt.TextElideMode.ElideRight, room - left)
        painter.setFont(font)
        painter.setPen(colour(colours.text if bold else colours.second))
        painter.drawText(QRectF(left, middle - 11, room, 21), _LEFT, name)
        left += QFontMetricsF(font).horizontalAdvance(name) + 9
        small = fonts.sans(fonts.HEAD)
        painter.setFont(small)
        painter.setPen(colour(colours.second))
        note = QFontMetricsF(small).elidedText(note, Qt.TextElideMode.ElideRight, room - left)
        painter.drawText(QRectF(left, middle - 11, room - left, 21), _LEFT, note)
