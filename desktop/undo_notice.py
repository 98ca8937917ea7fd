"""Tells of a step that changed more than is in sight, with the way back for as long as undo takes back just that."""

from __future__ import annotations

from PySide6.QtCore import QObject

from desktop.document import Document
from desktop.widgets.notices import Notices
from desktop.words import files as file_words
from desktop.words import labels

_MATTER = "step"


class UndoNotice(QObject):
    """Says it about the last step of the document; goes with the next one, and when it has been read."""

    def __init__(self, document: Document, notices: Notices, sentence: str) -> None:
        super().__init__(notices)
        self._document, self._notices = document, notices
        self._last = document.plan, document.history.undo_what
        notices.tell(_MATTER, sentence, [(labels.undo(None), self._document.undo), (file_words.ALL_RIGHT, self._end)])
        document.history.changed.connect(self._look)

    def _look(self) -> None:
        plan, step = self._last
        # What is hidden changes no plan, and is a step all the same.
        if self._document.history.plan is not plan or self._document.history.undo_what != step:
            self._end()

    def _end(self) -> None:
        self._document.history.changed.disconnect(self._look)
        self._notices.hush(_MATTER)
        self.deleteLater()
