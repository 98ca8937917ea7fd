"""Objects of Qt that only the garbage collector can free are freed by the window's thread."""

from __future__ import annotations

import gc
import threading
from collections.abc import Iterator

import pytest
from PySide6.QtCore import QObject
from pytestqt.qtbot import QtBot

from desktop.garbage import Garbage


class Noted(QObject):
    """Tells where it was freed; holds itself, so that nothing but the collector lets go of it."""

    def __init__(self, freed: list[str]) -> None:
        super().__init__()
        self.me, self.freed = self, freed

    def __del__(self) -> None:
        self.freed.append(threading.current_thread().name)


@pytest.fixture
def garbage() -> Iterator[Garbage]:
    parent = QObject()
    yield Garbage(parent)
    gc.unfreeze()


def test_a_busy_thread_frees_nothing_of_the_windows(qtbot: QtBot, garbage: Garbage) -> None:
    freed: list[str] = []
    Noted(freed)

    def busy() -> None:
        for _ in range(20_000):
            pair: list[object] = []
            pair.append(pair)

    worker = threading.Thread(target=busy)
    worker.start()
    worker.join()
    assert freed == []
    qtbot.waitUntil(lambda: freed == ["MainThread"])
    assert gc.get_count()[0] < 20_000
    assert garbage.parent() is not None


def test_older_objects_are_looked_at_in_their_turn(garbage: Garbage) -> None:
    before = gc.get_stats()[2]["collections"]
    kept = []
    for _ in range(200):
        kept.append([[number] for number in range(800)])
        garbage.look()
    assert gc.get_stats()[2]["collections"] > before
