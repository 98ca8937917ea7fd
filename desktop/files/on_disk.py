"""Watches the file of a document: whether another program changed it since it was opened or saved here."""

from __future__ import annotations

from functools import partial
from pathlib import Path

from PySide6.QtCore import QFileSystemWatcher, QObject, QTimer, Signal, Slot

from desktop.files.beside import Beside
from desktop.files.stamp import NOTHING, stamp_of

# Programs write in several goes; only what stands there after them counts.
_SETTLED_MS = 200


class OnDisk(QObject):
    """`changed` tells once of each change; `now` is what stood there when it was looked at, NOTHING without a file.

    It is looked at beside the window: the disk may be slow.
    """

    changed = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._path: Path | None = None
        self._stamp = self._now = self._told = NOTHING
        self._looking: Beside | None = None
        self._watcher: QFileSystemWatcher | None = None
        self._settling = QTimer(self, singleShot=True, interval=_SETTLED_MS)
        self._settling.timeout.connect(self.look)

    @property
    def stamp(self) -> str:
        """What stood in the file when it was opened or saved here."""
        return self._stamp

    def hold(self, path: Path | None, stamp: str = NOTHING) -> None:
        """From now on this file; `stamp`: what is known to have stood in it."""
        self._path = path
        self._stamp = self._now = self._told = stamp
        self._looking = None
        self._settling.stop()
        self._watch()
        if path is not None:
            # It may have changed since that was known and before it was watched.
            self._settling.start()

    @property
    def now(self) -> str:
        """What stood in the file when it was looked at last."""
        return self._now

    @property
    def is_changed(self) -> bool:
        """Whether that is not what it was here."""
        return self._now != self._stamp

    def look(self) -> None:
        """Looks again, and tells of what is new."""
        if self._path is None:
            return
        if self._looking is not None:
            # What is read now may be older than what is asked about.
            self._settling.start()
            return
        # Before it is read: what is told of a file is forgotten once it is watched anew.
        self._watch()
        self._looking = Beside(partial(stamp_of, self._path))
        self._looking.done.connect(self._looked)

    def take(self, now: str) -> None:
        """Somebody else has looked."""
        self._now = now
        if now != self._told:
            self._told = now
            self.changed.emit()

    @Slot(object)
    def _looked(self, now: object) -> None:
        if self.sender() is self._looking:
            self._looking = None
            self.take(str(now))

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
