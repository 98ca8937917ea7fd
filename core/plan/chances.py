"""Chances as a plan writes them, as floats."""

from __future__ import annotations

from core.plan.model import Chance


def chance(written: Chance) -> float:
    """Give a chance as a float: a number, or a fraction in a string such as "2/3"."""
    if isinstance(written, str):
        above, _, below = written.partition("/")
        return int(above) / int(below)
    return float(written)
