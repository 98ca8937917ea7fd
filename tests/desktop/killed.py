"""The program in a process of its own, doing what a scene says until it is killed: `python -m killed SCENE [PLAN]`."""

from __future__ import annotations

import os
import signal
import sys
from collections.abc import Callable

from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from desktop.app import main
from desktop.files import saving
from desktop.files.places import recovery_folder
from desktop.window import MainWindow

EVERY_MS = 40


def die() -> None:
    """At once, without a chance to tidy up."""
    os.kill(os.getpid(), signal.SIGKILL)


def windows() -> list[MainWindow]:
    return [one for one in QApplication.topLevelWidgets() if isinstance(one, MainWindow)]


def type_seasons(window: MainWindow, seasons: int) -> None:
    field = window.page.goal.fields["goal.seasons"]
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, str(seasons))
    QTest.keyClick(field, Qt.Key.Key_Return)
    assert window.document.plan.goal.seasons == seasons


def once_kept(files: int, act: Callable[[], None]) -> None:
    """Acts as soon as the changes of so many windows are kept, however busy the machine is."""
    timer = QTimer(QApplication.instance(), interval=EVERY_MS)

    def look() -> None:
        if len(list(recovery_folder().glob("*.recovery.json"))) >= files:
            timer.stop()
            act()

    timer.timeout.connect(look)
    timer.start()


def edit_two_windows() -> None:
    """Both windows are edited, and once that is kept the power goes."""
    windows()[0].menus.new_window.trigger()
    first = next(one for one in windows() if one.document.path and one.document.path.name == "mine.plan.json")
    second = next(one for one in windows() if one is not first)
    type_seasons(first, 5)
    type_seasons(second, 6)
    once_kept(2, die)


def edit_without_a_pause() -> None:
    """One edit after the other, each told on the way, until somebody ends it."""
    window, count = windows()[0], [0]
    timer = QTimer(window, interval=EVERY_MS)

    def edit() -> None:
        count[0] += 1
        type_seasons(window, 1 + count[0] % 50)
        print(count[0], flush=True)

    timer.timeout.connect(edit)
    timer.start()


def save_and_die_before() -> None:
    """The new file is written, but not yet in the old one's place."""
    _die_at_commit(after=False)


def save_and_die_after() -> None:
    """The new file is in its place, but nothing else is tidied up."""
    _die_at_commit(after=True)


def _die_at_commit(*, after: bool) -> None:
    window = windows()[0]

    class Deadly(saving.QSaveFile):
        def commit(self) -> bool:
            if after:
                super().commit()
            die()
            return False

    def save() -> None:
        saving.QSaveFile = Deadly  # type: ignore[misc]
        window.menus.save.trigger()

    type_seasons(window, 5)
    once_kept(1, save)


SCENES: dict[str, Callable[[], None]] = {
    scene.__name__: scene for scene in (edit_two_windows, edit_without_a_pause, save_and_die_before, save_and_die_after)
}

if __name__ == "__main__":
    run_loop = QApplication.exec

    def play(*_: object) -> int:
        QTimer.singleShot(0, SCENES[sys.argv[1]])
        return run_loop()

    QApplication.exec = play  # type: ignore[method-assign, assignment]
    sys.exit(main(sys.argv[2:]))
