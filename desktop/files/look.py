"""How the person wants the program to look, from one start to the next."""

from __future__ import annotations

from PySide6.QtCore import Qt

from desktop.files.places import settings

_SCHEME, _TEXT = "look/scheme", "look/text"
# Text sizes on offer, in percent of the usual one.
TEXT_SIZES = (100, 125, 150, 200)


def kept_scheme() -> Qt.ColorScheme:
    """Light or dark, or Unknown for whatever the system says."""
    stored = settings().value(_SCHEME)
    return next((scheme for scheme in Qt.ColorScheme if scheme.name == stored), Qt.ColorScheme.Unknown)


def keep_scheme(scheme: Qt.ColorScheme) -> None:
    """Remembers it."""
    settings().setValue(_SCHEME, scheme.name)


def kept_text_size() -> int:
    """One of `TEXT_SIZES`."""
    stored = settings().value(_TEXT)
    return next((size for size in TEXT_SIZES if str(size) == str(stored)), TEXT_SIZES[0])


def keep_text_size(percent: int) -> None:
    """Remembers it."""
    settings().setValue(_TEXT, percent)
