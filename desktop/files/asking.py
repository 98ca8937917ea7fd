"""Questions about files that wait for an answer."""

from __future__ import annotations

from collections.abc import Sequence
from enum import Enum, auto

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QMessageBox, QWidget

from desktop.words import files as words
from desktop.words import labels

_Role = QMessageBox.ButtonRole


class Choice(Enum):
    """What the person said."""

    SAVE = auto()
    SAVE_ELSEWHERE = auto()
    DROP = auto()
    STAY = auto()


def about_unsaved(parent: QWidget, sentence: str, question: str) -> Choice:
    """Whether to save what closing would lose."""
    choices = [
        (words.UNSAVED_SAVE, _Role.AcceptRole, Choice.SAVE),
        (words.UNSAVED_DROP, _Role.DestructiveRole, Choice.DROP),
    ]
    return _ask(parent, sentence, question, choices)


def about_saving_over(parent: QWidget, sentence: str) -> Choice:
    """Whether to replace what another program wrote."""
    choices = [
        (words.SAVE_ELSEWHERE, _Role.AcceptRole, Choice.SAVE_ELSEWHERE),
        (words.SAVE_OVER, _Role.DestructiveRole, Choice.SAVE),
    ]
    return _ask(parent, sentence, words.SAVE_OVER_ASK, choices)


def about_waiting(parent: QWidget, text: str) -> QMessageBox:
    """To be opened where the disk is slow; pressing its button ends the waiting, not the work."""
    box = _box(parent, text)
    box.addButton(words.DO_NOT_WAIT, _Role.RejectRole)
    return box


def tell(parent: QWidget, text: str) -> None:
    """Says something that needs no answer."""
    box = _box(parent, text)
    box.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    box.open()


def _ask(
    parent: QWidget, sentence: str, question: str, choices: Sequence[tuple[str, QMessageBox.ButtonRole, Choice]]
) -> Choice:
    """The first choice is the one Enter takes; Escape and the window's own cross change nothing."""
    box = _box(parent, sentence)
    box.setInformativeText(question)
    meanings = {box.addButton(text, role): choice for text, role, choice in choices}
    box.setDefaultButton(next(iter(meanings)))
    box.setEscapeButton(box.addButton(words.STAY, _Role.RejectRole))
    box.exec()
    pressed = box.clickedButton()
    said = next((choice for button, choice in meanings.items() if button is pressed), Choice.STAY)
    box.deleteLater()
    return said


def _box(parent: QWidget, text: str) -> QMessageBox:
    box = QMessageBox(parent)
    box.setTextFormat(Qt.TextFormat.PlainText)
    box.setWindowTitle(labels.PROGRAM)
    box.setText(text)
    return box
