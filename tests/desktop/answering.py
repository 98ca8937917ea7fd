"""Answers the questions that wait for an answer, as a person does: by pressing a button."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QMessageBox


@contextmanager
def answers(*words: str) -> Iterator[list[str]]:
    """Presses these buttons, one question after the other; gives what was asked."""
    asked: list[str] = []
    left = list(words)
    timer = QTimer(interval=5)

    def press() -> None:
        box = QApplication.activeModalWidget()
        if not left or not isinstance(box, QMessageBox) or not box.isVisible():
            return
        wanted = left.pop(0)
        asked.append(box.text())
        button = next(one for one in box.buttons() if one.text().replace("&", "") == wanted)
        QTest.mouseClick(button, Qt.MouseButton.LeftButton)

    timer.timeout.connect(press)
    timer.start()
    yield asked
    timer.stop()
    assert left == []
