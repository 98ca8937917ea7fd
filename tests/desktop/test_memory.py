"""What the work took of memory goes back to the system once nothing is worked out any more."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from threading import Event

import pytest
import window_double as double
from PySide6.QtCore import QTimer
from pytestqt.qtbot import QtBot

from desktop import evaluator as module
from desktop.evaluator import Evaluator
from desktop.memory import SPARE, Memory

LINUX = pytest.mark.skipif(
    sys.platform != "linux", reason="only Linux tells it there, and only there it has to be asked"
)


def resident() -> int:
    return int(Path("/proc/self/statm").read_text("ascii").split()[1]) * os.sysconf("SC_PAGE_SIZE")


def freed(size: int) -> list[bytearray]:
    """So many bytes taken and freed but for some that stay among them, so that no end of the heap is free."""
    blocks = [bytearray(16_384) for _ in range(size // 16_384)]
    return blocks[::50]


@LINUX
def test_much_that_was_freed_goes_back() -> None:
    memory = Memory()
    memory.give_back()
    before = resident()
    kept = freed(3 * SPARE)
    memory.give_back()
    assert resident() - before < SPARE
    assert len(kept) > 80


@LINUX
def test_little_stays_at_hand() -> None:
    memory = Memory()
    memory.give_back()
    kept = freed(SPARE // 4)
    before = resident()
    memory.give_back()
    assert resident() > before - SPARE // 8
    assert kept


def test_it_goes_back_at_rest(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    asked, gate = Event(), Event()
    monkeypatch.setattr(Memory, "give_back", lambda _: asked.set())
    monkeypatch.setattr(module, "_AT_REST_MS", 1)
    evaluator = Evaluator(lambda: double.route_steps)
    evaluator.queue(lambda: bool(gate.wait(5)))
    (timer,) = (one for one in evaluator.findChildren(QTimer) if one.interval() == 1)
    # Work that goes on is waited for once more.
    for _ in range(2):
        with qtbot.waitSignal(timer.timeout):
            pass
    assert not asked.is_set()
    gate.set()
    qtbot.waitUntil(asked.is_set)
    evaluator.stop()
