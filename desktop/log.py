"""A log that a person can find and send: what went wrong, on this machine alone."""

from __future__ import annotations

import logging
import sys
from pathlib import Path
from types import TracebackType

from core.text import tr
from desktop.files.places import log_file

# A file this long makes room for a new one; one old one is kept.
_LONGEST = 500_000
_log = logging.getLogger("desktop")


def start_log() -> None:
    """Has warnings and errors written down from now on; where that cannot be, the program goes on without."""
    path = log_file()
    try:
        _make_room(path)
        # Opened with the first line: most runs have nothing to say.
        handler = logging.FileHandler(path, encoding="utf-8", delay=True)
    except OSError:
        return
    handler.setLevel(logging.WARNING)
    handler.setFormatter(logging.Formatter("%(asctime)s %(levelname)s %(name)s: %(message)s"))
    logging.getLogger().addHandler(handler)
    sys.excepthook = _note


def _note(kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> None:
    """An error that nobody caught: it goes to the log, and a person who started from a terminal sees one line."""
    if issubclass(kind, KeyboardInterrupt):
        sys.__excepthook__(kind, error, trace)
        return
    _log.error("nobody expected this", exc_info=(kind, error, trace))
    said = tr("Pairwright: something unexpected happened ({kind}); see {file}", kind=kind.__name__, file=log_file())
    print(said, file=sys.stderr)


def _make_room(path: Path) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    if path.is_file() and path.stat().st_size > _LONGEST:
        path.replace(path.with_suffix(".old.txt"))
