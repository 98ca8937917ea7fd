"""What the window shows: the comparison, or one page that takes its place."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QStackedWidget, QWidget
from shiboken6 import isValid


class View(QWidget):
    """A page that takes the place of the comparison until it is done; Escape ends it."""

    done = Signal()

    def first_focus(self) -> QWidget:
        """What has the keyboard when the page opens."""
        return self

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: D102
        # Whatever has the focus uses up an Escape that it has a use for.
        if event.key() == Qt.Key.Key_Escape:
            self.done.emit()
            return
        super().keyPressEvent(event)


class Views(QStackedWidget):
    """The comparison, with at most one page in its place."""

    def __init__(self, comparison: QWidget, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._comparison = comparison
        self._left: QWidget | None = None
        self.addWidget(comparison)

    def open(self, page: View) -> None:
        """Shows a page; one that is open goes."""
        if not self._drop():
            self._left = self.window().focusWidget()
        page.done.connect(self.close_page)
        self.addWidget(page)
        self.setCurrentWidget(page)
        page.first_focus().setFocus()

    def page(self) -> View | None:
        """The page in the comparison's place."""
        shown = self.currentWidget()
        return shown if isinstance(shown, View) else None

    def close_page(self) -> None:
        """Back to the comparison, with the keyboard where it was."""
        if self._drop():
            self.setCurrentWidget(self._comparison)
            # A field of the comparison may have gone while the page was open.
            left = self._left if self._left is not None and isValid(self._left) else self._comparison
            left.setFocus()
            self._left = None

    def _drop(self) -> bool:
        page = self.page()
        if page is None:
            return False
        self.removeWidget(page)
        page.hide()
        page.deleteLater()
        return True
