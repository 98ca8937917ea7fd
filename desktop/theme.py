"""Colours, light and dark, and the palette that makes plain widgets look right."""

from __future__ import annotations

from functools import cache

import msgspec
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QPalette

# Palette roles that carry the page's quieter inks, so that a label follows light and dark by itself.
SECOND = QPalette.ColorRole.LinkVisited
NOTES = QPalette.ColorRole.PlaceholderText
ACCENT = QPalette.ColorRole.Link
ERROR = QPalette.ColorRole.BrightText


class Colours(msgspec.Struct, frozen=True):
    """One colour per use; contrast on `page` is at least 4.4 for everything that is read."""

    page: str
    field: str
    hover: str
    selected: str
    hairline: str
    text: str
    second: str
    notes: str
    accent: str
    on_accent: str
    caution: str
    error: str
    rule: str
    dark: bool


LIGHT = Colours(
    page="#FBFAF6", field="#FFFFFF", hover="#F3F1EA", selected="#EDEFDF", hairline="#E0DCD1",
    text="#1D201A", second="#55594E", notes="#666A5E", accent="#4A5F12", on_accent="#FFFFFF",
    caution="#8A4B00", error="#A3231B", rule="#8A8474", dark=False,
)  # fmt: skip
DARK = Colours(
    page="#171A15", field="#20241D", hover="#1F231C", selected="#2A3020", hairline="#343A2F",
    text="#ECECE4", second="#B6BAAC", notes="#989D8D", accent="#B9CF6B", on_accent="#171A15",
    caution="#E5B26A", error="#F2978B", rule="#7B8172", dark=True,
)  # fmt: skip


def colours_of(palette: QPalette) -> Colours:
    """The set of colours that belongs to a widget's palette."""
    return DARK if palette.color(QPalette.ColorRole.Window).lightness() < 128 else LIGHT


def colours_for(scheme: Qt.ColorScheme) -> Colours:
    """The set of colours for the system's scheme; light where it does not say."""
    return DARK if scheme == Qt.ColorScheme.Dark else LIGHT


def palette_for(colours: Colours) -> QPalette:
    """A palette in those colours."""
    role = QPalette.ColorRole
    palette = QPalette()
    for target, name in (
        (role.Window, colours.page), (role.Base, colours.page), (role.AlternateBase, colours.hover),
        (role.WindowText, colours.text), (role.Text, colours.text), (role.ButtonText, colours.text),
        (role.Button, colours.page), (role.ToolTipBase, colours.field), (role.ToolTipText, colours.text),
        (NOTES, colours.notes), (SECOND, colours.second), (ACCENT, colours.accent), (ERROR, colours.error),
        (role.Highlight, colours.selected), (role.HighlightedText, colours.text), (role.Accent, colours.accent),
        (role.Light, colours.field), (role.Midlight, colours.hover), (role.Mid, colours.hairline),
        (role.Dark, colours.rule), (role.Shadow, colours.hairline),
    ):  # fmt: skip
        palette.setColor(target, QColor(name))
    for target in (role.WindowText, role.Text, role.ButtonText):
        palette.setColor(QPalette.ColorGroup.Disabled, target, QColor(colours.notes))
    return palette


@cache
def colour(name: str) -> QColor:
    """A colour object, made once."""
    return QColor(name)
