"""Watches the file of a document: whether another program changed it since it was opened or saved here."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QFileSystemWatcher, QObject, QTimer, Signal

from desktop.files.stamp import NOTHING, stamp_of

# Programs write in several goes; only what stands there after them counts.
_SETTLED_MS = 200


class OnDisk(QObject):
    """`changed` tells once of each change; `now` is what stands there, NOTHING where the file is gone."""

    changed = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._path: Path | None = None
        self._stamp = self._told = NOTHING
        self._watcher: QFileSystemWatcher | None = None
        self._settling = QTimer(self, singleShot=True, interval=_SETTLED_MS)
        self._settling.timeout.connect(self.look)

    @property
    def stamp(self) -> str:
        """What stood in the file when it was opened or saved here."""
        return self._stamp

    def hold(self, path: Path | None, stamp: str | None = None) -> None:
        """From now on this file; `stamp`: what is known to have stood in it, else what stands there now."""
        self._path = path
        self._stamp = stamp if stamp is not None else stamp_of(path) if path else NOTHING
        self._told = self._stamp
        self._settling.stop()
        self._watch()

    @property
    def now(self) -> str:
        """What stands in the file now."""
        return stamp_of(self._path) if self._path else NOTHING

    @property
    def is_changed(self) -> bool:
        """Whether the file is not what it was here."""
        return self.now != self._stamp

    def look(self) -> None:
        """Looks again, and tells of what is new."""
        now = self.now
        self._watch()
        if now != self._told:
            self._told = now
            self.changed.emit()

    def _watch(self) -> None:
        watcher = self._watcher
        if watcher is not None and (old := [*watcher.files(), *watcher.directories()]):
            watcher.removePaths(old)
        if self._path is None:
            return
        if watcher is None:
            watcher = self._watcher = QFileSystemWatcher(self)
            watcher.fileChanged.connect(self._settling.start)
            watcher.directoryChanged.connect(self._settling.start)
        # The folder too: a file that is replaced whole is another one to the system.
        watcher.addPaths([str(one) for one in (self._path, self._path.parent) if one.exists()])
