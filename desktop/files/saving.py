"""Writing files whole or not at all."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QIODevice, QSaveFile

from core.plan.model import Plan
from core.plan.write import write_plan
from core.text import tr
from desktop.files.stamp import stamp_of_bytes

SUFFIX = ".plan.json"
_SHORT = tr("there is not enough room")


def save_plan(plan: Plan, path: Path) -> str | None:
    """Replaces the file by the plan; where that cannot be, the old file stays and the reason comes back."""
    return write_whole(write_plan(plan), path)


def save_and_stamp(plan: Plan, path: Path) -> tuple[str | None, str]:
    """Saves; why that could not be, and the stamp of what was written."""
    data = write_plan(plan)
    return write_whole(data, path), stamp_of_bytes(data)


def write_whole(data: bytes, path: Path) -> str | None:
    """Replaces a file by these bytes, or leaves it as it is and gives the reason."""
    file = QSaveFile(str(path))
    if not file.open(QIODevice.OpenModeFlag.WriteOnly):
        return _reason(file)
    if not _write_all(file, data):
        reason = _reason(file)
        file.cancelWriting()
        file.commit()
        return reason
    return None if file.commit() else _reason(file)


def with_suffix(path: Path) -> Path:
    """The name a plan is saved under: as given where it ends in .json, else with the plan's own ending."""
    return path if path.suffix == ".json" else path.with_name(path.name + SUFFIX)


def _write_all(file: QSaveFile, data: bytes) -> bool:
    """A full disk takes a part without an error: only the next piece fails."""
    rest = memoryview(data)
    while rest:
        taken = file.write(bytes(rest))
        if taken <= 0:
            return False
        rest = rest[taken:]
    # What waits in Qt's own memory counts only once the disk has it.
    return file.flush()


def _reason(file: QSaveFile) -> str:
    text = file.errorString()
    return text if text and text != "Unknown error" else _SHORT
