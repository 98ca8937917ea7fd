"""The plans used last, as a menu that is filled when it is opened."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu, QWidget

from desktop.files import recent
from desktop.words import files as words


class RecentMenu(QMenu):
    """Files that are no longer there stay in sight, greyed, until they are forgotten."""

    opened = Signal(Path)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(words.RECENT, parent)
        self.aboutToShow.connect(self.fill)
        self.triggered.connect(self._act)

    def fill(self) -> None:
        """Lists them as they are now."""
        self.clear()
        paths = recent.recent()
        missing = [path for path in paths if not path.is_file()]
        for number, path in enumerate(paths, 1):
            text = words.recent_item(path.name, str(path.parent), number, missing=path in missing)
            action = self.addAction(text)
            action.setData(str(path))
            action.setEnabled(path not in missing)
        if not paths:
            self.addAction(words.NOTHING_RECENT).setEnabled(False)
        if missing:
            self.addSeparator()
            self.addAction(words.FORGET_MISSING).triggered.connect(recent.forget_missing)

    def _act(self, action: QAction) -> None:
        if isinstance(action.data(), str):
            self.opened.emit(Path(action.data()))
