"""The plans opened or saved last, newest first."""

from __future__ import annotations

from pathlib import Path

from desktop.files.places import settings

_KEY = "recent"
_MOST = 10


def recent() -> list[Path]:
    """The files, whether they are still there or not."""
    stored = settings().value(_KEY, [], type=list)
    return [Path(one) for one in stored if isinstance(one, str) and one][:_MOST] if isinstance(stored, list) else []


def remember(path: Path) -> None:
    """Puts a file first."""
    path = path.absolute()
    _store([path, *(one for one in recent() if one != path)])


def forget_missing() -> None:
    """Drops the files that are no longer there."""
    _store([one for one in recent() if one.is_file()])


def _store(paths: list[Path]) -> None:
    settings().setValue(_KEY, [str(one) for one in paths[:_MOST]])
