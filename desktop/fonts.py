"""The two typefaces, at the sizes the page uses."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from PySide6.QtGui import QFont, QFontDatabase

_FILES = Path(__file__).resolve().parent.parent / "assets" / "fonts"
_SANS = ["Source Sans Pro", "Source Sans 3", "Noto Sans", "DejaVu Sans", "sans-serif"]
_SERIF = ["Source Serif Pro", "Source Serif 4", "Noto Serif", "DejaVu Serif", "serif"]

ANSWER, SENTENCE, LEAD, HEADING, FORM, HEAD, NOTE = 30, 20, 16, 15, 14, 13, 12

# What every size is multiplied by: 2 for text at 200 %.
_scale = 1.0


def set_scale(scale: float) -> None:
    """Larger or smaller text in everything that is made from now on."""
    global _scale
    _scale = scale
    sans.cache_clear()
    serif.cache_clear()


def load_fonts() -> None:
    """Makes the shipped font files known; where they are missing, the system's own fonts serve."""
    for file in sorted(_FILES.glob("*.ttf")):
        QFontDatabase.addApplicationFont(str(file))


def grown(length: int) -> int:
    """So many px at text of 100 %, for what has to grow with its text."""
    return round(length * _scale)


@cache
def sans(size: int, *, bold: bool = False) -> QFont:
    """The text face."""
    return _font(_SANS, size, bold)


@cache
def serif(size: int, *, bold: bool = False) -> QFont:
    """The face of the question and the answer."""
    return _font(_SERIF, size, bold)


@cache
def printed(size: int, *, bold: bool = False, serif: bool = False) -> QFont:
    """Either face in px of a printed page, whatever size the person reads at on screen."""
    return _font(_SERIF if serif else _SANS, size, bold, scale=1.0)


def _font(families: list[str], size: int, bold: bool, scale: float | None = None) -> QFont:
    font = QFont(families)
    font.setPixelSize(round(size * (_scale if scale is None else scale)))
    font.setWeight(QFont.Weight.DemiBold if bold else QFont.Weight.Normal)
    font.setHintingPreference(QFont.HintingPreference.PreferNoHinting)
    font.setFeature(QFont.Tag("tnum"), 1)
    return font
