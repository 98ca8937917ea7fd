"""Makes and writes a file beside the window: a picture fit for print takes longer than a window may wait."""

from __future__ import annotations

import logging
from collections.abc import Callable
from functools import partial
from pathlib import Path

from PySide6.QtCore import QCoreApplication, QObject, QThreadPool, Signal
from PySide6.QtWidgets import QWidget
from shiboken6 import isValid

from desktop.files.saving import write_whole
from desktop.words import exports as words

_log = logging.getLogger(__name__)


class Writing(QObject):
    """One file; `finished` carries why it was not written, or nothing."""

    finished = Signal(str)

    def __init__(self, parent: QWidget, path: Path) -> None:
        # It outlives the window that asked for it.
        super().__init__(QCoreApplication.instance())
        self._asking, self._path = parent, path
        self.finished.connect(self._end)

    def start(self, content: Callable[[], bytes]) -> None:
        """Begins; what is asked for must need nothing of the window."""
        QThreadPool.globalInstance().start(partial(_write, self.finished.emit, content, self._path))

    def _end(self, reason: str) -> None:
        if reason and isValid(self._asking):
            from desktop.files.asking import tell

            tell(self._asking, words.not_written(self._path.name, reason))
        self.deleteLater()


def _write(tell: Callable[[str], None], content: Callable[[], bytes], path: Path) -> None:
    try:
        reason = write_whole(content(), path)
    except Exception as error:  # noqa: BLE001 - the person gets a sentence, never a traceback
        _log.debug("a file could not be made", exc_info=error)
        reason = words.NOT_MADE
    tell(reason or "")
