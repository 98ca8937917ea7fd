"""Makes and writes a file beside the window: a picture fit for print takes longer than a window may wait."""

from __future__ import annotations

import logging
from collections.abc import Callable
from functools import partial
from pathlib import Path

from PySide6.QtWidgets import QWidget
from shiboken6 import isValid

from desktop.files.beside import Beside
from desktop.files.saving import write_whole
from desktop.words import exports as words

_log = logging.getLogger(__name__)


def write_beside(asking: QWidget, path: Path, content: Callable[[], bytes]) -> None:
    """Begins; `asking` is told where the file was not written. What is asked for must need nothing of the window."""
    Beside(partial(_write, content, path)).done.connect(partial(_end, asking, path))


def _end(asking: QWidget, path: Path, reason: str) -> None:
    if reason and isValid(asking):
        from desktop.files.asking import tell

        tell(asking, words.not_written(path.name, reason))


def _write(content: Callable[[], bytes], path: Path) -> str:
    """Why it was not written, or nothing."""
    try:
        return write_whole(content(), path) or ""
    except Exception as error:  # noqa: BLE001 - the person gets a sentence, never a traceback
        _log.debug("a file could not be made", exc_info=error)
        return words.NOT_MADE
