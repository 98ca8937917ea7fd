"""The way of the Tab key through parts that are made late: as they stand, not as they came."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
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
        children = widget.findChildren(QWidget, options=Qt.FindChildOption.FindDirectChildrenOnly)
        yield from _inside(layout, children)
    elif inside is not None:
        yield from _stops(inside)


def _inside(layout: QLayout, children: Sequence[QWidget]) -> Iterator[QWidget]:
    """The stops of one layout; `children` are those of the widget whose layout it is."""
    for part in _parts(layout, children):
        if isinstance(part, QLayout):
            yield from _inside(part, children)
        else:
            yield from _stops(part)


def _parts(layout: QLayout, children: Sequence[QWidget]) -> list[QWidget | QLayout]:
    # A layout's items are not asked for: Python would keep them after Qt has freed them with what they hold.
    places: dict[int, QWidget | QLayout] = {layout.indexOf(child): child for child in children}
    places |= {layout.indexOf(inner): inner for inner in layout.children() if isinstance(inner, QLayout)}
    places.pop(-1, None)
    if not isinstance(layout, QGridLayout):
        return [places[place] for place in sorted(places)]
    where: dict[int, Any] = {place: layout.getItemPosition(place) for place in places}
    return [places[place] for place in sorted(places, key=lambda place: (where[place][:2], place))]
