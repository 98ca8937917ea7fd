"""The program is killed while editing and while saving; it is started again, and nothing is lost."""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys
import time
from itertools import pairwise
from pathlib import Path

import pytest
from files_cases import plan_file
from main_run import all_windows, play
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from core.plan.read import load_plan
from desktop.files.left_behind import LeftBehind, all_left
from desktop.files.places import recovery_folder
from desktop.plan_files import SAMPLE
from desktop.window import MainWindow

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture
def mine(tmp_path: Path) -> Path:
    return plan_file(tmp_path)


def process(scene: str, plan: Path) -> subprocess.Popen[str]:
    """The program in a process of its own."""
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join([str(ROOT), str(Path(__file__).parent)])}
    command = [sys.executable, "-m", "killed", scene, str(plan)]
    return subprocess.Popen(command, cwd=ROOT, env=environment, stdout=subprocess.PIPE, text=True)


def until_killed(scene: str, plan: Path) -> None:
    with process(scene, plan) as running:
        assert running.wait(60) == -signal.SIGKILL


def test_two_windows_are_killed_and_both_come_back(mine: Path, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    until_killed("edit_two_windows", mine)

    def start_again(window: MainWindow) -> None:
        qtbot.waitUntil(lambda: window.findChild(LeftBehind) is not None)
        dialog = window.findChild(LeftBehind)
        assert isinstance(dialog, LeftBehind)
        for offer in dialog.offers:
            # Midnight may have passed since.
            assert re.search("One change, made (today|yesterday) at", offer.story.text())
            qtbot.mouseClick(offer.bring_back, Qt.MouseButton.LeftButton)
        found = {one.document.path: one.document.plan.goal.seasons for one in all_windows()}
        assert found == {mine: 5, SAMPLE: 6}
        own = next(one for one in all_windows() if one.document.path == mine)
        own.menus.save.trigger()

    play(monkeypatch, start_again)
    assert load_plan(mine).goal.seasons == 5


def test_killed_at_any_moment_all_but_the_last_second_is_there(mine: Path) -> None:
    with process("edit_without_a_pause", mine) as running:
        assert running.stdout is not None
        told: list[tuple[int, float]] = []
        for line in running.stdout:
            told.append((int(line), time.monotonic()))
            if told[-1][1] - told[0][1] > 1.6:
                break
        ended = time.monotonic()
        os.kill(running.pid, signal.SIGKILL)
    # On a busy machine the program may have had no turn for a while.
    held_up = max(after - before for (_, before), (_, after) in pairwise(told))
    safe = max((number for number, when in told if when < ended - 1 - held_up), default=0)
    (left,) = all_left(recovery_folder())
    assert left.kept is not None
    assert left.plan is not None
    assert safe <= left.plan.goal.seasons - 1 <= told[-1][0] + 1
    left.file.release()


def test_killed_before_the_new_file_is_in_its_place(mine: Path) -> None:
    until_killed("save_and_die_before", mine)
    assert load_plan(mine).goal.seasons == 7
    (left,) = all_left(recovery_folder())
    assert left.plan is not None
    assert left.plan.goal.seasons == 5
    left.file.release()


def test_killed_right_after_saving_there_is_nothing_to_bring_back(mine: Path) -> None:
    until_killed("save_and_die_after", mine)
    assert load_plan(mine).goal.seasons == 5
    assert all_left(recovery_folder()) == []
