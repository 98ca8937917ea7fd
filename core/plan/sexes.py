"""The sexes in words."""

from __future__ import annotations

from core.plan.model import Sex
from core.text import tr


def sex_words(sex: Sex, count: int = 1) -> str:
    """`male`, `females`: so many animals of a sex, without the number."""
    return tr("males", "male", count) if sex == "male" else tr("females", "female", count)


def sexed(count: int, sex: Sex) -> str:
    """`1 male`, `3 females`."""
    return tr("{n} males", "{n} male", count) if sex == "male" else tr("{n} females", "{n} female", count)
