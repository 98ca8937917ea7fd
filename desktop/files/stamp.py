"""What stands in a file, in a few letters: whether another program changed it."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QCryptographicHash

from core.plan.limits import MOST_BYTES

# No file, or none that can be read.
NOTHING = ""


def stamp_of(path: Path) -> str:
    """The stamp of what stands there now."""
    try:
        if not path.is_file():
            return NOTHING
        with path.open("rb") as file:
            return stamp_of_bytes(file.read(MOST_BYTES + 1))
    except (OSError, ValueError):
        return NOTHING


def stamp_of_bytes(data: bytes) -> str:
    """The stamp of these bytes."""
    return bytes(QCryptographicHash.hash(data, QCryptographicHash.Algorithm.Sha256).toHex().data()).decode()
