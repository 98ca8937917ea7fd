"""What is loaded ahead is there, so that opening it waits for nothing."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
import window_double as double
from PySide6.QtCore import QObject
from pytestqt.qtbot import QtBot

from core.plan.read import load_plan
from desktop import ahead
from desktop.document import Document
from desktop.evaluation import evaluation_steps
from desktop.plan_files import SAMPLE

ROOT = Path(__file__).resolve().parents[2]


_SAID = """
import sys
from importlib import import_module
from desktop.ahead import PAGES
for page in PAGES:
    import_module(page)
print(set(PAGES) <= set(sys.modules))
"""


def test_the_pages_load_by_themselves() -> None:
    said = [sys.executable, "-c", _SAID]
    done = subprocess.run(said, cwd=ROOT, capture_output=True, text=True, timeout=60, check=True)
    assert done.stdout.strip() == "True"


class _Thread(QObject):
    """Takes down what is queued on it, and is idle when told so."""

    def __init__(self) -> None:
        super().__init__()
        self.queued: list[Callable[[], None]] = []
        self.idle = True

    def is_idle(self) -> bool:
        return self.idle

    def queue(self, work: Callable[[], None]) -> None:
        self.queued.append(work)
        self.idle = False


def test_a_change_need_not_wait_for_all_pages(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(ahead, "PAGES", ("not.loaded.one", "not.loaded.two"))
    monkeypatch.setattr(ahead, "_IDLE_MS", 0)
    plan = load_plan(SAMPLE)
    document, thread, parent = Document(plan, SAMPLE), _Thread(), QObject()
    loading = ahead.Ahead(document, thread, parent)  # type: ignore[arg-type]
    document.take(list(evaluation_steps(plan, double.engine())))
    qtbot.waitUntil(lambda: len(thread.queued) == 1)
    # The second page waits until the thread has nothing else to do.
    qtbot.wait(2 * ahead._NEXT_MS)
    assert len(thread.queued) == 1
    thread.idle = True
    qtbot.waitUntil(lambda: len(thread.queued) == 2)
    assert loading._left == []
