"""Pieces that the pages of the counter view have in common."""

from __future__ import annotations

from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QHBoxLayout, QScrollArea, QScroller, QWidget

from desktop.counter.taps import Button, Look
from desktop.counter.type import Type
from desktop.theme import SECOND
from desktop.widgets.flow import Flow
from desktop.widgets.labels import PlainLabel, Wrapped
from desktop.widgets.scrolled import scrolled


def title(type_: Type, text: str = "") -> Wrapped:
    """The head of a page."""
    return Wrapped(text, type_.title, QPalette.ColorRole.WindowText)


def head(type_: Type, text: str = "") -> Wrapped:
    """The head of a part."""
    return Wrapped(text, type_.strong, QPalette.ColorRole.WindowText)


def note(type_: Type, text: str = "") -> Wrapped:
    """A remark in the second ink."""
    return Wrapped(text, type_.note, SECOND)


def mark(type_: Type, text: str) -> PlainLabel:
    """A short word or sign in the second ink."""
    return PlainLabel(text, font=type_.title, ink=SECOND)


def touched(inside: QWidget, name: str) -> QScrollArea:
    """Scrolls up and down, with a finger as well."""
    area = scrolled(inside)
    area.setAccessibleName(name)
    QScroller.grabGesture(area.viewport(), QScroller.ScrollerGestureType.TouchGesture)
    return area


class Actions(QWidget):
    """Buttons side by side, on as many lines as they need."""

    def __init__(self, type_: Type) -> None:
        super().__init__()
        self._type = type_
        self._flow = Flow(self, gap=type_.px(16), line_gap=type_.px(8))

    def add(self, text: str, look: Look = "plain") -> Button:
        """One more button."""
        made = Button(self._type, text, look, self)
        self._flow.addWidget(made)
        return made


def side_by_side(gap: int) -> QHBoxLayout:
    """A row without margins."""
    layout = QHBoxLayout()
    layout.setContentsMargins(0, 0, 0, 0)
    layout.setSpacing(gap)
    return layout
