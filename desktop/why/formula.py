"""Arithmetic as it is written by hand, with its powers raised."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QSize, Qt
from PySide6.QtGui import QFont, QPainter, QPaintEvent, QPalette, QTextCharFormat, QTextLayout, QTextOption
from PySide6.QtWidgets import QSizePolicy, QWidget

from core.explain.fractions import spoken

_RAISED = "⁰¹²³⁴⁵⁶⁷⁸⁹"
_WIDE = 10_000


class Formula(QWidget):
    """One formula; it wraps where it must, and speaks its powers in words."""

    def __init__(
        self,
        text: str,
        font: QFont,
        ink: QPalette.ColorRole = QPalette.ColorRole.WindowText,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._text, self._font, self._ink = text, font, ink
        self.setAccessibleName(spoken(text))
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def text(self) -> str:
        """The formula as one string."""
        return self._text

    def hasHeightForWidth(self) -> bool:  # noqa: D102
        return True

    def heightForWidth(self, width: int) -> int:  # noqa: D102
        return int(self._laid_out(width).boundingRect().height() + 0.99)

    def sizeHint(self) -> QSize:  # noqa: D102
        layout = self._laid_out(_WIDE)
        return QSize(int(layout.lineAt(0).naturalTextWidth() + 1), int(layout.boundingRect().height() + 0.99))

    def minimumSizeHint(self) -> QSize:  # noqa: D102
        return QSize(160, self.sizeHint().height())

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: D102
        painter = QPainter(self)
        painter.setPen(self.palette().color(self._ink))
        self._laid_out(self.width()).draw(painter, QPointF(0, 0))

    def _laid_out(self, width: int) -> QTextLayout:
        flat = "".join(str(_RAISED.index(letter)) if letter in _RAISED else letter for letter in self._text)
        layout = QTextLayout(flat, self._font)
        option = QTextOption(Qt.AlignmentFlag.AlignLeft)
        option.setWrapMode(QTextOption.WrapMode.WrapAtWordBoundaryOrAnywhere)
        layout.setTextOption(option)
        layout.setFormats([_raised(place) for place, letter in enumerate(self._text) if letter in _RAISED])
        layout.beginLayout()
        height = 0.0
        while (line := layout.createLine()).isValid():
            line.setLineWidth(max(width, 1))
            line.setPosition(QPointF(0, height))
            height += line.height()
        layout.endLayout()
        return layout


def _raised(place: int) -> QTextLayout.FormatRange:
    """One digit of a power. Qt makes it smaller by itself where it is raised."""
    span = QTextLayout.FormatRange()
    style = QTextCharFormat()
    style.setVerticalAlignment(QTextCharFormat.VerticalAlignment.AlignSuperScript)
    span.start, span.length, span.format = place, 1, style
    return span
