"""Disks that are full, slow, locked or not there: one sentence for the person, and nothing lost."""

from __future__ import annotations

import fcntl
import os
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from answering import answers
from files_cases import change, full_disk, plan_file
from PySide6.QtCore import Qt, QThread, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QMessageBox
from pytestqt.qtbot import QtBot
from windows import Open

from core.plan.read import load_plan
from desktop.faults_dialog import FaultsDialog
from desktop.files import beside, filing, saving
from desktop.files.places import recovery_folder
from desktop.files.recovery import RecoveryFile
from desktop.plan_files import Faults, open_plan
from desktop.window import MainWindow

HERE = "Your plan is still here; save it under another name or in another folder."


@pytest.fixture
def mine(tmp_path: Path) -> Path:
    return plan_file(tmp_path)


def told(window: MainWindow) -> str:
    """The one sentence that a failed saving says; it is closed."""
    (box,) = (one for one in window.findChildren(QMessageBox) if one.isVisible())
    text = box.text()
    box.close()
    return text


def kept_seasons() -> list[int]:
    """The horizon of every plan that would be brought back."""
    found = []
    for path in recovery_folder().glob("*.recovery.json"):
        content = RecoveryFile(path.parent, path.name.removesuffix(".recovery.json")).read()
        found += [content[1].goal.seasons] if content else []
    return found


class Gate:
    """A disk that takes nothing until it is opened."""

    def __init__(self) -> None:
        self.begun, self._opened = threading.Event(), threading.Event()

    def hold(self) -> None:
        self.begun.set()
        assert self._opened.wait(20)

    def open(self) -> None:
        self._opened.set()

    @property
    def is_open(self) -> bool:
        return self._opened.is_set()


@pytest.fixture
def slow_writing(monkeypatch: pytest.MonkeyPatch) -> Iterator[Gate]:
    """Writing waits at the gate, as on a network that has gone away."""
    gate = Gate()

    class Slow(saving.QSaveFile):
        def commit(self) -> bool:
            gate.hold()
            return super().commit()

    with monkeypatch.context() as patch:
        patch.setattr(saving, "QSaveFile", Slow)
        # What is kept for recovery lies on a disk of its own.
        patch.setattr("desktop.files.recovery.write_whole", _write_plainly)
        yield gate
        gate.open()


def _write_plainly(data: bytes, path: Path) -> None:
    path.write_bytes(data)


@contextmanager
def meanwhile(gate: Gate, act: Callable[[], object]) -> Iterator[None]:
    """Does this, as the person would, once the disk has begun to be slow; then the disk goes on."""
    done: list[bool] = []
    timer = QTimer(interval=5)

    def look() -> None:
        if gate.begun.is_set():
            timer.stop()
            act()
            done.append(True)
            gate.open()

    timer.timeout.connect(look)
    timer.start()
    yield
    assert done


def type_seasons(window: MainWindow, seasons: int) -> None:
    into = window.page.goal.fields["goal.seasons"]
    into.setFocus()
    into.selectAll()
    QTest.keyClicks(into, str(seasons))
    QTest.keyClick(into, Qt.Key.Key_Return)
    assert window.document.plan.goal.seasons == seasons


def test_a_full_disk_is_told_and_saved_to_once_there_is_room(start: Open, mine: Path) -> None:
    window = start(mine)
    change(window.document, 5)
    with full_disk():
        assert not window.filing.save()
    assert told(window).endswith(HERE)
    assert window.document.has_unsaved_changes
    assert load_plan(mine).goal.seasons == 7
    assert [one.name for one in mine.parent.iterdir()] == [mine.name]
    assert window.filing.save()
    assert load_plan(mine).goal.seasons == 5


def test_no_room_for_recovery_is_told_until_there_is(start: Open, mine: Path, qtbot: QtBot) -> None:
    window = start(mine)
    with full_disk():
        change(window.document, 5)
        qtbot.waitUntil(lambda: "cannot be kept safe against a crash" in window.notices.text("trouble"))
        assert kept_seasons() == []
    change(window.document, 6)
    qtbot.waitUntil(lambda: window.notices.text("trouble") == "")
    assert kept_seasons() == [6]
    window.document.history.set_clean()


def test_without_a_place_for_its_own_data_the_program_opens_edits_and_saves(
    start: Open, mine: Path, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    in_the_way = mine.with_name("no folder")
    in_the_way.write_text("")
    monkeypatch.setenv("XDG_DATA_HOME", str(in_the_way))
    monkeypatch.setenv("XDG_CONFIG_HOME", str(in_the_way))
    window = start(mine)
    type_seasons(window, 5)
    qtbot.waitUntil(lambda: "cannot be kept safe against a crash" in window.notices.text("trouble"))
    assert window.filing.save()
    assert load_plan(mine).goal.seasons == 5


def test_a_folder_that_takes_no_file_is_told(start: Open, mine: Path) -> None:
    window = start(mine)
    change(window.document, 5)
    for no_place in (mine / "inside.plan.json", mine.parent / "no such folder" / "x.plan.json", mine.parent):
        assert not window.filing.save_to(no_place)
        said = told(window)
        assert said.startswith(f"{no_place.name} was not saved: ")
        assert said.endswith(HERE)
    assert window.document.path == mine
    assert window.filing.save()
    assert load_plan(mine).goal.seasons == 5


@pytest.mark.skipif(os.geteuid() == 0, reason="nothing is read-only to root")
def test_a_folder_that_is_read_only_is_told(start: Open, mine: Path) -> None:
    window = start(mine)
    change(window.document, 5)
    mine.parent.chmod(0o500)
    try:
        assert not window.filing.save()
    finally:
        mine.parent.chmod(0o700)
    assert told(window).endswith(HERE)
    assert load_plan(mine).goal.seasons == 7
    window.document.history.set_clean()


def test_a_file_that_another_program_has_locked_is_saved_whole_all_the_same(start: Open, mine: Path) -> None:
    window = start(mine)
    change(window.document, 5)
    with mine.open("rb") as theirs:
        fcntl.flock(theirs, fcntl.LOCK_EX)
        assert window.filing.save()
        # Whoever has it open goes on with what it was.
        assert b'"seasons":7' in theirs.read().replace(b" ", b"")
    assert load_plan(mine).goal.seasons == 5


def test_a_file_that_may_not_be_replaced_is_told(start: Open, mine: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Some systems let nobody replace a file that another program has open: only the last step fails."""
    window = start(mine)
    change(window.document, 5)

    class Refused(saving.QSaveFile):
        def commit(self) -> bool:
            self.cancelWriting()
            return super().commit()

    with monkeypatch.context() as patch:
        patch.setattr(saving, "QSaveFile", Refused)
        assert not window.filing.save()
    assert told(window).endswith(HERE)
    assert load_plan(mine).goal.seasons == 7
    assert [one.name for one in mine.parent.iterdir()] == [mine.name]
    assert window.filing.save()


def test_while_a_slow_disk_takes_the_plan_it_can_be_edited(start: Open, mine: Path, slow_writing: Gate) -> None:
    window = start(mine)
    change(window.document, 5)
    with meanwhile(slow_writing, lambda: type_seasons(window, 6)):
        assert window.filing.save()
    assert load_plan(mine).goal.seasons == 5
    assert window.document.plan.goal.seasons == 6
    assert window.document.has_unsaved_changes
    assert window.document.history.changes == 1
    window.menus.undo.trigger()
    assert not window.document.has_unsaved_changes
    assert window.notices.text("outside") == ""


def test_whoever_does_not_wait_is_told_until_the_file_is_there(
    start: Open, mine: Path, slow_writing: Gate, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(beside, "UNNOTICED_MS", 200)
    window = start(mine)
    change(window.document, 5)
    with answers("Do not wait") as asked:
        assert not window.filing.save()
    assert asked == ["mine.plan.json is still being written: the disk is slow."]
    assert "still being written" in window.notices.text("slow")
    qtbot.waitUntil(lambda: kept_seasons() == [5])
    assert load_plan(mine).goal.seasons == 7
    slow_writing.open()
    qtbot.waitUntil(lambda: window.notices.text("slow") == "")
    assert load_plan(mine).goal.seasons == 5
    assert not window.document.has_unsaved_changes


def test_a_window_does_not_close_while_its_plan_is_written(start: Open, mine: Path, slow_writing: Gate) -> None:
    window = start(mine)
    change(window.document, 5)
    with meanwhile(slow_writing, window.close):
        assert window.filing.save()
    assert window.isVisible()
    assert window.close()


def test_a_slow_disk_is_not_waited_for_to_read_a_plan(
    start: Open, mine: Path, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    gate = Gate()

    def slow(path: Path) -> object | Faults:
        gate.hold()
        return open_plan(path)

    window = start()
    before = window.document.plan
    monkeypatch.setattr(filing, "open_plan", slow)
    monkeypatch.setattr(beside, "UNNOTICED_MS", 200)
    with answers("Do not wait") as asked:
        window.filing.open(mine)
    assert asked == ["mine.plan.json is still being read: the disk is slow."]
    gate.open()
    qtbot.wait(20)
    assert window.document.plan is before
    window.filing.open(mine)
    assert window.document.path == mine


def test_disks_that_have_gone_away_hold_up_no_other(start: Open, mine: Path) -> None:
    window, gone = start(mine), Gate()
    for _ in range(2 + QThread.idealThreadCount()):
        beside.Beside(gone.hold)
    change(window.document, 5)
    # Should it wait after all, it does not wait for good.
    QTimer.singleShot(5_000, gone.open)
    assert window.filing.save()
    still_gone = not gone.is_open
    gone.open()
    assert still_gone


def test_what_never_ends_is_no_plan(start: Open, tmp_path: Path) -> None:
    window = start()
    pipe = tmp_path / "pipe.plan.json"
    os.mkfifo(pipe)
    for odd in (pipe, tmp_path):
        window.filing.open(odd)
        (dialog,) = (one for one in window.findChildren(FaultsDialog) if one.isVisible())
        dialog.close()
    assert window.document.plan.title == load_plan(window.document.path or pipe).title
