"""Screens on prices and assumptions: what is for sale, what matters, and a route that is out of reach."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from gallery_why import shown
from PySide6.QtCore import QEventLoop, QSize, QTimer
from PySide6.QtGui import QPixmap
from PySide6.QtWidgets import QApplication

from desktop.appearance import Appearance
from desktop.window import MainWindow
from desktop.worth.page import MATTERS, WORTH, WorthPage

# Which sample, and which of its routes the bars are about (None: the cheapest).
SHOWN = {
    "worth-possible-hets": ("royal-possible-hets", None),
    "worth-out-of-reach": ("corn-linked", "apart"),
}


def screens(app: QApplication, appearance: Appearance, size: QSize) -> Iterator[tuple[str, QPixmap]]:
    """Both parts for each sample."""
    for name, (sample, route) in SHOWN.items():
        window = shown(app, appearance, size, sample)
        if route is not None:
            window.document.select(next(one for one in window.document.found if one.id == route))
        page = opened(window, WORTH)
        page.worth.table.setFocus()
        app.processEvents()
        yield name, window.grab()
        page = opened(window, MATTERS)
        yield f"{name}-matters", window.grab()
        window.close()


def opened(window: MainWindow, tab: int) -> WorthPage:
    """The page at one of its parts, worked out."""
    window.show_worth(tab)
    page = window.views.page()
    assert isinstance(page, WorthPage)
    settle(page)
    return page


def settle(page: WorthPage) -> None:
    """Waits for what was asked for, in a loop that lets the worker's thread go on."""
    loop, look = QEventLoop(), QTimer(interval=10)
    look.timeout.connect(partial(_leave, page, loop))
    look.start()
    loop.exec()


def _leave(page: WorthPage, loop: QEventLoop) -> None:
    if page.is_settled:
        loop.quit()
