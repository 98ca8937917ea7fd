"""The grip of the goal line: a pill on the axis, dragged or moved by keys like any slider."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractSlider, QWidget

from desktop import fonts
from desktop.panels.charts.frame import Frame
from desktop.panels.charts.goal_chance import GoalChance
from desktop.theme import Colours, colour, colours_of
from desktop.widgets.labels import give_tip
from desktop.words import charts as words
from desktop.words.numbers import Numbers

_LEAST, _MOST, _STEP, _PAGE = 1, 99, 1, 5
# Room for the focus ring.
_RING = 3.0


def pill_size(text: str) -> QSize:
    """The size of the pill itself."""
    metrics = QFontMetricsF(fonts.sans(fonts.HEAD, bold=True))
    return QSize(int(metrics.horizontalAdvance(text) + 15), int(metrics.height() + 3))


def paint_pill(painter: QPainter, box: QRectF, text: str, colours: Colours, *, focused: bool = False) -> None:
    """The pill, with a ring around it where it has the focus."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colour(colours.accent))
    round_by = box.height() / 2
    painter.drawRoundedRect(box, round_by, round_by)
    if focused:
        painter.setPen(QPen(colour(colours.accent), 1.5))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRoundedRect(box.adjusted(-2.2, -2.2, 2.2, 2.2), round_by + 2, round_by + 2)
    painter.setPen(colour(colours.on_accent))
    painter.setFont(fonts.sans(fonts.HEAD, bold=True))
    painter.drawText(box, Qt.AlignmentFlag.AlignCenter, text)


class Grip(QAbstractSlider):
    """Moves the goal's chance in whole percent: a look ahead while dragged, one change when let go."""

    def __init__(self, chance: GoalChance, numbers: Numbers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._chance, self._numbers = chance, numbers
        self._frame: Frame | None = None
        self.setOrientation(Qt.Orientation.Vertical)
        self.setRange(_LEAST, _MOST)
        self.setSingleStep(_STEP)
        self.setPageStep(_PAGE)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.SizeVerCursor)
        self.setAccessibleName(words.HOW_SURE)
        give_tip(self, words.HOW_SURE_TIP)
        self.valueChanged.connect(self._changed)
        self.hide()

    def place(self, frame: Frame) -> None:
        """Follows the goal line."""
        self._frame = frame
        chance = self._chance.value
        self.setVisible(frame.shows_chance(chance))
        self.blockSignals(True)
        self.setValue(round(chance * 100))
        self.blockSignals(False)
        size = pill_size(self._text())
        middle = frame.py(chance)
        right = frame.area.left() - 4
        self.setGeometry(
            int(right - size.width() - _RING), round(middle - size.height() / 2 - _RING),
            int(size.width() + 2 * _RING), int(size.height() + 2 * _RING),
        )  # fmt: skip
        self.update()

    def drag_to(self, y: float) -> None:
        """Looks ahead at the chance at a height on the canvas."""
        if self._frame is not None:
            self.setSliderDown(True)
            self.setValue(round(self._frame.y_of(y) * 100))

    def let_go(self) -> None:
        """The drag ends where it is."""
        self.setSliderDown(False)
        self._chance.settle()

    def mousePressEvent(self, event: QMouseEvent) -> None:  # noqa: D102
        if event.button() == Qt.MouseButton.LeftButton:
            self.setSliderDown(True)
            event.accept()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:  # noqa: D102
        if self.isSliderDown():
            self.drag_to(self.mapToParent(event.position()).y())

    def mouseReleaseEvent(self, _event: QMouseEvent) -> None:  # noqa: D102
        if self.isSliderDown():
            self.let_go()

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: D102
        if event.key() == Qt.Key.Key_Escape and self.isSliderDown():
            self.setSliderDown(False)
            self._chance.give_up()
            return
        super().keyPressEvent(event)

    def changeEvent(self, event: QEvent) -> None:  # noqa: D102
        super().changeEvent(event)
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: D102
        box = QRectF(self.rect()).adjusted(_RING, _RING, -_RING, -_RING)
        paint_pill(QPainter(self), box, self._text(), colours_of(self.palette()), focused=self.hasFocus())

    def _text(self) -> str:
        return words.goal_chance(self._chance.value, self._numbers)

    def _changed(self, percent: int) -> None:
        if self.isSliderDown():
            self._chance.look_ahead(percent)
        else:
            self._chance.step(percent)
