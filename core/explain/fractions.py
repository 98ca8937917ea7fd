"""Chances as people check them by hand: fractions where the numbers are small enough, else decimals."""

from __future__ import annotations

from fractions import Fraction

from core.text import tr

_LARGEST_PART = 1_000_000
# Larger parts than this are no easier to read than a decimal.
_SHOWN_PART = 5_000
_CLOSE = 1e-12
_NEARLY_SURE = 0.9999
_RAISED = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")


def as_fraction(chance: float) -> Fraction | None:
    """The fraction with parts up to a million that a float stands for; None where there is none."""
    found = Fraction(chance).limit_denominator(_LARGEST_PART)
    return found if abs(float(found) - chance) < _CLOSE else None


def fraction_text(chance: float) -> str:
    """`1/16`, `0`, `1`, or four decimals where the fraction has long parts."""
    found = as_fraction(chance)
    return decimal_text(chance) if found is None or found.denominator > _SHOWN_PART else str(found)


def decimal_text(chance: float) -> str:
    """Four decimals, more where these would show nothing: `0.7246`, `0.000004`."""
    if chance in (0, 1):
        return str(int(chance))
    if chance > _NEARLY_SURE:
        return f"more than {_NEARLY_SURE}"
    for places in (4, 6, 9):
        if round(chance, places):
            return f"{chance:.{places}f}"
    return "less than 0.000000001"


def equals_text(chance: float) -> str:
    """`= 0.7246`, or `< 0.000000001` where it is too small to write."""
    text = decimal_text(chance)
    return text.replace("less than", "<").replace("more than", ">") if " " in text else f"= {text}"


def power_text(base: str, exponent: int) -> str:
    """`(15/16)²⁴`, and the base alone where it stands once."""
    bracketed = f"({base})" if "/" in base else base
    return base if exponent == 1 else f"{bracketed}{str(exponent).translate(_RAISED)}"


def share_words(chance: float) -> str:
    """`1 in 16`, `6 in 16`, or out of 100 where the fraction has long parts."""
    count, of = _parts(chance)
    return tr("{count} in {of}", count=count, of=of)


def chances_words(chance: float) -> str:
    """The same as chances: `6 chances in 16`."""
    count, of = _parts(chance)
    return tr("{count} chances in {of}", count=count, of=of)


def _parts(chance: float) -> tuple[str, int]:
    found = as_fraction(chance)
    if found is not None and found.denominator <= 256:
        return str(found.numerator), found.denominator
    hundred = chance * 100
    if 0 < hundred < 1:
        return tr("less than 1"), 100
    return tr("more than 99") if 99 < hundred < 100 else str(round(hundred)), 100


def spoken(text: str) -> str:
    """The same with raised digits in words, for those who hear it."""
    out, raised = "", False
    for letter in text:
        digit = "⁰¹²³⁴⁵⁶⁷⁸⁹".find(letter)
        out += f"{'' if raised else tr(' to the power of ')}{digit}" if digit >= 0 else letter
        raised = digit >= 0
    return out
