"""Numbers as the reader's own locale writes them."""

from __future__ import annotations

from PySide6.QtCore import QLocale


class LocaleNumbers:
    """The system's number marks; English ones where the system names no language."""

    def __init__(self, locale: QLocale | None = None) -> None:
        chosen = locale or QLocale()
        if chosen.language() == QLocale.Language.C:
            chosen = QLocale(QLocale.Language.English, QLocale.Country.UnitedStates)
        self._locale = chosen

    def whole(self, value: int) -> str:
        """An integer."""
        return self._locale.toString(value)

    def decimal(self, value: float, places: int) -> str:
        """A number with that many decimals."""
        return self._locale.toString(value, "f", places)
