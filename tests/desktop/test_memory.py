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
from desktop.memory import give_back

LINUX = pytest.mark.skipif(
    sys.platform != "linux", reason="only Linux tells it there, and only there it has to be asked"
)


def resident() -> int:
    return int(Path("/proc/self/statm").read_text().split()[1]) * os.sysconf("SC_PAGE_SIZE")


@LINUX
def test_freed_memory_goes_back() -> None:
    blocks = [bytearray(16_384) for _ in range(4_000)]
    # Some stay behind among the others, so that no end of the heap is free.
    kept = blocks[::50]
    before = resident()
    del blocks
    give_back()
    assert before - resident() > 0.8 * 4_000 * 16_384
    assert len(kept) == 80


def test_it_goes_back_at_rest(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    asked, gate = Event(), Event()
    monkeypatch.setattr(module, "give_back", asked.set)
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
