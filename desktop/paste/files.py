"""Lists in files: text or CSV as other programs write it."""

from __future__ import annotations

from pathlib import Path

# More than any list that can be read; a larger file is something else.
_MOST_BYTES = 1_000_000


def list_in(path: Path) -> str | None:
    """The text of a file, or None where it holds none."""
    try:
        if not path.is_file():
            return None
        with path.open("rb") as file:
            data = file.read(_MOST_BYTES + 1)
    except OSError:
        return None
    if len(data) > _MOST_BYTES or b"\0" in data:
        return None
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        # What spreadsheets on older systems write.
        return data.decode("cp1252", errors="replace")
