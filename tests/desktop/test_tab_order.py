"""The way of the Tab key follows the layouts, and leaves nothing behind that Qt would free under it."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

import pytest
from freed import held_items
from PySide6.QtCore import QCoreApplication, QEvent
from PySide6.QtWidgets import QGridLayout, QLayout, QPushButton, QScrollArea, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from desktop.widgets.flow import Flow
from desktop.widgets.tab_order import TabOrder

Kind = TypeVar("Kind", bound=QLayout)


def named(text: str) -> QPushButton:
    made = QPushButton(text)
    made.setObjectName(text)
    return made


def filled(kind: Callable[[QWidget], Kind], qtbot: QtBot) -> tuple[QWidget, Kind, list[QPushButton]]:
    """A widget with a layout of three."""
    root = QWidget()
    qtbot.addWidget(root)
    layout, parts = kind(root), [named(name) for name in ("one", "two", "three")]
    for part in parts:
        layout.addWidget(part)
    return root, layout, parts


def way(root: QWidget, first: QWidget) -> list[str]:
    """Names in the order of the Tab key, once around."""
    names, at = [first.objectName()], first.nextInFocusChain()
    while at is not first:
        names += [at.objectName()] if isinstance(at, QPushButton) and root.isAncestorOf(at) else []
        at = at.nextInFocusChain()
    return names


def test_layouts_within_layouts_are_gone_through_as_they_stand(qtbot: QtBot) -> None:
    root, inside = QWidget(), QWidget()
    qtbot.addWidget(root)
    whole, grid, flow, scroll = QVBoxLayout(root), QGridLayout(), Flow(), QScrollArea()
    last, first = named("last"), named("first")
    whole.addWidget(first)
    whole.addLayout(grid)
    whole.addLayout(flow)
    scroll.setWidget(inside)
    within = QVBoxLayout(inside)
    within.addWidget(named("in the scroll area"))
    whole.addWidget(scroll)
    whole.addStretch(1)
    whole.addWidget(last)
    for name, (row, column) in {"c": (1, 0), "b": (0, 1), "a": (0, 0)}.items():
        grid.addWidget(named(name), row, column)
    for name in ("words", "like this"):
        flow.addWidget(named(name))
    TabOrder(root).follow_the_eye()
    assert way(root, first) == ["first", "a", "b", "c", "words", "like this", "in the scroll area", "last"]


@pytest.mark.parametrize("kind", [QVBoxLayout, QGridLayout])
def test_nothing_is_kept_of_what_a_layout_frees(kind: type[QLayout], qtbot: QtBot) -> None:
    root, layout, parts = filled(kind, qtbot)
    TabOrder(root).follow_the_eye()
    parts[1].deleteLater()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
    assert held_items(layout) == []


def test_a_flow_is_cleared_and_filled_again(qtbot: QtBot) -> None:
    _root, flow, parts = filled(Flow, qtbot)
    flow.clear()
    assert (flow.count(), flow.widgets()) == (0, [])
    for part in reversed(parts):
        flow.addWidget(part)
    assert flow.widgets() == parts[::-1]
