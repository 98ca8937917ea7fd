"""A part of the window that scrolls where it has not room enough."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QScrollArea, QWidget


def scrolled(inside: QWidget, parent: QWidget | None = None, *, sideways: bool = False) -> QScrollArea:
    """Scrolls up and down, and only if asked to from side to side; large text takes more room than a window has."""
    area = QScrollArea(parent)
    area.setFrameShape(QFrame.Shape.NoFrame)
    area.setWidgetResizable(True)
    # It follows what has the focus by itself.
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    if not sideways:
        area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    area.setWidget(inside)
    return area
