"""The person's own species and genes, kept in one small file from plan to plan."""

from __future__ import annotations

import logging
from itertools import count
from pathlib import Path

from core.plan.faults import PlanError
from core.plan.library import Library, read_library, write_library
from desktop.files.places import library_file
from desktop.files.saving import write_whole

_log = logging.getLogger(__name__)


class KeptLibrary:
    """Reads the file when first asked; what cannot be read is set aside under another name, never overwritten."""

    def __init__(self, path: Path | None = None) -> None:
        self._path = path or library_file()

    def read(self) -> Library:
        """What is kept; nothing where there is no file yet."""
        try:
            return read_library(self._path.read_bytes())
        except FileNotFoundError:
            return Library()
        except (OSError, PlanError) as error:
            _log.warning("the kept species and genes cannot be read: %s", error)
            self._set_aside()
            return Library()

    def write(self, library: Library) -> str | None:
        """Keeps it; the reason where that cannot be."""
        try:
            self._path.parent.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            return error.strerror or str(error)
        return write_whole(write_library(library), self._path)

    def _set_aside(self) -> None:
        names = (f"{self._path.stem}-unreadable{number or ''}{self._path.suffix}" for number in count())
        aside = next(path for name in names if not (path := self._path.with_name(name)).exists())
        try:
            self._path.replace(aside)
        except OSError as error:
            _log.warning("it could not be set aside: %s", error)
