"""Shares of possible hets as the trade says them: whole percents, 66 and 33 for thirds."""

from __future__ import annotations

from fractions import Fraction

from core.plan.model import Chance

_THIRDS = {33: ("1/3", "2/3"), 34: ("1/3", "2/3"), 66: ("2/3", "1/3"), 67: ("2/3", "1/3")}
_HALF = ("1/2", "1/2")
# Percents are kept to this many places, so that a share and its rest are exact as decimals.
_PLACES = 4


def exact(written: Chance) -> Fraction:
    """Give a chance of the plan without rounding."""
    return Fraction(written) if isinstance(written, str) else Fraction(str(written))


def written_share(percent: float) -> tuple[Chance, Chance]:
    """Write a share given in percent, and the rest to 1, as a plan holds them."""
    if percent in _THIRDS:
        return _THIRDS[int(percent)]
    if percent == 50:
        return _HALF
    share = Fraction(str(round(percent, _PLACES))) / 100
    return float(share), float(1 - share)


def percent_of(share: Fraction) -> float:
    """Give a share in percent as the trade writes it: two thirds are 66, one third is 33."""
    if share.denominator == 3:
        return float(share * 100 // 1)
    return float(round(share * 100, _PLACES))
