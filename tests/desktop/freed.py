"""What Qt made and has freed without a word, and Python still holds: the next thing at its address would go with it."""

from __future__ import annotations

import gc

import shiboken6
from PySide6.QtCore import QObject
from PySide6.QtWidgets import QLayout, QLayoutItem


def freed_items() -> list[str]:
    """Layouts of which Python holds more items than there are."""
    layouts = [one for one in shiboken6.getAllValidWrappers() if isinstance(one, QLayout)]
    return [f"{layout!r} of {layout.parent()!r}" for layout in layouts if len(held_items(layout)) > _items_in(layout)]


def held_items(layout: QLayout) -> list[QLayoutItem]:
    """Those items of a layout that Python holds; one to which a filled layout is added holds the items of that, too."""
    held = [one for one in gc.get_referents(layout) if isinstance(one, QLayoutItem)]
    return [one for one in held if not isinstance(one, QObject)]


def _items_in(layout: QLayout) -> int:
    inner = [one for one in layout.children() if isinstance(one, QLayout)]
    return layout.count() - len(inner) + sum(_items_in(one) for one in inner)
