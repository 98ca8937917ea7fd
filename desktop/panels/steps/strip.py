"""Paints lanes: seasons across, groups and pairings down."""

from __future__ import annotations

import math

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from core.plan.model import Plan
from desktop import fonts
from desktop.findings import Finding, honest_chance
from desktop.lanes import Breeding, Lane, Stay, lane_count, lanes
from desktop.panels.steps.drawing import Lanes, numbered
from desktop.theme import Colours, colour, colours_of
from desktop.words import labels, steps
from desktop.words.numbers import Numbers, percent, sum_of_money

# Heights at text of 100 %; they grow with it.
_HEAD = 28
_LANE, _LANE_WITH_ROOM = 20, 28
# Up to this many lanes stand at full height; longer routes stand closer, down to the tightest that can be read.
_FULL_LANES, _TIGHTEST = 5, 16
_NAMES = 0.255
# Beside and between what is said of a season.
_BESIDE, _BETWEEN = 14, 10
_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
# A text with its ink, and whether it is bold.
_Text = tuple[str, str, bool]


class StepsStrip(QWidget):
    """One route's lanes under a row of seasons."""

    def __init__(self, numbers: Numbers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._numbers = numbers
        self._plan: Plan | None = None
        self._finding: Finding | None = None
        self._lanes: tuple[Lane, ...] = ()
        self._reserved = 1
        self._head_height, self._fullest = fonts.grown(_HEAD), fonts.grown(_LANE)
        self.setAccessibleName(labels.STEPS)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_route(self, plan: Plan, finding: Finding | None) -> None:
        """Another route, or none."""
        if plan is self._plan and _same(finding, self._finding):
            self._finding = finding
            return
        if plan is not self._plan:
            # As tall as the longest route needs at its tightest, so that choosing another one moves nothing.
            longest = max(map(lane_count, plan.routes), default=1)
            self._reserved = max(min(longest, _FULL_LANES), math.ceil(longest * _TIGHTEST / _LANE))
        self._plan, self._finding = plan, finding
        self._lanes = lanes(plan, finding.route) if finding else ()
        self.setAccessibleDescription(steps.spoken(plan, self._lanes, self._numbers))
        self.updateGeometry()
        self.update()

    def set_roomy(self, roomy: bool) -> None:
        """Taller lanes where the window has the height."""
        self._fullest = fonts.grown(_LANE_WITH_ROOM if roomy else _LANE)
        self.updateGeometry()

    def sizeHint(self) -> QSize:  # noqa: D102
        return QSize(800, self._head_height + self._reserved * self._fullest + 6)

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: D102
        if self._plan is None or self._finding is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colours = colours_of(self.palette())
        drawing = Lanes(self._plan, colours, self._numbers, self.width() * _NAMES, self.width(), self._lane_height())
        self._head(painter, drawing, self._finding)
        for place, lane in enumerate(self._lanes):
            middle = self._head_height + 4 + (place + 0.5) * self._lane_height()
            self._named(painter, colours, self._plan, lane, middle)
            drawing.draw(painter, lane, middle, only=len(self._lanes) == 1)

    def _lane_height(self) -> float:
        return min(float(self._fullest), (self.height() - self._head_height - 6) / max(len(self._lanes), 1))

    def _head(self, painter: QPainter, drawing: Lanes, finding: Finding) -> None:
        colours, seasons = drawing.colours, range(1, drawing.plan.goal.seasons + 1)
        told = [self._told(drawing, season, finding) for season in seasons]
        # What every season has room for, so that the row says the same of each, and its head no more than that.
        parts = min((_fitting(texts, drawing.season_x(2) - drawing.season_x(1) - _BESIDE) for texts in told), default=1)
        head = labels.STEPS_HEADS[parts - 1 if finding.result is not None else -1]
        painter.setFont(fonts.sans(fonts.HEAD))
        painter.setPen(colour(colours.second))
        head = QFontMetricsF(painter.font()).elidedText(head, Qt.TextElideMode.ElideRight, drawing.left)
        painter.drawText(QRectF(0, 0, drawing.left, self._head_height), _LEFT, head)
        painter.fillRect(QRectF(0, self._head_height, self.width(), 1), colour(colours.rule))
        tall = self._head_height + len(self._lanes) * self._lane_height()
        room = QFontMetricsF(fonts.sans(fonts.HEAD, bold=True)).horizontalAdvance(told[-1][0][0]) + _BETWEEN
        said = numbered(len(told), drawing.season_x(2) - drawing.season_x(1), room)
        for season, texts in zip(seasons, told, strict=True):
            x = drawing.season_x(season)
            painter.fillRect(QRectF(x, 4, 1, tall), colour(colours.hairline))
            if season in said:
                # As little as a narrow season has room for begins at its left.
                self._season(painter, x + (10 if parts > 1 else 6), texts[:parts])

    def _told(self, drawing: Lanes, season: int, finding: Finding) -> list[_Text]:
        colours = drawing.colours
        told = [(str(season), colours.text, True)]
        if finding.result is None:
            return told
        reached = finding.to_goal is not None and finding.to_goal.season == season
        ink = colours.accent if reached else colours.second
        chance = percent(honest_chance(finding.route, finding.result, season), self._numbers)
        paid = sum_of_money(float(finding.result.paid_by_season[season - 1]), self._numbers)
        return [*told, (chance, ink, reached), (paid, ink, reached)]

    def _season(self, painter: QPainter, x: float, texts: list[_Text]) -> None:
        for text, ink, bold in texts:
            painter.setFont(fonts.sans(fonts.HEAD, bold=bold))
            painter.setPen(colour(ink))
            width = QFontMetricsF(painter.font()).horizontalAdvance(text)
            # The last of many seasons is no wider than its number.
            box = QRectF(min(x, self.width() - width - 1), 0, width + 1, self._head_height)
            painter.drawText(box, _LEFT, text)
            x += width + _BETWEEN

    def _named(self, painter: QPainter, colours: Colours, plan: Plan, lane: Lane, middle: float) -> None:
        if isinstance(lane, Stay):
            note = steps.group_note(plan, lane.group, self._numbers)
            self._names(painter, colours, steps.group_name(lane.group), note, middle, bold=True)
        elif isinstance(lane, Breeding):
            self._names(painter, colours, steps.pairing_name(lane.pairing), "", middle, bold=False)
        else:
            self._names(painter, colours, steps.buy_finished(plan), "", middle, bold=True)

    def _names(self, painter: QPainter, colours: Colours, name: str, note: str, middle: float, *, bold: bool) -> None:
        room = self.width() * _NAMES - 8
        font = fonts.sans(fonts.FORM, bold=bold)
        left = 0.0 if bold else 18.0
        name = QFontMetricsF(font).elidedText(name, Qt.TextElideMode.ElideRight, room - left)
        painter.setFont(font)
        painter.setPen(colour(colours.text if bold else colours.second))
        above, tall = fonts.grown(11), fonts.grown(21)
        painter.drawText(QRectF(left, middle - above, room, tall), _LEFT, name)
        left += QFontMetricsF(font).horizontalAdvance(name) + 9
        small = fonts.sans(fonts.HEAD)
        painter.setFont(small)
        painter.setPen(colour(colours.second))
        note = QFontMetricsF(small).elidedText(note, Qt.TextElideMode.ElideRight, room - left)
        painter.drawText(QRectF(left, middle - above, room - left, tall), _LEFT, note)


def _same(one: Finding | None, other: Finding | None) -> bool:
    """Whether all that is drawn of two findings is the same."""
    if one is None or other is None:
        return one is other
    return one.route is other.route and one.result is other.result and one.to_goal is other.to_goal


def _fitting(texts: list[_Text], room: float) -> int:
    """How many of them fit beside each other; the first always stands."""
    wide = -float(_BETWEEN)
    for place, (text, _, bold) in enumerate(texts):
        wide += QFontMetricsF(fonts.sans(fonts.HEAD, bold=bold)).horizontalAdvance(text) + _BETWEEN
        if place and wide > room:
            return place
    return len(texts)
