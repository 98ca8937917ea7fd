"""Opening, saving and closing: nothing is lost or overwritten without being asked."""

from __future__ import annotations

from pathlib import Path

import pytest
from answering import answers
from files_cases import change, full_disk, plan_file
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, QThreadPool, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QApplication, QFileDialog, QMessageBox
from pytestqt.qtbot import QtBot
from windows import Open

from core.plan.read import load_plan
from desktop.files import on_disk
from desktop.files.on_disk import OnDisk
from desktop.files.saving import save_plan, with_suffix
from desktop.files.stamp import stamp_of
from desktop.paste.window import PasteWindow
from desktop.plan_files import SAMPLE
from desktop.window import MainWindow

SAVE, DROP, STAY = "Save", "Throw the changes away", "Cancel"


@pytest.fixture
def mine(tmp_path: Path) -> Path:
    return plan_file(tmp_path)


def test_closing_asks_and_can_be_called_off(start: Open, mine: Path) -> None:
    window = start(mine)
    change(window.document, 5)
    with answers(STAY) as asked:
        assert not window.close()
    assert asked == ["“Mine” has one change that is not saved."]
    with answers(DROP):
        assert window.close()
    assert load_plan(mine).goal.seasons == 7


def test_closing_saves_when_asked_to(start: Open, mine: Path) -> None:
    window = start(mine)
    change(window.document, 5)
    with answers(SAVE):
        assert window.close()
    assert load_plan(mine).goal.seasons == 5


def test_closing_stays_where_saving_fails(start: Open, mine: Path) -> None:
    window = start(mine)
    change(window.document, 5)
    with full_disk(), answers(SAVE):
        assert not window.close()
    box = next(one for one in window.findChildren(QMessageBox) if one.isVisible())
    assert box.text().startswith("mine.plan.json was not saved: ")
    assert box.text().endswith("Your plan is still here; save it under another name or in another folder.")
    box.close()
    assert window.document.has_unsaved_changes
    assert load_plan(mine).goal.seasons == 7
    window.document.history.set_clean()


def test_opening_another_plan_asks_first(start: Open, mine: Path, tmp_path: Path) -> None:
    other = plan_file(tmp_path, "other.plan.json", "Other")
    window = start(mine)
    change(window.document, 5)
    with answers(STAY):
        window.filing.open(other)
    assert window.document.plan.title == "Mine"
    with answers(SAVE):
        window.filing.open(other)
    assert window.document.plan.title == "Other"
    assert load_plan(mine).goal.seasons == 5


def test_a_new_plan_asks_first_and_stands_in_no_file(start: Open, mine: Path) -> None:
    window = start(mine)
    change(window.document, 5)
    with answers(DROP):
        window.menus.new.trigger()
    assert window.document.path is None
    assert window.windowTitle() == "New plan[*] – not saved yet – Pairwright"
    assert not window.document.has_unsaved_changes


def test_the_title_says_where_the_plan_stands(start: Open, mine: Path) -> None:
    assert start(mine).windowTitle() == "Mine[*] – mine.plan.json – Pairwright"
    assert start().windowTitle().endswith("[*] – sample – Pairwright")


def test_a_sample_is_never_saved_over(start: Open, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    window = start()
    before = SAMPLE.read_bytes()
    change(window.document, 5)
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(tmp_path / "own"), ""))
    window.menus.save.trigger()
    assert SAMPLE.read_bytes() == before
    assert window.document.path == tmp_path / "own.plan.json"
    assert window.windowTitle().endswith("– own.plan.json – Pairwright")


def test_the_second_window_on_a_file_is_a_copy(start: Open, mine: Path) -> None:
    first, second = start(mine), start(mine)
    assert second.windowTitle() == "Mine[*] – copy of mine.plan.json – Pairwright"
    assert second.notices.text("copy").startswith("mine.plan.json is open in another window too")
    assert second.document.path is None
    assert first.windowTitle().endswith("– mine.plan.json – Pairwright")
    assert not second.filing.save_to(mine)
    box = second.findChild(QMessageBox)
    assert box is not None
    assert "is open in another window: nothing was saved" in box.text()
    box.close()
    first.close()
    assert second.filing.save_to(mine)
    assert second.notices.text("copy") == ""


def test_a_change_from_outside_is_told_and_not_overwritten(start: Open, mine: Path, qtbot: QtBot) -> None:
    window = start(mine)
    change(window.document, 5)
    plan_file(mine.parent, title="Theirs")
    qtbot.waitUntil(lambda: "changed by another program" in window.notices.text("outside"))
    with answers(STAY) as asked:
        assert not window.filing.save()
    assert asked == ["mine.plan.json was changed by another program since it was opened here."]
    assert load_plan(mine).title == "Theirs"
    with answers("Save over it"):
        assert window.filing.save()
    assert load_plan(mine).title == "Mine"
    assert window.notices.text("outside") == ""


def test_saving_elsewhere_keeps_both(start: Open, mine: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    window = start(mine)
    change(window.document, 5)
    plan_file(mine.parent, title="Theirs")
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(mine.with_name("second.plan.json")), ""))
    with answers("Save under another name"):
        assert window.filing.save()
    assert load_plan(mine).title == "Theirs"
    assert load_plan(mine.with_name("second.plan.json")).title == "Mine"


def test_reading_again_can_be_undone(start: Open, mine: Path, qtbot: QtBot) -> None:
    window = start(mine)
    change(window.document, 5)
    plan_file(mine.parent, title="Theirs")
    qtbot.waitUntil(lambda: window.notices.text("outside") != "")
    window.notices.press("outside", "Read it again")
    assert window.document.plan.title == "Theirs"
    assert not window.document.has_unsaved_changes
    window.menus.undo.trigger()
    assert (window.document.plan.title, window.document.plan.goal.seasons) == ("Mine", 5)
    assert window.document.has_unsaved_changes
    window.document.history.set_clean()


def test_a_file_that_goes_while_it_is_looked_at_is_told(
    mine: Path, monkeypatch: pytest.MonkeyPatch, qtbot: QtBot
) -> None:
    disk, looked = OnDisk(), list[Path]()

    def looking(path: Path) -> str:
        looked.append(path)
        return stamp_of(path)

    def looking_and_gone(path: Path) -> str:
        found = stamp_of(path)
        path.unlink(missing_ok=True)
        return found

    def taken() -> None:
        # Before the window hears of anything else.
        QThreadPool.globalInstance().waitForDone()
        QApplication.processEvents()

    monkeypatch.setattr(on_disk, "stamp_of", looking)
    disk.hold(mine, stamp_of(mine))
    qtbot.waitUntil(lambda: bool(looked))
    taken()
    monkeypatch.setattr(on_disk, "stamp_of", looking_and_gone)
    with qtbot.waitSignal(disk.changed):
        disk.look()
        taken()
    assert disk.now == ""


def test_a_file_that_is_gone_is_told_and_written_again(start: Open, mine: Path, qtbot: QtBot) -> None:
    window = start(mine)
    mine.unlink()
    qtbot.waitUntil(lambda: "no longer where it was" in window.notices.text("outside"))
    assert window.filing.save()
    assert load_plan(mine) == window.document.plan


def test_recent_plans_are_in_the_menu(start: Open, mine: Path, tmp_path: Path) -> None:
    other = plan_file(tmp_path, "A & B.plan.json", "Other")
    window = start(mine)
    window.filing.open(other)
    mine.unlink()
    menu = window.menus.recent
    menu.fill()
    texts = [action.text() for action in menu.actions() if not action.isSeparator()]
    assert texts[0] == f"&1 A && B.plan.json – {tmp_path}"
    assert texts[1] == f"&2 mine.plan.json – {tmp_path}, no longer there"
    assert [action.isEnabled() for action in menu.actions()[:2]] == [True, False]
    menu.actions()[-1].trigger()
    menu.fill()
    assert len(menu.actions()) == 1
    menu.actions()[0].trigger()
    assert window.document.path == other


def test_a_full_disk_leaves_the_old_file(mine: Path) -> None:
    before = mine.read_bytes()
    with full_disk():
        reason = save_plan(load_plan(SAMPLE), mine)
    assert reason
    assert mine.read_bytes() == before
    assert [one.name for one in mine.parent.iterdir()] == ["mine.plan.json"]


def test_a_folder_that_takes_no_files_is_told() -> None:
    assert save_plan(load_plan(SAMPLE), Path("/proc/mine.plan.json"))


def test_the_ending_is_added_once() -> None:
    assert with_suffix(Path("a/mine")) == Path("a/mine.plan.json")
    assert with_suffix(Path("a/mine.json")) == Path("a/mine.json")


def test_dropped_files_are_opened_or_pasted(start: Open, mine: Path, qtbot: QtBot) -> None:
    window = start()
    drop(window, mine)
    assert window.document.path == mine
    listed = mine.with_name("list.txt")
    listed.write_text("0.1 amel 90\n1.0 what 50\n")
    drop(window, listed)
    dialog = window.findChild(PasteWindow)
    assert dialog is not None
    qtbot.waitUntil(lambda: dialog.summary.text() == "1 line is clear, 1 still to settle.")
    dialog.close()


def drop(window: MainWindow, path: Path) -> None:
    mime = QMimeData()
    mime.setUrls([QUrl.fromLocalFile(str(path))])
    copy, left, none = Qt.DropAction.CopyAction, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    enter = QDragEnterEvent(QPoint(200, 200), copy, mime, left, none)
    QApplication.sendEvent(window, enter)
    assert enter.isAccepted()
    QApplication.sendEvent(window, QDropEvent(QPointF(200, 200), copy, mime, left, none))
