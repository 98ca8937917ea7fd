"""Runs the program's real main() in the tests' own application."""

from __future__ import annotations

import gc
import signal
from collections.abc import Callable
from pathlib import Path

import pytest
from freed import freed_items
from PySide6.QtCore import QCoreApplication, QEvent
from PySide6.QtWidgets import QApplication

import desktop.start
from desktop.app import main
from desktop.window import MainWindow


def play(monkeypatch: pytest.MonkeyPatch, journey: Callable[[MainWindow], None], plan: Path | None = None) -> None:
    """Starts on `plan`, plays a journey in place of waiting for a person, and ends."""
    played: list[bool] = []

    def instead_of_waiting(*_: object) -> int:
        try:
            journey(window_shown())
            assert freed_items() == []
            played.append(True)
        finally:
            for window in all_windows():
                window.document.history.set_clean()
                window.close()
        return 0

    interrupt = signal.getsignal(signal.SIGINT)
    monkeypatch.setattr(desktop.start, "QApplication", lambda _: QApplication.instance())
    monkeypatch.setattr(QApplication, "exec", instead_of_waiting)
    try:
        assert main([str(plan)] if plan else []) == 0
    finally:
        signal.signal(signal.SIGINT, interrupt)
        gc.unfreeze()
        # The windows are let go of once they have closed.
        QCoreApplication.sendPostedEvents(None, QEvent.Type.MetaCall.value)
        QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
    assert played == [True]


def all_windows() -> list[MainWindow]:
    """Every main window that is shown."""
    return [one for one in QApplication.topLevelWidgets() if isinstance(one, MainWindow) and one.isVisible()]


def window_shown() -> MainWindow:
    """The one main window."""
    (window,) = all_windows()
    return window
