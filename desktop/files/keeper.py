"""Keeps a document's changes safe within a second of each, beside the window's own thread."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime
from functools import partial

from PySide6.QtCore import QObject, QRunnable, QThreadPool, QTimer, Signal, Slot

from desktop.document import Document
from desktop.files.recovery import RecoveryFile, Unsaved, unsaved

# Long enough to gather what is typed in one go, short enough that no more than a second is ever lost.
_WAIT_MS = 300

What = Callable[[], Unsaved]


class Keeper(QObject):
    """Writes what is not saved to the recovery file, and takes it away once there is nothing to keep."""

    # Why the changes cannot be kept, or "" once they can again.
    trouble = Signal(str)
    _written = Signal(str)

    def __init__(self, document: Document, file: RecoveryFile, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._document, self._file = document, file
        self.stamp = ""
        self._trouble = ""
        self._used = self._busy = self._again = False
        self._job = _Job(self._written.emit)
        self._pool = QThreadPool(self)
        self._pool.setMaxThreadCount(1)
        self._timer = QTimer(self, singleShot=True, interval=_WAIT_MS)
        self._timer.timeout.connect(self._work)
        self._written.connect(self._done)
        document.history.changed.connect(self._note)

    def adopt(self, file: RecoveryFile) -> None:
        """Goes on with a file that an ended window left."""
        self._pool.waitForDone()
        if self._used:
            self._file.remove()
        self._file.release()
        self._file, self._used = file, True

    def stop(self) -> None:
        """The document is closed by the person's own will: nothing is kept."""
        self._document.history.changed.disconnect(self._note)
        self._timer.stop()
        self._pool.waitForDone()
        if self._used:
            self._file.remove()
        self._file.release()

    def _note(self) -> None:
        # A wait is never begun again: whoever types without a pause is kept safe too.
        if (self._used or self._document.has_unsaved_changes) and not self._timer.isActive():
            self._timer.start()

    def _work(self) -> None:
        if self._busy:
            self._again = True
            return
        self._used = self._busy = True
        self._job.begin(self._file, self._what())
        self._pool.start(self._job)

    def _what(self) -> What | None:
        document, now = self._document, datetime.now(UTC)
        if not document.has_unsaved_changes:
            return None
        return partial(unsaved, document.plan, now, document.history.changes, document.path, self.stamp)

    @Slot(str)
    def _done(self, trouble: str) -> None:
        self._busy = False
        if trouble != self._trouble:
            self._trouble = trouble
            self.trouble.emit(trouble)
        if self._again:
            self._again = False
            self._work()


class _Job(QRunnable):
    """Taken up again and again, one piece of work at a time."""

    def __init__(self, report: Callable[[str], None]) -> None:
        super().__init__()
        # The keeper owns the job; two owners would free it twice.
        self.setAutoDelete(False)
        self._report = report
        self._file: RecoveryFile | None = None
        self._what: What | None = None

    def begin(self, file: RecoveryFile, what: What | None) -> None:
        """What to do next: write this, or take the file away."""
        self._file, self._what = file, what

    def run(self) -> None:
        """Writes or removes, on the pool's thread."""
        file, reason = self._file, None
        if file is None:
            return
        try:
            if self._what is None:
                file.remove()
            else:
                reason = file.write(self._what())
        except OSError as error:
            reason = error.strerror
        self._report(reason or "")
