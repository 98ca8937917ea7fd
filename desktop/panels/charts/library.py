"""The plotting library, loaded no further than the charts need it.

By itself the library loads all of its parts, and keeps copies of three modules of Qt, where copying a name makes Qt's
class for it: some 700 classes with all their enumerations. Together that is a fifth of the program's start. Here parts
that no chart needs are left out, for whoever needs one to import it from its own module, and the copies hand a name on
when it is asked for.
"""

from __future__ import annotations

import importlib
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from functools import partial
from importlib.abc import Loader, MetaPathFinder
from importlib.machinery import ModuleSpec
from types import ModuleType
from typing import Any

from PySide6 import QtCore, QtGui, QtWidgets

__all__ = ["pg"]

_LIBRARY = "pyqtgraph"
# What the charts use, and what that is made of.
_NEEDED = ("Qt", "colors", "debug", "functions", "reload", "util", "GraphicsScene", "Point", "WidgetGroup")
_NEEDED_ITEMS = ("GraphicsItem", "GraphicsObject", "GraphicsWidget", "ItemGroup", "PlotCurveItem", "ViewBox")


class _LeaveOut(MetaPathFinder, Loader):
    """Gives an empty module for every part of the library that is not needed."""

    def find_spec(
        self, fullname: str, _path: Sequence[str] | None, _target: ModuleType | None = None
    ) -> ModuleSpec | None:
        return ModuleSpec(fullname, self) if _is_left_out(fullname) else None

    def exec_module(self, module: ModuleType) -> None:
        # The library takes all names of some parts, and from others the class that they are called after.
        vars(module).update({"__all__": (), module.__name__.rpartition(".")[2]: None})


def _is_left_out(name: str) -> bool:
    library, _, part = name.partition(".")
    top, _, item = part.partition(".")
    if library != _LIBRARY or not part:
        return False
    if top == "graphicsItems":
        return bool(item) and item.split(".")[0] not in _NEEDED_ITEMS
    if top == "widgets":
        return item not in ("", "GraphicsView")
    return top not in _NEEDED


@contextmanager
def _parts_left_out() -> Iterator[None]:
    finder = _LeaveOut()
    sys.meta_path.insert(0, finder)
    try:
        yield
    finally:
        sys.meta_path.remove(finder)
        for name in [name for name in sys.modules if _is_left_out(name)]:
            del sys.modules[name]


@contextmanager
def _no_names_listed() -> Iterator[None]:
    sources: tuple[Any, ...] = (QtCore, QtGui, QtWidgets)
    listings = [vars(source)["__dir__"] for source in sources]
    for source in sources:
        copy: Any = ModuleType(f"{_LIBRARY}.Qt.{source.__name__.rpartition('.')[2]}")
        copy.__getattr__ = partial(getattr, source)
        sys.modules.setdefault(copy.__name__, copy)
        # The library copies the names that it finds listed.
        source.__dir__ = _no_names
    try:
        yield
    finally:
        for source, listing in zip(sources, listings, strict=True):
            source.__dir__ = listing


def _no_names() -> list[str]:
    return []


with _no_names_listed(), _parts_left_out():
    importlib.import_module(_LIBRARY)

import pyqtgraph as pg  # noqa: E402
