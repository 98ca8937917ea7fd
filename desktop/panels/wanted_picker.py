"""How the animals of one row of the goal look, chosen in a panel below its word."""

from __future__ import annotations

from PySide6.QtCore import QPoint, QRect, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QScrollArea, QVBoxLayout, QWidget

from core.plan.model import Plan
from desktop import fonts
from desktop.document import Document
from desktop.forms.forms_panel import FormsPanel
from desktop.forms.goal_fields import FORMS, without_row
from desktop.forms.taking import take
from desktop.theme import ERROR
from desktop.widgets.inked import Inked, button
from desktop.widgets.labels import PlainLabel
from desktop.words import goal as goal_words
from desktop.words import showing as words
from desktop.words.numbers import Numbers

_WIDE, _TALL, _ROOM = 640, 420, 24


class WantedPicker(QFrame):
    """The choices for one row of the goal; each one counts at once, Escape or Done closes."""

    closed = Signal()

    def __init__(self, document: Document, numbers: Numbers, row: int, parent: QWidget) -> None:
        super().__init__(parent, Qt.WindowType.Popup)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self._document, self._numbers, self._row = document, numbers, row
        self.setFrameShape(QFrame.Shape.StyledPanel)
        inside = Inked(self)
        self.head = PlainLabel(font=fonts.serif(fonts.SENTENCE, bold=True), parent=inside)
        self.head.setWordWrap(True)
        self.panel = FormsPanel(inside)
        self.refusal = PlainLabel(font=fonts.sans(fonts.HEAD), ink=ERROR, parent=inside)
        self.refusal.setWordWrap(True)
        self.refusal.hide()
        self.finish = button(words.DONE, "main", inside)
        self.leave_out = button(words.LEAVE_OUT, "link", inside)
        self._lay_out(inside)
        self.panel.edited.connect(self._take)
        self.finish.clicked.connect(self.close)
        self.leave_out.clicked.connect(self._leave_out)
        document.plan_changed.connect(self._show)
        self._show()
        inside.dress()

    def open_below(self, word: QWidget) -> None:
        """Opens under the word it is about, on the screen."""
        corner = word.mapToGlobal(QPoint(0, word.height() + 2))
        box = QRect(corner, QSize(_WIDE, min(_TALL, self.sizeHint().height() + _ROOM)))
        if screen := word.screen():
            room = screen.availableGeometry()
            box.moveRight(min(box.right(), room.right()))
            box.moveLeft(max(box.left(), room.left()))
        self.setGeometry(box)
        self.show()
        buttons = [one for row in self.panel.rows if row.isVisible() for one in row.choice_buttons()]
        first = next((one for one in buttons if one.isChecked()), self.finish)
        first.setFocus()

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: D102
        if event.key() == Qt.Key.Key_Escape:
            self.close()
            return
        super().keyPressEvent(event)

    def _show(self) -> None:
        plan: Plan = self._document.plan
        if self._row >= len(plan.goal.want):
            self.close()
            return
        want = plan.goal.want[self._row]
        self.head.setText(words.condition(plan, want.forms))
        self.panel.show_forms(plan, want.forms, want.sex)
        self.leave_out.setVisible(len(plan.goal.want) > 1)
        self.refusal.hide()

    def _take(self, forms: object) -> None:
        refusal = take(self._document, self._numbers, FORMS, self._row, forms)
        if refusal:
            self._show()
        self.refusal.setText(refusal)
        self.refusal.setVisible(bool(refusal))

    def _leave_out(self) -> None:
        plan = without_row(self._document.plan, self._row)
        self.close()
        self._document.edit(plan, goal_words.LEAVE_OUT_STEP)

    def _lay_out(self, inside: Inked) -> None:
        area = QScrollArea(inside)
        area.setFrameShape(QFrame.Shape.NoFrame)
        area.setWidgetResizable(True)
        area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        area.setWidget(self.panel)
        line = QHBoxLayout()
        line.addWidget(self.leave_out)
        line.addStretch(1)
        line.addWidget(self.finish)
        layout = QVBoxLayout(inside)
        layout.setContentsMargins(16, 12, 16, 12)
        layout.addWidget(self.head)
        layout.addWidget(area, 1)
        layout.addWidget(self.refusal)
        layout.addLayout(line)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(inside)
