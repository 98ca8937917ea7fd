"""The plotting library, loaded without every class of Qt.

The library keeps copies of three modules of Qt, and copying a name makes Qt's class for it: some 700 classes with all
their enumerations, a tenth of the program's start. Here the copies hand a name on when it is asked for.
"""

from __future__ import annotations

import importlib
import sys
from functools import partial
from types import ModuleType
from typing import Any

from PySide6 import QtCore, QtGui, QtWidgets

__all__ = ["pg"]


def _load() -> None:
    sources: tuple[Any, ...] = (QtCore, QtGui, QtWidgets)
    listings = [vars(source)["__dir__"] for source in sources]
    for source in sources:
        copy: Any = ModuleType(f"pyqtgraph.Qt.{source.__name__.rpartition('.')[2]}")
        copy.__getattr__ = partial(getattr, source)
        sys.modules.setdefault(copy.__name__, copy)
        # The library copies the names that it finds listed.
        source.__dir__ = _no_names
    try:
        importlib.import_module("pyqtgraph")
    finally:
        for source, listing in zip(sources, listings, strict=True):
            source.__dir__ = listing


def _no_names() -> list[str]:
    return []


_load()

import pyqtgraph as pg  # noqa: E402
