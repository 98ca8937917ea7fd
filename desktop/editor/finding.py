"""What the route comes to now and before this edit, with how far a simulated answer is."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from desktop import fonts
from desktop.document import Document
from desktop.findings import Finding, as_drawn
from desktop.panels.answer_line import Working
from desktop.theme import NOTES, colour, colours_of
from desktop.widgets.labels import PlainLabel
from desktop.widgets.runs_text import RunsText
from desktop.words import editing_answer as words
from desktop.words.numbers import Numbers
from desktop.words.runs import Run

_BAR = 238


class FindingLine(QWidget):
    """The largest text of the editor; `before` is the route as it was when the editor opened."""

    def __init__(self, document: Document, numbers: Numbers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document, self._numbers = document, numbers
        self.head = RunsText(fonts.serif(fonts.ANSWER), fonts.serif(fonts.ANSWER, bold=True), self)
        self.lead = RunsText(fonts.sans(fonts.LEAD), fonts.sans(fonts.LEAD, bold=True), self)
        self.progress = Progress(self)
        self.working = Working(document, self)
        below = QHBoxLayout()
        below.setSpacing(12)
        below.addWidget(self.lead, 1)
        below.addWidget(self.progress)
        below.addWidget(self.working, 0, Qt.AlignmentFlag.AlignTop)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        layout.addWidget(self.head)
        layout.addLayout(below)

    def show_finding(self, now: Finding | None, before: Finding | None, problem: str) -> None:
        """Shows what the route comes to; `problem`: why it cannot reach the goal at all."""
        plan, numbers = self._document.plan, self._numbers
        if self._document.patient and now is not None and now.stale:
            # The new answer is about to come: until then the one that stands there does not flicker.
            if problem:
                self.lead.set_runs((Run(problem),))
            return
        drawn = now and as_drawn(plan, now)
        self.head.set_runs(words.head(plan, drawn, before, numbers))
        lead = problem or words.lead(plan, drawn, now, self._document.verdict, numbers)
        self.lead.set_runs((Run(lead),))
        self.progress.show_share(now, stopped=self._document.stopped)


class Progress(QWidget):
    """How far a route is: words over a thin bar."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._share = 0.0
        self._words = PlainLabel(font=fonts.sans(fonts.HEAD), ink=NOTES, parent=self)
        self._words.setAlignment(Qt.AlignmentFlag.AlignRight)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 6)
        layout.addWidget(self._words)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:  # noqa: D102
        return QSize(_BAR, self._words.sizeHint().height() + 6)

    def show_share(self, one: Finding | None, *, stopped: bool) -> None:
        """Shows how far the route is, or nothing where there is nothing to wait for."""
        is_waiting = one is not None and not stopped and (one.state == "waiting" or one.stale or one.early)
        self._share = one.share_done if one is not None and is_waiting else 0.0
        text = words.STOPPED if stopped else ""
        if one is not None and self._share >= 0.01:
            text = words.working_out(one)
        self._words.setText(text)
        self.setAccessibleName(text)
        self.setVisible(bool(text))
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: D102
        if not self._share:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(Qt.PenStyle.NoPen)
        colours = colours_of(self.palette())
        bar = QRectF(0, self.height() - 4, self.width(), 4)
        for share, ink in ((1.0, colours.hairline), (self._share, colours.accent)):
            painter.setBrush(colour(ink))
            painter.drawRoundedRect(QRectF(bar.left(), bar.top(), bar.width() * share, bar.height()), 2, 2)
