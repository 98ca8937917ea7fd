"""Numbers in words; the words themselves are shared with every explanation."""

from __future__ import annotations

from core.explain.numbers import (
    PLAIN,
    Numbers,
    PlainNumbers,
    asked_of_100,
    counted,
    in_currency,
    in_words,
    least_told,
    listed,
    long_group,
    more_by,
    of_100,
    percent,
    plus_minus,
    price,
    short_group,
    sum_of_money,
    told_below,
    told_sum,
    trimmed,
)

__all__ = [
    "PLAIN",
    "Numbers",
    "PlainNumbers",
    "asked_of_100",
    "counted",
    "in_currency",
    "in_words",
    "least_told",
    "listed",
    "long_group",
    "more_by",
    "of_100",
    "percent",
    "plus_minus",
    "price",
    "short_group",
    "sum_of_money",
    "told_below",
    "told_sum",
    "trimmed",
]
