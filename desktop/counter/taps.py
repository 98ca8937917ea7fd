"""What is tapped: buttons with large words, and rows with a name, a note and a figure."""

from __future__ import annotations

from typing import Literal

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QFont, QFontMetrics, QKeyEvent, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from desktop.counter.type import Type
from desktop.theme import Colours, colour, colours_of

Look = Literal["main", "plain", "word"]
_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop
_ENTER = (Qt.Key.Key_Return, Qt.Key.Key_Enter)


class Tap(QAbstractButton):
    """Reacts to a thumb, the mouse, Space and Enter, and shows where the keyboard is."""

    def __init__(self, type_: Type, text: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.type = type_
        self.setText(text)
        self.setAccessibleName(text)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMinimumSize(type_.target, type_.target)
        self.setFont(type_.strong)

    @property
    def colours(self) -> Colours:
        """Light or dark."""
        return colours_of(self.palette())

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: D102
        if event.key() in _ENTER:
            self.click()
        else:
            super().keyPressEvent(event)

    def paint_focus(self, painter: QPainter) -> None:
        """A ring in the accent around what the keyboard acts on."""
        if self.hasFocus():
            painter.setPen(QPen(colour(self.colours.accent), 3))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(self.rect().adjusted(2, 2, -2, -2), 6, 6)


class Button(Tap):
    """Words in a box, or words alone; a checkable one fills when it is picked."""

    def __init__(self, type_: Type, text: str, look: Look = "plain", parent: QWidget | None = None) -> None:
        super().__init__(type_, text, parent)
        self._look = look
        policy = QSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def sizeHint(self) -> QSize:  # noqa: D102
        return self._around(self.text())

    def minimumSizeHint(self) -> QSize:  # noqa: D102
        # Where there is no room for its words side by side they stand on several lines.
        return self._around(max(self.text().split(), key=self.fontMetrics().horizontalAdvance, default=""))

    def hasHeightForWidth(self) -> bool:  # noqa: D102
        return True

    def heightForWidth(self, width: int) -> int:  # noqa: D102
        pad = self.type.px(20)
        return max(height_of(self.font(), self.text(), width - 2 * pad) + pad, self.type.target)

    def _around(self, words: str) -> QSize:
        size, pad = self.fontMetrics().size(0, words), self.type.px(20)
        return QSize(size.width() + 2 * pad, size.height() + pad).expandedTo(self.minimumSize())

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: D102
        painter, colours = QPainter(self), self.colours
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        filled = self._look == "main" or self.isChecked()
        if filled and self.isEnabled():
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(colour(colours.accent))
            painter.drawRoundedRect(self.rect(), 5, 5)
        elif self._look == "plain":
            painter.setPen(QPen(colour(colours.rule), 1.2))
            painter.setBrush(colour(colours.selected if self.isDown() else colours.field))
            painter.drawRoundedRect(self.rect().adjusted(1, 1, -1, -1), 5, 5)
        painter.setFont(self.font())
        painter.setPen(colour(self._ink(filled=filled)))
        room = self.rect().adjusted(self.type.px(20), 0, -self.type.px(20), 0)
        wrap = _wrap(self.font(), self.text(), room.width())
        painter.drawText(room, wrap | Qt.AlignmentFlag.AlignCenter, self.text())
        self._paint_focus(painter, filled=filled)

    def _ink(self, *, filled: bool) -> str:
        if not self.isEnabled():
            return self.colours.notes
        if filled:
            return self.colours.on_accent
        return self.colours.accent if self._look == "word" else self.colours.text

    def _paint_focus(self, painter: QPainter, *, filled: bool) -> None:
        if filled and self.hasFocus():
            # Inside the fill the accent would not be seen.
            painter.setPen(QPen(colour(self.colours.on_accent), 2))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(self.rect().adjusted(5, 5, -5, -5), 3, 3)
        else:
            self.paint_focus(painter)


class RowTap(Tap):
    """A name with a note below it, and a figure at the right; as high as its words need."""

    def __init__(self, type_: Type, text: str, note: str = "", figure: str = "", parent: QWidget | None = None) -> None:
        super().__init__(type_, text, parent)
        self._note, self._figure = "", ""
        self._plain, self._picked = type_.text, type_.strong
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        self.show_words(text, note, figure)

    def show_words(self, text: str, note: str = "", figure: str = "") -> None:
        """Says something else."""
        self.setText(text)
        self._note, self._figure = note, figure
        self.setAccessibleName(", ".join(part for part in (text, note, figure) if part))
        self.updateGeometry()
        self.update()

    def hasHeightForWidth(self) -> bool:  # noqa: D102
        return True

    def heightForWidth(self, width: int) -> int:  # noqa: D102
        return max(self.type.target, self._words_high(self._room(width)) + self.type.px(16))

    def sizeHint(self) -> QSize:  # noqa: D102
        width = max(self.width(), self.type.px(240))
        return QSize(self.type.px(240), self.heightForWidth(width))

    def minimumSizeHint(self) -> QSize:  # noqa: D102
        return QSize(self.type.px(200), self.type.target)

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: D102
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            # The words may need another height now.
            self.updateGeometry()

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: D102
        painter, colours = QPainter(self), self.colours
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_ground(painter)
        ink = colours.text if self.isEnabled() else colours.notes
        left, room = self.type.px(14), self._room(self.width())
        face = self._picked if self.isChecked() else self._plain
        top = (self.height() - self._words_high(room)) // 2
        down = draw_words(painter, face, ink, QRect(left, top, room, self.height()), self.text())
        if self._note:
            draw_words(
                painter, self.type.note, colours.second, QRect(left, top + down, room, self.height()), self._note
            )
        painter.setFont(self.type.figure)
        painter.setPen(colour(ink))
        ends = self.rect().adjusted(0, 0, -self.type.px(12), 0)
        painter.drawText(ends, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, self._figure)
        self.paint_focus(painter)

    def _paint_ground(self, painter: QPainter) -> None:
        colours = self.colours
        painter.setPen(Qt.PenStyle.NoPen)
        if self.isChecked() or self.isDown():
            painter.setBrush(colour(colours.selected))
            painter.drawRect(self.rect())
        if self.isChecked():
            painter.setBrush(colour(colours.accent))
            painter.drawRect(0, 0, self.type.px(5), self.height())
        painter.setPen(QPen(colour(colours.hairline), 1))
        painter.drawLine(0, self.height() - 1, self.width(), self.height() - 1)

    def _words_high(self, room: int) -> int:
        # As high picked as not, so that nothing moves.
        return height_of(self._picked, self.text(), room) + (
            height_of(self.type.note, self._note, room) if self._note else 0
        )

    def _room(self, width: int) -> int:
        """How wide a line of words may be."""
        figure = QFontMetrics(self.type.figure).horizontalAdvance(self._figure)
        return max(width - self.type.px(30) - (figure + self.type.px(12) if figure else 0), self.type.px(60))


class NameTap(RowTap):
    """A name in the face of a headline, on a rule in the accent: what it is can be changed."""

    def __init__(self, type_: Type, parent: QWidget | None = None) -> None:
        super().__init__(type_, "", parent=parent)
        self._plain = self._picked = type_.name

    def _paint_ground(self, painter: QPainter) -> None:
        super()._paint_ground(painter)
        thick = self.type.px(3)
        painter.fillRect(0, self.height() - thick, self.width(), thick, colour(self.colours.accent))


def _wrap(face: QFont, text: str, width: int) -> Qt.TextFlag:
    """Between words; anywhere only where a word has no room on a line of its own."""
    metrics = QFontMetrics(face)
    if all(metrics.horizontalAdvance(word) <= width for word in text.split()):
        return Qt.TextFlag.TextWordWrap
    return Qt.TextFlag.TextWordWrap | Qt.TextFlag.TextWrapAnywhere


def height_of(face: QFont, text: str, width: int) -> int:
    """How high wrapped words are."""
    flags = _wrap(face, text, width) | _LEFT
    return QFontMetrics(face).boundingRect(QRect(0, 0, width, 10_000), flags, text).height()


def draw_words(painter: QPainter, face: QFont, ink: str, box: QRect, text: str) -> int:
    """Draws wrapped words, and gives how far down they reach."""
    painter.setFont(face)
    painter.setPen(colour(ink))
    painter.drawText(box, _wrap(face, text, box.width()) | _LEFT, text)
    return height_of(face, text, box.width())
