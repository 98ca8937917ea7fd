"""Light, dark, or whatever the system says."""

from __future__ import annotations

from PySide6.QtCore import QObject, Qt, Slot
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QApplication, QWidget

from desktop import fonts
from desktop.theme import colours_for, palette_for


class Appearance(QObject):
    """Keeps the application's palette; `chosen` Unknown follows the system."""

    def __init__(self, app: QApplication) -> None:
        super().__init__(app)
        self._app = app
        self._chosen = Qt.ColorScheme.Unknown
        app.setStyle("Fusion")
        app.setFont(fonts.sans(fonts.FORM))
        app.styleHints().colorSchemeChanged.connect(self._apply)
        self._apply()

    @property
    def chosen(self) -> Qt.ColorScheme:
        """What the person chose."""
        return self._chosen

    def choose(self, scheme: Qt.ColorScheme) -> None:
        """Keeps to light or dark, or follows the system again."""
        self._chosen = scheme
        self._apply()

    @Slot()
    def _apply(self) -> None:
        scheme = self._chosen
        if scheme == Qt.ColorScheme.Unknown:
            scheme = self._app.styleHints().colorScheme()
        palette = palette_for(colours_for(scheme))
        self._app.setPalette(palette)
        # A handle in the page's own colour could not be told from what it runs in.
        palette.setColor(QPalette.ColorRole.Button, palette.color(QPalette.ColorRole.Dark))
        self._app.setPalette(palette, "QScrollBar")  # type: ignore[arg-type]
        for widget in self._app.allWidgets():
            _follow(widget)


def _follow(widget: QWidget) -> None:
    """Qt leaves a widget with a sheet of its own in the palette that it had, until the sheet goes."""
    sheet = widget.styleSheet()
    if sheet:
        widget.setStyleSheet("")
        # What dresses itself in the new colours has done so by now.
        if not widget.styleSheet():
            widget.setStyleSheet(sheet)
