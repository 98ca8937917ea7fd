"""Kinds of values: how one is shown in its field, and how what was typed is read."""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction
from typing import Any

import msgspec

from core.explain.numbers import Numbers, price, trimmed
from core.plan.model import Plan
from desktop.words import forms as words

_FRACTION = re.compile(r"\s*(\d{1,15})\s*/\s*(\d{1,15})\s*")
_SHARE_PLACES, _AMOUNT_PLACES = 4, 6


class Refused(msgspec.Struct, frozen=True):
    """Why something cannot be, as a sentence for beside the field."""

    sentence: str


class Whole(msgspec.Struct, frozen=True):
    """A whole number."""

    empty: str | None = None

    def show(self, value: Any, numbers: Numbers) -> str:
        """As the locale writes it."""
        return "" if value is None else numbers.whole(value)

    def read(self, text: str) -> Any:
        """The number, None for an empty field that may be empty, or why not."""
        return _read(text, whole=True, empty=self.empty)


class Amount(msgspec.Struct, frozen=True):
    """A number with decimals where it has any."""

    empty: str | None = None

    def show(self, value: Any, numbers: Numbers) -> str:
        """As short as it can be without losing anything."""
        return "" if value is None else trimmed(value, _AMOUNT_PLACES, numbers)

    def read(self, text: str) -> Any:
        """The number, None for an empty field that may be empty, or why not."""
        return _read(text, whole=False, empty=self.empty)


class Money(Amount, frozen=True):
    """A sum in the plan's currency."""

    def show(self, value: Any, numbers: Numbers) -> str:
        """With cents only where there are any."""
        return "" if value is None else price(value, numbers)


class Share(msgspec.Struct, frozen=True):
    """A chance or a change of the plan, in percent; a fraction such as 2/3 may be typed and is kept."""

    empty: str | None = None

    def show(self, value: Any, numbers: Numbers) -> str:
        """In percent, as short as it can be."""
        if value is None:
            return ""
        share = Fraction(value) if isinstance(value, str) else Fraction(str(value))
        return trimmed(float(share * 100), 2 if isinstance(value, str) else _SHARE_PLACES, numbers)

    def read(self, text: str) -> Any:
        """The chance as a plan holds it."""
        found = _FRACTION.fullmatch(text)
        if found and int(found[2]):
            return f"{int(found[1])}/{int(found[2])}"
        percent = _read(text, whole=False, empty=self.empty)
        return percent if percent is None or isinstance(percent, Refused) else share_of(percent)


class Words(msgspec.Struct, frozen=True):
    """A few words: a name or a label."""

    empty: str | None = None

    def show(self, value: Any, _numbers: Numbers) -> str:
        """As typed."""
        return str(value)

    def read(self, text: str) -> Any:
        """Without blanks around it."""
        found = text.strip()
        return Refused(words.MUST_NOT_BE_EMPTY) if not found and self.empty is None else found


class Id(Words, frozen=True):
    """A short name that the file uses."""


class Prose(msgspec.Struct, frozen=True):
    """A text of several lines."""


class Choice(msgspec.Struct, frozen=True):
    """One of a few values, each with its words; they may depend on the plan and on what the form is about."""

    options: Callable[[Plan, int], tuple[tuple[Any, str], ...]]


class Panel(msgspec.Struct, frozen=True):
    """A value with an editor of its own, by name."""

    editor: str


Typed = Whole | Amount | Share | Words
Kind = Typed | Prose | Choice | Panel


def fixed(*options: tuple[Any, str]) -> Choice:
    """A choice that is always between the same values."""

    def give(_plan: Plan, _subject: int) -> tuple[tuple[Any, str], ...]:
        return options

    return Choice(give)


def share_of(percent: float) -> int | float:
    """A percentage as a plan holds it: whole where it is all or nothing."""
    share = Fraction(str(round(percent, _SHARE_PLACES))) / 100
    return int(share) if share.denominator == 1 else float(share)


def _read(text: str, *, whole: bool, empty: str | None) -> Any:
    # Tables are read before Qt is there: reading needs its locales, showing does not.
    from desktop.locale_reading import read_number

    if not text.strip() and empty is not None:
        return None
    value = read_number(text, whole=whole)
    return Refused(words.not_a_number(text, whole=whole)) if value is None else value
