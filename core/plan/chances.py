"""Chances as a plan writes them, as floats."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from core.plan.limits import LONGEST_FRACTION_PART
from core.plan.model import Chance


def chance(written: Chance) -> float:
    """Give a chance as a float: a number, or a fraction in a string such as "2/3"."""
    if isinstance(written, str):
        above, _, below = written.partition("/")
        return int(above) / int(below)
    return float(written)


def summed(weighted: Iterable[tuple[str, Chance]]) -> dict[str, Chance]:
    """Add the chances of equal keys up exactly, and write them as a plan does: one alone as it was given."""
    given: dict[str, list[Chance]] = {}
    for key, share in weighted:
        given.setdefault(key, []).append(share)
    return {key: shares[0] if len(shares) == 1 else _write(sum(map(exact, shares))) for key, shares in given.items()}


def _write(share: Fraction | int) -> Chance:
    text = str(share)
    return text if "/" in text and len(text) <= LONGEST_FRACTION_PART else float(share)


def exact(written: Chance) -> Fraction:
    """Give a chance of the plan without rounding."""
    return Fraction(written) if isinstance(written, str) else Fraction(str(written))
