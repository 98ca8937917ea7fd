"""Changes that are not saved yet, in a file of their own: one per open document, gone when it is closed."""

from __future__ import annotations

import logging
import uuid
from contextlib import suppress
from datetime import datetime
from pathlib import Path
from typing import Literal

import msgspec
from PySide6.QtCore import QLockFile

from core.plan.faults import PlanError
from core.plan.limits import MOST_BYTES
from core.plan.model import Plan
from core.plan.read import read_plan
from core.plan.write import write_plan
from core.text import tr
from desktop.files.saving import write_whole

_log = logging.getLogger(__name__)
_SUFFIX = ".recovery.json"
# A plan, and a few lines about it.
_MOST_BYTES = 2 * MOST_BYTES


class Unsaved(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """A plan with changes: the file it belongs to, how many changes, and what stood in that file before them."""

    plan: msgspec.Raw
    when: datetime
    changes: int
    file: str | None = None
    stamp: str = ""
    format: Literal["pairwright-recovery"] = "pairwright-recovery"

    @property
    def path(self) -> Path | None:
        """The file the plan belongs to."""
        return Path(self.file) if self.file else None


def unsaved(plan: Plan, when: datetime, changes: int, path: Path | None, stamp: str) -> Unsaved:
    """What is to be kept of a document."""
    return Unsaved(msgspec.Raw(write_plan(plan)), when, changes, str(path) if path else None, stamp)


class RecoveryFile:
    """The file of one document; the lock beside it lives as long as the window, and says that all is well."""

    def __init__(self, folder: Path, name: str | None = None) -> None:
        self.path = folder / f"{name or uuid.uuid4().hex}{_SUFFIX}"
        self._lock = QLockFile(f"{self.path}.lock")
        self._lock.setStaleLockTime(0)

    def claim(self) -> bool:
        """Whether no living process has it."""
        return self._lock.isLocked() or self._lock.tryLock(0)

    def write(self, what: Unsaved) -> str | None:
        """Keeps it; the reason where that cannot be."""
        try:
            self.path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        except OSError as error:
            return error.strerror or tr("the folder cannot be made")
        return write_whole(msgspec.json.encode(what), self.path) if self.claim() else tr("the folder takes no file")

    def read(self) -> tuple[Unsaved, Plan] | None:
        """What is kept here, or None where it cannot be read."""
        try:
            with self.path.open("rb") as file:
                data = file.read(_MOST_BYTES + 1)
            kept = msgspec.json.decode(data, type=Unsaved)
            return kept, read_plan(bytes(kept.plan))
        except (OSError, msgspec.DecodeError, PlanError):
            return None

    def remove(self) -> None:
        """Nothing is left to keep; what cannot be taken away is offered once more at the next start."""
        try:
            self.path.unlink(missing_ok=True)
        except OSError as error:
            _log.warning("a recovery file stays: %s", error)

    def release(self) -> None:
        """No window stands behind it any more; what it holds stays."""
        self._lock.unlock()


def left_behind(folder: Path) -> list[RecoveryFile]:
    """The files whose window ended without closing, oldest first; they are ours until released."""
    names = {path.name.partition(_SUFFIX)[0] for path in folder.glob(f"*{_SUFFIX}*")}
    found = []
    for file in (RecoveryFile(folder, name) for name in names):
        if not file.claim():
            continue
        # A kill in the middle of writing leaves a piece of a file.
        for piece in folder.glob(f"{file.path.name}.??????"):
            with suppress(OSError):
                piece.unlink()
        if file.path.exists():
            found.append(file)
        else:
            file.release()
    return sorted(found, key=_changed)


def _changed(file: RecoveryFile) -> float:
    return file.path.stat().st_mtime
