"""Draws one lane, seasons across: who is there, who grows, who breeds."""

from __future__ import annotations

from collections.abc import Sequence

import msgspec
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPen

from core.plan.model import Held, Plan
from desktop import fonts
from desktop.lanes import Breeding, Lane, Purchase, Stay
from desktop.theme import Colours, colour
from desktop.words import steps
from desktop.words.numbers import Numbers

_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
_PILL = 18.0


class Lanes(msgspec.Struct, frozen=True):
    """The seasons of a plan laid out from `left` to `right`, in a row `height` px high.

    `terse`: what a season of a pairing gives is said within that season.
    """

    plan: Plan
    colours: Colours
    numbers: Numbers
    left: float
    right: float
    height: float
    terse: bool = False

    def season_x(self, season: float) -> float:
        """Where a season begins."""
        return self.left + (season - 1) * (self.right - self.left) / self.plan.goal.seasons

    def draw(self, painter: QPainter, lane: Lane, middle: float, *, only: bool = False) -> None:
        """Draws a lane around `middle`; `only`: there is no other."""
        if isinstance(lane, Stay):
            self._stay(painter, lane, middle)
        elif isinstance(lane, Breeding):
            for season in lane.laying:
                text = self.breeding_text(lane, season)
                self._pill(painter, season, text, middle)
        else:
            self._purchase(painter, lane, middle, only=only)

    def breeding_text(self, lane: Breeding, season: int) -> str:
        """What is said in a season of a pairing: the fullest wording that fits."""
        runs_on = season == lane.laying[-1] and not self.terse
        end = self.right if runs_on else self.season_x(season + 1)
        texts = steps.breeding_text(self.plan, lane, season)
        short = texts[-2:] if self.terse else texts
        return self._fitting(short, end - self.season_x(season) - 12)

    def pill(self, season: int, text: str, middle: float) -> QRectF:
        """Where a text stands in a season; where none fits, a mark as wide as the season."""
        metrics = QFontMetricsF(fonts.sans(fonts.HEAD))
        if not text:
            wide = self.season_x(season + 1) - self.season_x(season) - 3
            return QRectF(self.season_x(season) + 2, middle - 4, max(wide, 1.0), 8)
        tall = min(max(_PILL, metrics.height() + 2), self.height - 1)
        return QRectF(self.season_x(season) + 6, middle - tall / 2, metrics.horizontalAdvance(text) + 16, tall)

    def _fitting(self, texts: Sequence[str], room: float) -> str:
        metrics = QFontMetricsF(fonts.sans(fonts.HEAD))
        full = next((one for one in texts if metrics.horizontalAdvance(one) + 16 <= room), None)
        if full is not None:
            return full
        # The shortest may come close to its neighbours, but not over them.
        return texts[-1] if metrics.horizontalAdvance(texts[-1]) + 6 <= room else ""

    def _stay(self, painter: QPainter, lane: Stay, middle: float) -> None:
        last = self.plan.goal.seasons + 1.0
        grows_from = lane.arrives + (0.78 if isinstance(lane.group, Held) else 0.08)
        if lane.breeds > lane.arrives and grows_from < last:
            self._growing(painter, grows_from, min(lane.breeds + 0.06, last), middle)
        if lane.breeds > self.plan.goal.seasons or (lane.leaves is not None and lane.leaves < lane.breeds):
            return
        step = self.season_x(2) - self.season_x(1)
        left = self.season_x(lane.breeds) + min(10, 0.25 * step)
        end = self.season_x(last if lane.leaves is None else min(lane.leaves + 1.0, last))
        right = end if lane.leaves is None else end - min(20, 0.3 * step)
        ink = colour(self.colours.second)
        painter.setPen(QPen(ink, 2))
        painter.drawLine(QPointF(left, middle), QPointF(right, middle))
        if lane.leaves is not None and lane.leaves < self.plan.goal.seasons:
            painter.drawLine(QPointF(right, middle - 5), QPointF(right, middle + 5))
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(ink)
        painter.drawEllipse(QPointF(left, middle), 3.6, 3.6)

    def _growing(self, painter: QPainter, start: float, end: float, middle: float) -> None:
        left, right = self.season_x(start), self.season_x(end)
        pen = QPen(colour(self.colours.notes), 1.2)
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
        painter.setPen(colour(self.colours.second))
        painter.drawText(QRectF(text_at, middle - self.height / 2, width + 1, self.height - 1), _LEFT, steps.GROWING)

    def _purchase(self, painter: QPainter, lane: Purchase, middle: float, *, only: bool) -> None:
        texts = steps.purchase_text(self.plan, lane, only=only, numbers=self.numbers)
        text = self._fitting(texts, self.right - self.season_x(lane.season) - 12)
        self._pill(painter, lane.season, text, middle)

    def _pill(self, painter: QPainter, season: int, text: str, middle: float) -> None:
        box = self.pill(season, text, middle)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour(self.colours.selected))
        painter.drawRoundedRect(box, 4, 4)
        painter.setPen(colour(self.colours.text))
        painter.setFont(fonts.sans(fonts.HEAD))
        painter.drawText(box.adjusted(0, -1, 0, 0), Qt.AlignmentFlag.AlignCenter, text)


def numbered(seasons: int, step: float, room: float) -> tuple[int, ...]:
    """The seasons whose number is written where a season is `step` px wide and a number takes `room`."""
    every = next((n for n in (1, 2, 5, 10) if n * step >= room), 20)
    return tuple(season for season in range(1, seasons + 1) if every == 1 or season == 1 or season % every == 0)
