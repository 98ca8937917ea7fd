"""The top of the route editor: the way back, the route's mark and name, undo and done."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QGridLayout, QWidget

from desktop import fonts
from desktop.editor.parts import Typed
from desktop.forms.fields import SentenceField
from desktop.panels.steps.panel import MarkSign
from desktop.theme import ERROR
from desktop.widgets.inked import button
from desktop.widgets.labels import PlainLabel, give_tip
from desktop.words import editor as words
from desktop.words import labels

_WIDEST, _LEAST = 560, 120
_GAP = 16


class Head(QWidget):
    """One row, with a refused name told under it."""

    left = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.back = button(words.BACK, "link", self)
        self.back.setAccessibleName(words.BACK_NAME)
        self._mark = MarkSign(self)
        self.name = SentenceField(words.ROUTE_NAME, fonts.serif(fonts.SENTENCE, bold=True), self, most=_WIDEST)
        self.name.setAlignment(Qt.AlignmentFlag.AlignLeft)
        self.why = button(labels.WHY_THIS_CHANCE, "link", self)
        self.undo = button(words.UNDO, "plain", self)
        self.done = button(words.DONE, "main", self)
        self._refusal = PlainLabel(font=fonts.sans(fonts.HEAD), ink=ERROR, parent=self)
        self._refusal.hide()
        for leaving in (self.back, self.done):
            leaving.clicked.connect(self.left)
        layout = QGridLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setHorizontalSpacing(_GAP)
        layout.setVerticalSpacing(0)
        layout.setColumnStretch(3, 1)
        for column, widget in (
            (0, self.back),
            (1, self._mark),
            (2, self.name),
            (4, self.why),
            (5, self.undo),
            (6, self.done),
        ):
            layout.addWidget(widget, 0, column)
        layout.addWidget(self._refusal, 1, 2, 1, 5)

    def minimumSizeHint(self) -> QSize:  # noqa: D102
        # A long name gives way before what stands beside it leaves a small window.
        return QSize(self._beside() + fonts.grown(_LEAST), super().minimumSizeHint().height())

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: D102
        super().resizeEvent(event)
        self.name.set_most(min(_WIDEST, max(self.width() - self._beside(), fonts.grown(_LEAST))))

    def _beside(self) -> int:
        others = (self.back, self._mark, self.why, self.undo, self.done)
        gaps = _GAP * (len(others) + 1)
        return sum(one.sizeHint().width() for one in others) + gaps

    def show_route(self, mark: int, name: Typed | None, undo_what: str | None) -> None:
        """Shows a route, and what undo would take back."""
        self._mark.show_mark(mark)
        if name is not None:
            self.name.hold(name.text)
            self._refusal.hide()
        self.undo.setEnabled(undo_what is not None)
        give_tip(self.undo, undo_what or "")

    def refuse(self, sentence: str) -> None:
        """Says why the name was not taken; nothing where it was."""
        self.name.set_refused(bool(sentence))
        self._refusal.setText(sentence)
        self._refusal.setVisible(bool(sentence))
