"""The read-out: every route's chance at one x, in a box beside an upright line."""

from __future__ import annotations

from PySide6.QtCore import QPoint, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from desktop import fonts
from desktop.marks import draw_symbol, mark_of
from desktop.panels.charts.series import Picture, Series, noise_at, value_at
from desktop.panels.charts.size import text_scale
from desktop.panels.charts.values import x_text
from desktop.theme import colour, colours_of
from desktop.words.charts import OUTDATED, chance_read
from desktop.words.numbers import Numbers

_PAD, _MARK, _GAP = 10.0, 18.0, 16.0
_MOST_WIDE = 240.0
_LEFT = (
    Qt.AlignmentFlag.AlignLeft
    | Qt.AlignmentFlag.AlignAbsolute
    | Qt.AlignmentFlag.AlignVCenter
    | Qt.TextFlag.TextSingleLine
)
_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
Row = tuple[Series, str]


def rows_at(picture: Picture, x: float, numbers: Numbers) -> list[Row]:
    """Every route and its chance in words, the best first."""
    valued = [(one, value_at(one, x)) for one in picture.series]
    valued.sort(key=_by_value, reverse=True)
    return [(one, chance_read(value, noise_at(one, x), numbers)) for one, value in valued]


def _by_value(pair: tuple[Series, float | None]) -> float:
    return -1.0 if pair[1] is None else pair[1]


def head_at(picture: Picture, x: float, numbers: Numbers) -> str:
    """`with 1,500 set aside`; sums are rounded up, as everywhere."""
    return picture.read_at(x, x_text(picture, x, numbers))


def spoken(picture: Picture, x: float, numbers: Numbers) -> str:
    """The read-out as one sentence, for those who do not see it."""
    said = [
        f"{one.name}: {value}{f' ({OUTDATED})' if one.is_stale else ''}" for one, value in rows_at(picture, x, numbers)
    ]
    return f"{head_at(picture, x, numbers)}: {'; '.join(said)}"


def snapped(picture: Picture, x: float, low: float, high: float) -> float:
    """The nearest x that there is something to say of."""
    least = max(low, float(picture.stops[0])) if picture.stops.size and picture.marked else low
    most = min(high, float(picture.stops[-1])) if picture.stops.size and picture.marked else high
    return round(min(max(x, least), most) / picture.grid) * picture.grid


class ReadoutBox(QWidget):
    """Floats over the page, so that it is never too tall for its chart; takes no clicks."""

    def __init__(self, parent: QWidget, numbers: Numbers) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self._numbers = numbers
        self._head = ""
        self._rows: list[Row] = []
        self.hide()

    def show_at(self, picture: Picture, x: float, at: QPoint, free: QRectF) -> None:
        """Shows the values at `x` beside the point `at`, as far inside `free` as it goes."""
        self._head = head_at(picture, x, self._numbers)
        self._rows = rows_at(picture, x, self._numbers)
        size = self.sizeHint()
        right = at.x() + 12
        left = right if right + size.width() <= free.right() else at.x() - 12 - size.width()
        top = min(max(at.y() - size.height(), int(free.top())), int(free.bottom()) - size.height())
        self.setGeometry(max(left, 2), max(top, 2), size.width(), size.height())
        self.show()
        self.raise_()
        self.update()

    def sizeHint(self) -> QSize:  # noqa: D102
        metrics = QFontMetricsF(fonts.sans(fonts.HEAD, bold=True))
        names = max((min(metrics.horizontalAdvance(one.name), self._widest()) for one, _ in self._rows), default=60.0)
        values = max((metrics.horizontalAdvance(value) for _, value in self._rows), default=0.0)
        width = max(_MARK + names + _GAP + values, metrics.horizontalAdvance(self._head))
        return QSize(int(width + 2 * _PAD + 1), int(self._line() * (len(self._rows) + 1) + _PAD))

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: D102
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colours = colours_of(self.palette())
        painter.setPen(QPen(colour(colours.rule), 1))
        painter.setBrush(colour(colours.field))
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5), 4, 4)
        line = QRectF(_PAD, _PAD / 2, self.width() - 2 * _PAD, self._line())
        painter.setPen(colour(colours.text))
        painter.setFont(fonts.sans(fonts.HEAD, bold=True))
        painter.drawText(line, _LEFT, self._head)
        for one, value in self._rows:
            line.translate(0, self._line())
            self._row(painter, line, one, value)

    def _row(self, painter: QPainter, line: QRectF, one: Series, value: str) -> None:
        colours = colours_of(self.palette())
        ink = colour(colours.notes) if one.is_stale else None
        draw_symbol(painter, mark_of(one.mark), colours, QPointF(line.left() + 5, line.center().y()), 8, ink=ink)
        font = fonts.sans(fonts.HEAD, bold=one.emphasis != "other")
        painter.setFont(font)
        painter.setPen(ink or colour(colours.text))
        name = QFontMetricsF(font).elidedText(one.name, Qt.TextElideMode.ElideRight, self._widest())
        painter.drawText(line.adjusted(_MARK, 0, 0, 0), _LEFT, name)
        painter.drawText(line, _RIGHT, value)

    def _line(self) -> float:
        return QFontMetricsF(fonts.sans(fonts.HEAD)).height() + 3

    def _widest(self) -> float:
        return _MOST_WIDE * text_scale()
