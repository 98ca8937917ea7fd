"""Changes that are not saved outlive the window that made them."""

from __future__ import annotations

import gc
import re
import weakref
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest
import window_double as double
from files_cases import change, plan_file, with_seasons
from PySide6.QtCore import QLockFile, Qt
from pytestqt.qtbot import QtBot
from windows import Open

from core.plan.read import load_plan
from desktop.appearance import Appearance
from desktop.files.left_behind import LeftBehind, Offer, all_left
from desktop.files.places import recovery_folder
from desktop.files.recovery import RecoveryFile, Unsaved, unsaved
from desktop.files.stamp import stamp_of
from desktop.window import MainWindow
from desktop.windows import Windows


@pytest.fixture
def mine(tmp_path: Path) -> Path:
    return plan_file(tmp_path)


@pytest.fixture
def windows(qtbot: QtBot, appearance: Appearance) -> Iterator[Windows]:
    made = Windows(appearance, double.engine)
    yield made
    for window in made.shown:
        window.document.history.set_clean()
        window.close()
    qtbot.waitUntil(lambda: made.shown == [])
    made.deleteLater()


def kept() -> list[Unsaved]:
    found = []
    for path in sorted(recovery_folder().glob("*.recovery.json")):
        content = RecoveryFile(path.parent, path.name.removesuffix(".recovery.json")).read()
        assert content is not None
        found.append(content[0])
    return found


def leave(path: Path | None, seasons: int, *, changes: int = 3, stamp: str | None = None) -> RecoveryFile:
    """What an ended window leaves: its file, and a lock of a process that is gone."""
    plan = with_seasons(
        load_plan(path) if path and path.exists() else load_plan(plan_file(recovery_folder().parent)), seasons
    )
    file = RecoveryFile(recovery_folder())
    known = stamp if stamp is not None else stamp_of(path) if path else ""
    assert file.write(unsaved(plan, datetime.now(UTC), changes, path, known)) is None
    file.release()
    return file


def offered(window: MainWindow, qtbot: QtBot) -> LeftBehind:
    qtbot.waitUntil(lambda: window.findChild(LeftBehind) is not None)
    dialog = window.findChild(LeftBehind)
    assert isinstance(dialog, LeftBehind)
    return dialog


def press(qtbot: QtBot, offer: Offer, word: str) -> None:
    qtbot.mouseClick(getattr(offer, word), Qt.MouseButton.LeftButton)


def test_a_change_is_kept_at_once_and_let_go_when_saved(start: Open, mine: Path, qtbot: QtBot) -> None:
    window = start(mine)
    change(window.document, 5)
    qtbot.waitUntil(lambda: len(kept()) == 1)
    assert (kept()[0].file, kept()[0].changes, kept()[0].stamp) == (str(mine), 1, stamp_of(mine))
    assert window.filing.save()
    qtbot.waitUntil(lambda: kept() == [])


def test_undone_to_what_was_saved_there_is_nothing_to_keep(start: Open, mine: Path, qtbot: QtBot) -> None:
    window = start(mine)
    change(window.document, 5)
    qtbot.waitUntil(lambda: len(kept()) == 1)
    window.document.undo()
    qtbot.waitUntil(lambda: kept() == [])


def test_a_clean_close_leaves_nothing(start: Open, mine: Path, qtbot: QtBot) -> None:
    window = start(mine)
    change(window.document, 5)
    qtbot.waitUntil(lambda: len(kept()) == 1)
    window.document.history.set_clean()
    window.close()
    assert list(recovery_folder().iterdir()) == []


def test_a_folder_that_takes_nothing_is_told(start: Open, mine: Path, qtbot: QtBot) -> None:
    window = start(mine)
    recovery_folder().parent.mkdir(parents=True, exist_ok=True)
    recovery_folder().write_text("in the way")
    change(window.document, 5)
    qtbot.waitUntil(lambda: "cannot be kept safe" in window.notices.text("trouble"))
    recovery_folder().unlink()
    change(window.document, 6)
    qtbot.waitUntil(lambda: window.notices.text("trouble") == "")


def test_two_ended_windows_are_offered_and_brought_back(windows: Windows, mine: Path, qtbot: QtBot) -> None:
    leave(mine, 5)
    leave(None, 6, changes=1)
    window = windows.open()
    assert isinstance(window, MainWindow)
    windows.look_for_left_behind()
    dialog = offered(window, qtbot)
    first, second = dialog.offers
    assert first.name.text() == f"“Mine”, {mine}"
    # Midnight may have passed since.
    assert re.match("Three changes, the last one (today|yesterday) at ", first.story.text())
    assert second.name.text() == "“Mine”, never saved to a file"
    assert not second.look.isVisible()
    press(qtbot, first, "bring_back")
    assert (window.document.path, window.document.plan.goal.seasons) == (mine, 5)
    assert window.document.has_unsaved_changes
    press(qtbot, second, "bring_back")
    assert len(windows.shown) == 2
    other = windows.shown[1]
    assert (other.document.path, other.document.plan.goal.seasons) == (None, 6)
    qtbot.waitUntil(lambda: window.findChild(LeftBehind) is None)
    # Both go on with the files they were left in, until they are saved.
    assert len(kept()) == 2
    assert window.filing.save()
    qtbot.waitUntil(lambda: len(kept()) == 1)
    assert load_plan(mine).goal.seasons == 5


def test_thrown_away_can_be_kept_after_all(windows: Windows, mine: Path, qtbot: QtBot) -> None:
    leave(mine, 5)
    window = windows.open()
    assert isinstance(window, MainWindow)
    windows.look_for_left_behind()
    offer = offered(window, qtbot).offers[0]
    press(qtbot, offer, "throw_away")
    assert offer.throw_away.text() == "Keep it after all"
    press(qtbot, offer, "throw_away")
    offered(window, qtbot).close_button.click()
    assert len(all_left(recovery_folder())) == 1


def test_thrown_away_is_gone_once_closed(windows: Windows, mine: Path, qtbot: QtBot) -> None:
    leave(mine, 5)
    window = windows.open()
    assert isinstance(window, MainWindow)
    windows.look_for_left_behind()
    dialog = offered(window, qtbot)
    press(qtbot, dialog.offers[0], "throw_away")
    assert len(kept()) == 1
    dialog.close_button.click()
    assert kept() == []
    assert load_plan(mine).goal.seasons == 7


def test_the_file_as_saved_is_looked_at_as_a_copy(windows: Windows, mine: Path, qtbot: QtBot) -> None:
    leave(mine, 5)
    window = windows.open()
    assert isinstance(window, MainWindow)
    windows.look_for_left_behind()
    dialog = offered(window, qtbot)
    press(qtbot, dialog.offers[0], "look")
    look = windows.shown[1]
    assert look.document.plan.goal.seasons == 7
    assert look.notices.text("copy").startswith("This is mine.plan.json as it was saved")
    press(qtbot, dialog.offers[0], "bring_back")
    assert (window.document.path, window.document.plan.goal.seasons) == (mine, 5)


def test_a_file_changed_after_that_is_told_and_not_saved_over(windows: Windows, mine: Path, qtbot: QtBot) -> None:
    leave(mine, 5)
    plan_file(mine.parent, title="Theirs")
    window = windows.open()
    assert isinstance(window, MainWindow)
    windows.look_for_left_behind()
    dialog = offered(window, qtbot)
    assert dialog.offers[0].story.text().endswith("The file itself was changed after that by another program.")
    press(qtbot, dialog.offers[0], "bring_back")
    qtbot.waitUntil(lambda: "changed by another program" in window.notices.text("outside"))


def test_what_was_saved_in_the_last_moment_is_not_offered(mine: Path) -> None:
    leave(mine, 7)
    assert all_left(recovery_folder()) == []
    assert kept() == []


def test_what_cannot_be_read_is_told(windows: Windows, qtbot: QtBot) -> None:
    recovery_folder().mkdir(parents=True)
    (recovery_folder() / "x.recovery.json").write_text("{")
    window = windows.open()
    assert isinstance(window, MainWindow)
    windows.look_for_left_behind()
    offer = offered(window, qtbot).offers[0]
    assert "cannot be read as a plan" in offer.story.text()
    assert not offer.bring_back.isVisible()


def test_what_a_living_window_keeps_is_not_offered(mine: Path) -> None:
    file = leave(mine, 5)
    lock = QLockFile(f"{file.path}.lock")
    assert lock.tryLock(0)
    assert all_left(recovery_folder()) == []
    lock.unlock()
    (found,) = all_left(recovery_folder())
    found.file.release()


def test_pieces_of_a_killed_writing_are_cleared(mine: Path) -> None:
    file = leave(mine, 5)
    piece = file.path.with_name(f"{file.path.name}.aB12cD")
    piece.write_text("{")
    (found,) = all_left(recovery_folder())
    found.file.release()
    assert not piece.exists()
    assert file.path.exists()


def test_another_window_is_one_of_its_own(windows: Windows, qtbot: QtBot) -> None:
    first = windows.open()
    assert isinstance(first, MainWindow)
    first.menus.new_window.trigger()
    second = windows.shown[1]
    change(second.document, 5)
    assert first.document.plan.goal.seasons == 7
    second.document.history.set_clean()
    second.close()
    qtbot.waitUntil(lambda: windows.shown == [first])


def test_a_closed_window_lets_go_of_what_it_worked_out(windows: Windows, qtbot: QtBot) -> None:
    windows.open()
    windows.open()
    gone = weakref.ref(windows.shown[-1].document)
    qtbot.waitUntil(lambda: windows.shown[-1].document.complete)
    windows.shown[-1].close()
    gc.disable()
    try:
        # Nothing else looks for garbage meanwhile.
        qtbot.waitUntil(lambda: gone() is None)
    finally:
        gc.enable()
