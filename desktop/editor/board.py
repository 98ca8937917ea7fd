"""The lines of a route with the seasons beside them, kept in place while the route changes."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import QPointF, QRectF, QTimer, Signal
from PySide6.QtGui import QFontMetricsF, QMouseEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from core.plan.model import Plan, Route
from desktop import fonts
from desktop.editor import fields, table
from desktop.editor.connectors import connectors
from desktop.editor.line import Key, Line, least_tall
from desktop.editor.parts import Part, Typed, Where
from desktop.editor.problems import line_problem
from desktop.lanes import Breeding, Lane, Stay, lanes
from desktop.panels.charts.size import text_scale
from desktop.panels.steps.drawing import Lanes, numbered
from desktop.theme import colour, colours_of
from desktop.words import editor as words
from desktop.words import steps
from desktop.words.numbers import Numbers

# How much of the width the sentences have; the seasons have the rest.
SENTENCES = 0.548
FINISHED, COUNTS = Key("finished", ""), Key("counts", "")
_HEAD = 30
# More new lines at once would hold the window up.
_LINES_A_TURN = 4


class Board(QWidget):
    """One line per group, pairing and thing to say of the whole route; one of them is the chosen one."""

    # The line, the key of the field, the name of the step, and the route it makes or why not.
    asked = Signal(object, str, str, object)
    opened = Signal(object, str)
    chosen_changed = Signal()
    resized = Signal()
    # More lines of the same route are there.
    grew = Signal()

    def __init__(self, numbers: Numbers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._numbers = numbers
        self._plan: Plan | None = None
        self._route: Route | None = None
        self._more = QTimer(self, singleShot=True, interval=0)
        self._more.timeout.connect(self._show_more)
        self._lanes: dict[Key, Lane] = {}
        self.lines: list[Line] = []
        self._chosen: Key | None = None
        self._is_fitting = False
        self.setAccessibleName(words.LINES)
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 1)
        self._layout.setSpacing(0)

    @property
    def chosen(self) -> Key | None:
        """The line whose animals are looked at."""
        return self._chosen

    @property
    def is_whole(self) -> bool:
        """Whether every line of the route is there."""
        return not self._more.isActive()

    def choose(self, key: Key | None) -> None:
        """Looks at another line; lines about the whole route have nothing to look at."""
        if key is not None and key.kind not in ("group", "pairing"):
            return
        # A line that goes hands its focus on to others, which may go as well: nobody chose those.
        if key != self._chosen and not self._is_fitting:
            self._chosen = key
            self.update()
            self.chosen_changed.emit()

    def line(self, key: Key | None) -> Line | None:
        """The line about that."""
        return next((line for line in self.lines if line.key == key), None)

    def place(self, key: Key) -> int:
        """The place of a line among the lines; it stays when the line gets another name."""
        return next((place for place, line in enumerate(self.lines) if line.key == key), -1)

    def show_route(self, plan: Plan, route: Route) -> bool:
        """Shows a route as it is now; whether lines or fields are others than before."""
        self._plan, self._route = plan, route
        chosen = self.place(self._chosen) if self._chosen else 0
        keyed = [(_key(lane), lane) for lane in lanes(plan, route)]
        self._lanes = dict(keyed)
        self.setAccessibleDescription(steps.spoken(plan, tuple(lane for _, lane in keyed), self._numbers))
        keys = [*(key for key, _ in keyed if key != FINISHED), FINISHED, COUNTS]
        most = len(self.lines) + _LINES_A_TURN
        self._is_fitting = True
        is_other = self._fit(keys[:most])
        self._is_fitting = False
        if len(keys) > most:
            self._more.start()
        for line in self.lines:
            at = Where(plan, route, line.key.id, self._numbers)
            is_other |= line.show_line(*self._told(at, line.key))
        if self.line(self._chosen) is None:
            # What was looked at is gone: the line that took its place, or the last one.
            own = [line.key for line in self.lines if line.key.kind in ("group", "pairing")]
            self.choose(own[min(chosen, len(own) - 1)] if own else None)
        self.update()
        return is_other

    def _show_more(self) -> None:
        if self._plan is not None and self._route is not None:
            self.show_route(self._plan, self._route)
            self.grew.emit()

    def seasons_left(self) -> float:
        """Where the seasons begin."""
        return self.width() * SENTENCES

    def mousePressEvent(self, event: QMouseEvent) -> None:  # noqa: D102
        line = next((one for one in self.lines if one.geometry().contains(event.position().toPoint())), None)
        if line is None:
            line = self._line_at(event.position().y())
        if line is not None:
            self.choose(line.key)

    def resizeEvent(self, event: object) -> None:  # noqa: ARG002, D102
        self._layout.setContentsMargins(0, 0, self.width() - int(self.seasons_left()), 1)
        self.resized.emit()

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: D102
        if self._plan is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colours = colours_of(self.palette())
        drawing = Lanes(
            self._plan, colours, self._numbers, self.seasons_left(), float(self.width()), least_tall(), terse=True
        )
        chosen = self.line(self._chosen)
        if chosen is not None:
            painter.fillRect(QRectF(chosen.geometry()).adjusted(0, 0, 0, -1), colour(colours.hover))
        for season in range(1, self._plan.goal.seasons + 1):
            painter.fillRect(QRectF(drawing.season_x(season), 0, 1, self._end()), colour(colours.hairline))
        for line in self.lines:
            below = line.geometry().bottom()
            painter.fillRect(QRectF(0, below, self.width(), 1), colour(colours.hairline))
        for line, lane in self._with_lanes():
            drawing.draw(painter, lane, _middle(line), only=len(self.lines) == 2)
        connectors(painter, drawing, [(lane, _middle(line)) for line, lane in self._with_lanes()])

    def _with_lanes(self) -> Iterable[tuple[Line, Lane]]:
        return ((line, self._lanes[line.key]) for line in self.lines if line.key in self._lanes)

    def _end(self) -> float:
        """Below the last line that has seasons."""
        return max((line.geometry().bottom() for line in self.lines if line.key != COUNTS), default=0)

    def _told(self, at: Where, key: Key) -> tuple[str, Typed | None, tuple[Part, ...], str]:
        if key == FINISHED:
            return words.ROUTE_LINES[0], None, table.finished_sentence(at), ""
        if key == COUNTS:
            return words.ROUTE_LINES[1], None, table.counts_sentence(at), ""
        problem = line_problem(at.plan, at.route, self._lanes[key])
        if key.kind == "group":
            return "", fields.name_of_line(at, "group"), table.group_sentence(at), problem
        return "", fields.name_of_line(at, "pairing"), table.pairing_sentence(at), problem

    def _fit(self, keys: list[Key]) -> bool:
        """As many lines as are needed; one under another name, or in another place, stays the same widget."""
        before = [line.key for line in self.lines]
        if before == keys:
            return False
        self._rename(keys)
        there = {line.key: line for line in self.lines}
        for key, line in there.items():
            if key not in keys:
                self._layout.removeWidget(line)
                line.hide()
                line.deleteLater()
        self.lines = [there.get(key) or self._new_line(key) for key in keys]
        for place, line in enumerate(self.lines):
            if self._layout.indexOf(line) != place:
                self._layout.insertWidget(place, line)
            line.show()
        return True

    def _rename(self, keys: list[Key]) -> None:
        """A key that is new where one of its kind is gone is the same line under another name."""
        gone = [line for line in self.lines if line.key not in keys]
        new = [key for key in keys if key not in {line.key for line in self.lines}]
        if len(self.lines) != len(keys) or len(gone) != len(new):
            return
        for line in gone:
            match = next((key for key in new if key.kind == line.key.kind), None)
            if match is not None:
                new.remove(match)
                if self._chosen == line.key:
                    self._chosen = match
                line.key = match

    def _new_line(self, key: Key) -> Line:
        line = Line(key, self)
        line.asked.connect(self._ask)
        line.opened.connect(self._open)
        return line

    def _ask(self, field: str, what: str, change: object) -> None:
        line = self.sender()
        if isinstance(line, Line):
            self.asked.emit(line.key, field, what, change)

    def _open(self, field: str) -> None:
        line = self.sender()
        if isinstance(line, Line):
            self.choose(line.key)
            self.opened.emit(line.key, field)

    def _line_at(self, y: float) -> Line | None:
        return next((one for one in self.lines if one.geometry().top() <= y <= one.geometry().bottom()), None)


class SeasonsHead(QWidget):
    """The numbers of the seasons over the board's columns."""

    def __init__(self, board: Board, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._board = board
        self._seasons = 1
        self._tall = round(_HEAD * text_scale())
        self.setFixedHeight(self._tall)

    def show_seasons(self, seasons: int) -> None:
        """Shows that many seasons."""
        self._seasons = seasons
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: D102
        painter = QPainter(self)
        colours = colours_of(self.palette())
        painter.setFont(fonts.sans(fonts.HEAD, bold=True))
        metrics = QFontMetricsF(painter.font())
        left, right = self._board.seasons_left(), float(self._board.width())
        step = (right - left) / self._seasons
        painter.fillRect(QRectF(0, self._tall - 1, right, 1), colour(colours.rule))
        full = f"{words.SEASONS_HEAD} 1"
        is_roomy = metrics.horizontalAdvance(full) + 14 <= step
        said = numbered(self._seasons, step, metrics.horizontalAdvance(str(self._seasons)) + 8)
        for season in range(1, self._seasons + 1):
            x = left + (season - 1) * step
            if season in said:
                painter.fillRect(QRectF(x, 2, 1, self._tall - 3), colour(colours.hairline))
                painter.setPen(colour(colours.text))
                text = full if season == 1 and is_roomy else str(season)
                painter.drawText(QPointF(x + min(10.0, 0.2 * step), self._tall - 10), text)


def _key(lane: Lane) -> Key:
    if isinstance(lane, Stay):
        return Key("group", lane.group.id)
    return Key("pairing", lane.pairing.id) if isinstance(lane, Breeding) else FINISHED


def _middle(line: Line) -> float:
    return line.geometry().top() + least_tall() / 2
