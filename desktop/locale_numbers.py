"""Numbers as the reader's own locale writes them."""

from __future__ import annotations

from PySide6.QtCore import QLocale


def reader_locale() -> QLocale:
    """The system's locale; an English one where the system names no language."""
    locale = QLocale()
    if locale.language() == QLocale.Language.C:
        return QLocale(QLocale.Language.English, QLocale.Country.UnitedStates)
    return locale


class LocaleNumbers:
    """The system's number marks; English ones where the system names no language."""

    def __init__(self, locale: QLocale | None = None) -> None:
        self._locale = locale or reader_locale()

    def whole(self, value: int) -> str:
        """An integer."""
        return self._locale.toString(value)

    def decimal(self, value: float, places: int) -> str:
        """A number with that many decimals."""
        return self._locale.toString(value, "f", places)
