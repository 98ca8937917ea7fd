"""Reading numbers as the reader's own locale writes them."""

from __future__ import annotations

from PySide6.QtCore import QLocale


def read_number(text: str, *, whole: bool) -> int | float | None:
    """A typed number, with or without group marks, in the reader's locale or with a plain point; None: not a number."""
    typed = text.strip().replace("\u00a0", "").replace("\u202f", "").replace(" ", "").removesuffix("%")
    for locale in (QLocale(), QLocale(QLocale.Language.English, QLocale.Country.UnitedStates)):
        value, good = locale.toDouble(typed)
        if good:
            if whole or value == int(value):
                return int(value) if value == int(value) else None
            return value
    return None
