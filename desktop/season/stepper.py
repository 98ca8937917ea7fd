"""A count with a button on either side, for hatching day: no typing needed, but possible."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import QAbstractSpinBox, QHBoxLayout, QPushButton, QSpinBox, QWidget

from core.text import tr
from desktop import fonts
from desktop.panels.charts.size import text_scale

# No clutch is larger.
MOST = 250
_BUTTON, _COUNT = 26, 34


class Stepper(QWidget):
    """`changed` tells of every other count."""

    changed = Signal()

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.less, self.more = _button("−", self), _button("+", self)
        self.count = QSpinBox(self)
        self.count.setRange(0, MOST)
        self.count.setButtonSymbols(QAbstractSpinBox.ButtonSymbols.NoButtons)
        self.count.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.count.setFont(fonts.sans(fonts.HEADING, bold=True))
        self.count.setFixedWidth(round(_COUNT * text_scale()))
        self.count.setFrame(False)
        self.count.setProperty("look", "count")
        self.set_name(name)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        for widget in (self.less, self.count, self.more):
            layout.addWidget(widget)
        self.less.clicked.connect(self.count.stepDown)
        self.more.clicked.connect(self.count.stepUp)
        self.count.valueChanged.connect(self.changed)
        # One stop of Tab: arrows step as well.
        for one in (self.less, self.more):
            one.setFocusPolicy(Qt.FocusPolicy.ClickFocus)

    @property
    def value(self) -> int:
        """The count."""
        return self.count.value()

    def set_value(self, value: int) -> None:
        """Another count."""
        self.count.setValue(value)

    def set_name(self, name: str) -> None:
        """What is counted."""
        self.count.setAccessibleName(name)
        self.less.setAccessibleName(tr("One less, {name}", name=name))
        self.more.setAccessibleName(tr("One more, {name}", name=name))


def _button(text: str, parent: QWidget) -> QPushButton:
    button = QPushButton(text, parent)
    button.setProperty("look", "step")
    button.setFont(fonts.sans(fonts.HEADING, bold=True))
    button.setFixedSize(QSize(round(_BUTTON * text_scale()), round(_BUTTON * text_scale())))
    button.setAutoRepeat(True)
    return button
