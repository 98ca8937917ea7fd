"""Numbers in words; the words themselves are shared with every explanation."""

from __future__ import annotations

from core.explain.numbers import (
    PLAIN,
    Numbers,
    PlainNumbers,
    counted,
    in_words,
    listed,
    long_group,
    of_100,
    percent,
    plus_minus,
    price,
    short_group,
    sum_of_money,
    trimmed,
)

__all__ = [
    "PLAIN",
    "Numbers",
    "PlainNumbers",
    "counted",
    "in_words",
    "listed",
    "long_group",
    "of_100",
    "percent",
    "plus_minus",
    "price",
    "short_group",
    "sum_of_money",
    "trimmed",
]
