"""Files dropped on a window: a plan is opened, a list goes to the paste window."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QEvent, QObject, Signal
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QWidget


class Dropping(QObject):
    """Watches a window; one file at a time, as a window holds one plan."""

    plan_dropped = Signal(Path)
    list_dropped = Signal(Path)

    def __init__(self, window: QWidget) -> None:
        super().__init__(window)
        window.setAcceptDrops(True)
        window.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: D102
        if isinstance(event, QDragEnterEvent):
            if _dropped(event) is not None:
                event.acceptProposedAction()
            return True
        if isinstance(event, QDropEvent) and event.type() == QEvent.Type.Drop:
            path = _dropped(event)
            if path is not None:
                event.acceptProposedAction()
                (self.plan_dropped if path.suffix.lower() == ".json" else self.list_dropped).emit(path)
            return True
        return super().eventFilter(watched, event)


def _dropped(event: QDropEvent) -> Path | None:
    paths = [Path(url.toLocalFile()) for url in event.mimeData().urls() if url.isLocalFile()]
    return paths[0] if len(paths) == 1 else None
