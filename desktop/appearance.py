"""Light, dark, or whatever the system says."""

from __future__ import annotations

from PySide6.QtCore import QObject, Qt, Slot
from PySide6.QtWidgets import QApplication

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
        self._app.setPalette(palette_for(colours_for(scheme)))
