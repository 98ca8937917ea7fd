"""Which window has a file open, across windows and processes."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QFileInfo, QLockFile

from desktop.files.stamp import stamp_of_bytes


class Claim:
    """Held by the window that opened a file first, until it turns to another one or is closed.

    The lock lies with the program's own data: a plan's folder may be read-only, and is not ours to fill.
    """

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._lock: QLockFile | None = None
        self._name = ""

    def take(self, path: Path) -> bool:
        """Whether this window has the file now; what it held before is let go only then."""
        name = _canonical(path)
        if self._lock is not None and name == self._name:
            return True
        lock = QLockFile(str(self._folder / f"{stamp_of_bytes(name.encode('utf-8', 'surrogatepass'))[:32]}.lock"))
        # A lock grows stale only with its process.
        lock.setStaleLockTime(0)
        try:
            self._folder.mkdir(parents=True, exist_ok=True)
        except OSError:
            # Nobody can be told apart on a disk that takes nothing.
            return True
        if not lock.tryLock(0) and lock.error() == QLockFile.LockError.LockFailedError:
            return False
        self.release()
        self._lock, self._name = lock, name
        return True

    def release(self) -> None:
        """Lets go."""
        if self._lock is not None:
            self._lock.unlock()
        self._lock, self._name = None, ""


def _canonical(path: Path) -> str:
    info = QFileInfo(str(path))
    return info.canonicalFilePath() or info.absoluteFilePath()
