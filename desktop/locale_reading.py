"""Reading numbers as the reader's own locale writes them."""

from __future__ import annotations

import math

from PySide6.QtCore import QLocale


def read_number(text: str, *, whole: bool) -> int | float | None:
    """A typed number, with or without group marks, in the reader's locale or the English one; None: not a number."""
    typed = "".join(text.split()).removesuffix("%")
    for locale in (QLocale(), QLocale(QLocale.Language.English, QLocale.Country.UnitedStates)):
        value, good = locale.toDouble(typed)
        if good and math.isfinite(value):
            if value == int(value):
                return int(value)
            return None if whole else value
    return None
