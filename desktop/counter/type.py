"""How large things are in the counter view: read from three steps away, tapped with a thumb."""

from __future__ import annotations

import msgspec
from PySide6.QtCore import QSize
from PySide6.QtGui import QFont

from desktop import fonts

_LEAST_TARGET = 56
_SMALL = QSize(1280, 800)
_MOST = 1.6
# A line of letters as wide as this fits a name, its dots and its share side by side.
_WIDE_EMS = 50


class Type(msgspec.Struct, frozen=True):
    """Faces and lengths for a screen of one size; `unit` is what 1 px of the small screen became."""

    unit: float
    title: QFont
    name: QFont
    strong: QFont
    text: QFont
    note: QFont
    figure: QFont
    number: QFont
    # Whether two columns have room beside each other.
    is_wide: bool

    def px(self, length: int) -> int:
        """A length of the small screen on this one."""
        return round(length * self.unit)

    @property
    def target(self) -> int:
        """The least height and width of what is tapped."""
        return self.px(_LEAST_TARGET)


def type_for(room: QSize) -> Type:
    """Faces for a screen with that much room: larger on a larger screen, never smaller."""
    unit = max(1.0, min(_MOST, room.width() / _SMALL.width(), room.height() / _SMALL.height()))
    text = fonts.sans(round(22 * unit))
    return Type(
        unit=unit,
        title=fonts.serif(round(32 * unit)),
        name=fonts.serif(round(28 * unit), bold=True),
        strong=fonts.sans(round(22 * unit), bold=True),
        text=text,
        note=fonts.sans(round(17 * unit)),
        figure=fonts.serif(round(26 * unit)),
        number=fonts.serif(round(50 * unit)),
        is_wide=room.width() >= _WIDE_EMS * text.pixelSize(),
    )
