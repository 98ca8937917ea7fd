"""Work on a disk that may be slow: done beside the window, which stays alive while it waits."""

from __future__ import annotations

import logging
from collections.abc import Callable
from functools import partial
from typing import Any

from PySide6.QtCore import QCoreApplication, QEventLoop, QObject, QThreadPool, QTimer, Signal, Slot
from PySide6.QtWidgets import QMessageBox, QWidget

# A disk that takes longer than this is told of.
UNNOTICED_MS = 1_000
# Such work waits for disks, not for cores: one that has gone away must not hold up another.
_AT_ONCE = 32
_log = logging.getLogger(__name__)


class Beside(QObject):
    """One piece of work, begun at once; `done` carries what came of it, or None where it failed."""

    done = Signal(object)

    def __init__(self, work: Callable[[], object]) -> None:
        # It outlives the window that asked for it.
        super().__init__(QCoreApplication.instance())
        self.is_done = False
        self.result: Any = None
        self._told: QMessageBox | None = None
        # Whoever listens to `done` may do so after the work began: the news waits for the window's turn.
        carrier = _carrier()
        pool = QThreadPool.globalInstance()
        pool.setMaxThreadCount(_AT_ONCE)
        pool.start(partial(_do, work, partial(_tell, carrier, self)))

    def wait(self, window: QWidget, told: str) -> bool:
        """Serves the window until it is done, and tells of it where that takes long; False where the person goes on."""
        waiting = QEventLoop()
        self.done.connect(waiting.quit)
        noticed = QTimer(singleShot=True, interval=UNNOTICED_MS)
        noticed.timeout.connect(partial(self._tell, window, told, waiting))
        noticed.start()
        waiting.exec()
        if self._told is not None:
            self._told.hide()
            self._told.deleteLater()
            self._told = None
        return self.is_done

    def _tell(self, window: QWidget, told: str, waiting: QEventLoop) -> None:
        from desktop.files.asking import about_waiting

        self._told = about_waiting(window, told)
        self._told.finished.connect(waiting.quit)
        self._told.open()

    def end(self, result: object) -> None:
        """The work is done: tells what came of it, and goes."""
        self.is_done, self.result = True, result
        self.done.emit(result)
        self.deleteLater()


class _Carrier(QObject):
    """Tells from other threads, for as long as the program runs: a sender may not go while its signal is sent."""

    came = Signal(object, object)

    def __init__(self, parent: QObject | None) -> None:
        super().__init__(parent)
        self.came.connect(self._hand_over)

    @Slot(object, object)
    def _hand_over(self, whose: Beside, result: object) -> None:
        whose.end(result)


def _carrier() -> _Carrier:
    app = QCoreApplication.instance()
    return (app and app.findChild(_Carrier)) or _Carrier(app)


def _tell(carrier: _Carrier, whose: Beside, result: object) -> None:
    carrier.came.emit(whose, result)


def _do(work: Callable[[], object], tell: Callable[[object], None]) -> None:
    try:
        result = work()
    except Exception as error:  # noqa: BLE001 - whoever waits must hear of the end
        _log.warning("work on a disk failed", exc_info=error)
        result = None
    tell(result)
