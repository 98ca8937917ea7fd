"""A label for sentences with strong words: wraps, never reads markup, speaks its whole sentence."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPointF, QSize, Qt
from PySide6.QtGui import QFont, QPainter, QPaintEvent, QPalette, QTextCharFormat, QTextLayout, QTextOption
from PySide6.QtWidgets import QSizePolicy, QWidget

from desktop.theme import SECOND
from desktop.words.runs import Runs, plain


class RunsText(QWidget):
    """Plain runs, strong ones semi-bold, quiet ones in second ink."""

    def __init__(self, regular: QFont, strong: QFont, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._regular, self._strong = regular, strong
        self._runs: Runs = ()
        # A layout asks for the same heights again and again.
        self._heights: dict[int, int] = {}
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def set_runs(self, runs: Runs) -> None:
        """Shows a sentence."""
        if runs == self._runs:
            return
        self._runs = runs
        self._heights.clear()
        self.setAccessibleName(plain(runs))
        self.updateGeometry()
        self.update()

    def text(self) -> str:
        """The sentence as one string."""
        return plain(self._runs)

    def hasHeightForWidth(self) -> bool:  # noqa: D102
        return True

    def heightForWidth(self, width: int) -> int:  # noqa: D102
        if width not in self._heights:
            self._heights[width] = int(self._laid_out(width).boundingRect().height() + 0.99)
        return self._heights[width]

    def sizeHint(self) -> QSize:  # noqa: D102
        layout = self._laid_out(10_000)
        rect = layout.boundingRect()
        return QSize(int(layout.lineAt(0).naturalTextWidth() + 1), int(rect.height() + 0.99))

    def minimumSizeHint(self) -> QSize:  # noqa: D102
        return QSize(240, self.sizeHint().height())

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: D102
        painter = QPainter(self)
        painter.setPen(self.palette().color(QPalette.ColorRole.WindowText))
        self._laid_out(self.width()).draw(painter, QPointF(0, 0))

    def changeEvent(self, event: QEvent) -> None:  # noqa: D102
        if event.type() in (QEvent.Type.PaletteChange, QEvent.Type.FontChange):
            self.update()
        super().changeEvent(event)

    def _laid_out(self, width: int) -> QTextLayout:
        # A number and its percent sign stay on one line.
        layout = QTextLayout(plain(self._runs).replace(" %", "\u00a0%") or " ", self._regular)
        option = QTextOption(Qt.AlignmentFlag.AlignLeft)
        option.setWrapMode(QTextOption.WrapMode.WrapAtWordBoundaryOrAnywhere)
        layout.setTextOption(option)
        layout.setFormats(self._formats())
        layout.beginLayout()
        height = 0.0
        while (line := layout.createLine()).isValid():
            line.setLineWidth(max(width, 1))
            line.setPosition(QPointF(0, height))
            height += line.height()
        layout.endLayout()
        return layout

    def _formats(self) -> list[QTextLayout.FormatRange]:
        formats = []
        start = 0
        for run in self._runs:
            # Qt counts UTF-16 units.
            length = len(run.text.encode("utf-16-le")) // 2
            if run.strong or run.quiet:
                span = QTextLayout.FormatRange()
                style = QTextCharFormat()
                style.setFont(self._strong if run.strong else self._regular)
                style.setForeground(self.palette().color(QPalette.ColorRole.WindowText if run.strong else SECOND))
                span.start, span.length, span.format = start, length, style
                formats.append(span)
            start += length
        return formats
