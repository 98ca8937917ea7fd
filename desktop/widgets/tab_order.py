"""The way of the Tab key through parts that are made late: as they stand, not as they came."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QLayout, QScrollArea, QWidget


class TabOrder:
    """The way through one part of a window."""

    def __init__(self, root: QWidget) -> None:
        self._root = root
        self._last: list[QWidget] = []

    def follow_the_eye(self) -> None:
        """Has Tab go through everything inside in the order of the layouts; nothing happens where nothing is new."""
        stops = list(_stops(self._root))
        if stops != self._last:
            self._last = stops
            for before, after in pairwise(stops):
                QWidget.setTabOrder(before, after)


def _stops(widget: QWidget) -> Iterator[QWidget]:
    if widget.focusPolicy() & Qt.FocusPolicy.TabFocus:
        yield widget
    layout, inside = widget.layout(), widget.widget() if isinstance(widget, QScrollArea) else None
    if layout is not None:
        yield from _inside(layout)
    elif inside is not None:
        yield from _stops(inside)


def _inside(layout: QLayout) -> Iterator[QWidget]:
    for place in _places(layout):
        item = layout.itemAt(place)
        if item is None:
            continue
        inner, widget = item.layout(), item.widget()
        if inner is not None:
            yield from _inside(inner)
        elif widget is not None:
            yield from _stops(widget)


def _places(layout: QLayout) -> list[int]:
    places = list(range(layout.count()))
    if not isinstance(layout, QGridLayout):
        return places
    where: dict[int, Any] = {place: layout.getItemPosition(place) for place in places}
    return sorted(places, key=lambda place: where[place][:2])
