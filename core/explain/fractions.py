"""Chances as people check them by hand: fractions where the numbers are small enough, else decimals."""

from __future__ import annotations

import re
from fractions import Fraction

from core.explain.numbers import PLAIN, Numbers
from core.text import tr

_LARGEST_PART = 1_000_000
# Larger parts than this are no easier to read than a decimal.
_SHOWN_PART = 5_000
_CLOSE = 1e-12
_NEARLY_SURE = 0.9999
_SMALLEST = 0.000000001
_DIGITS, _HIGH = "0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹"
_RAISED, _LOWERED = str.maketrans(_DIGITS, _HIGH), str.maketrans(_HIGH, _DIGITS)
_POWER = re.compile(f"[{_HIGH}]+")


def as_fraction(chance: float) -> Fraction | None:
    """The fraction with parts up to a million that a float stands for; None where there is none."""
    found = Fraction(chance).limit_denominator(_LARGEST_PART)
    return found if abs(float(found) - chance) < _CLOSE else None


def fraction_text(chance: float, numbers: Numbers = PLAIN) -> str:
    """`1/16`, `0`, `1`, or four decimals where the fraction has long parts."""
    found = as_fraction(chance)
    return decimal_text(chance, numbers) if found is None or found.denominator > _SHOWN_PART else str(found)


def decimal_text(chance: float, numbers: Numbers = PLAIN) -> str:
    """Four decimals, more where these would show nothing: `0.7246`, `0.000004`."""
    sign, number = _decimal(chance, numbers)
    if sign == "<":
        return tr("less than {number}", number=number)
    return tr("more than {number}", number=number) if sign == ">" else number


def equals_text(chance: float, numbers: Numbers = PLAIN) -> str:
    """`= 0.7246`, or `< 0.000000001` where it is too small to write."""
    return " ".join(_decimal(chance, numbers))


def _decimal(chance: float, numbers: Numbers) -> tuple[str, str]:
    """The number as far as it can be written, and whether the chance is that, less or more."""
    if chance in (0, 1):
        return "=", numbers.whole(int(chance))
    if chance > _NEARLY_SURE:
        return ">", numbers.decimal(_NEARLY_SURE, 4)
    places = next((places for places in (4, 6, 9) if round(chance, places)), None)
    return ("<", numbers.decimal(_SMALLEST, 9)) if places is None else ("=", numbers.decimal(chance, places))


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
    return _POWER.sub(lambda power: tr(" to the power of {n}", n=power[0].translate(_LOWERED)), text)
