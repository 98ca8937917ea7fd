"""Single JSON values (text, numbers, chances, choices) read strictly, each fault in a breeder's words."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from typing import Any

import msgspec
from msgspec import inspect

from core.plan.faults import Faults, one_of, quote
from core.plan.limits import LONGEST_FRACTION_PART, LONGEST_TEXT
from core.text import tr

Read = Callable[[object, str, Faults], Any]
_FRACTION = re.compile(rf"([0-9]{{1,{LONGEST_FRACTION_PART}}})/([0-9]{{1,{LONGEST_FRACTION_PART}}})")
_NOT_ALLELES = ("+", "-", "W", "X", "Y", "Z")


class Kind(msgspec.Struct, frozen=True):
    """How values of one type are read, and what stands in for one at fault."""

    read: Read
    neutral: Any


def choice_kind(info: inspect.LiteralType) -> Kind:
    """Read one of a few fixed words or numbers."""
    choices = one_of(quote(value) if isinstance(value, str) else str(value) for value in info.values)

    def read(value: object, place: str, faults: Faults) -> Any:
        # True equals 1, so the type must match too.
        if any(type(value) is type(choice) and value == choice for choice in info.values):
            return value
        faults.shape(place, tr("must be {choices}, not {found}", choices=choices, found=show(value)))
        return info.values[0]

    return Kind(read, info.values[0])


def boolean_kind() -> Kind:
    """Read true or false."""

    def read(value: object, place: str, faults: Faults) -> Any:
        if isinstance(value, bool):
            return value
        faults.shape(place, tr("must be true or false, not {found}", found=call(value)))
        return False

    return Kind(read, False)


def text_kind(info: inspect.StrType, word: str | None) -> Kind:
    """Read text; `word` is "id" or "allele" where the page restricts its characters."""
    longest = LONGEST_TEXT if info.max_length is None else info.max_length

    def read(value: object, place: str, faults: Faults) -> Any:
        if not isinstance(value, str):
            faults.shape(place, tr("must be text in double quotes, not {found}", found=call(value)))
        elif info.min_length and not value:
            faults.shape(place, tr("must not be empty"))
        elif sound(value, longest, place, faults) and (word is None or _is_word(value, word, place, faults)):
            return value
        return ""

    return Kind(read, "")


def sound(text: str, longest: int, place: str, faults: Faults) -> bool:
    """Tell whether text is short enough and can be saved as UTF-8; a fault where it is not."""
    if len(text) > longest:
        faults.shape(
            place,
            tr(
                "is {length} characters long; at most {longest} are allowed",
                length=f"{len(text):,}",
                longest=f"{longest:,}",
            ),
        )
        return False
    if not text.isascii() and any("\ud800" <= c <= "\udfff" for c in text):
        faults.shape(place, tr("holds half a character (a lone surrogate)"))
        return False
    return True


def _is_word(text: str, word: str, place: str, faults: Faults) -> bool:
    if "/" in text or any(map(str.isspace, text)):
        faults.shape(place, tr('must hold no space and no "/", yet is {text}', text=quote(text)))
        return False
    if word == "allele" and text in _NOT_ALLELES:
        faults.shape(
            place,
            tr(
                "must not be {text}: {not_alleles} are no names of alleles",
                text=quote(text),
                not_alleles=", ".join(_NOT_ALLELES),
            ),
        )
        return False
    return True


def number_kind(least: float, most: float, *, whole: bool = False, fraction: bool = False) -> Kind:
    """Read a number within `least`..`most`, both included; `fraction` allows "2/3" as well."""
    what = tr("a whole number") if whole else tr('a number or a fraction such as "2/3"') if fraction else tr("a number")

    def read(value: object, place: str, faults: Faults) -> Any:
        number = _divide(value) if fraction and isinstance(value, str) else value
        if isinstance(number, bool) or not isinstance(number, int | float) or math.isnan(number):
            faults.shape(place, tr("must be {what}, not {found}", what=what, found=show(value)))
        elif number < least:
            faults.shape(
                place, tr("must be at least {least}", least=f"{least:,}") if least else tr("must not be negative")
            )
        elif number > most:
            faults.shape(place, tr("must be at most {most}", most=f"{most:,}"))
        elif whole and not isinstance(number, int):
            faults.shape(place, tr("must be a whole number, written without a point, not {number}", number=number))
        else:
            return value
        return least

    return Kind(read, least)


def _divide(text: str) -> float | None:
    found = _FRACTION.fullmatch(text)
    if found is None or int(found[2]) == 0:
        return None
    return int(found[1]) / int(found[2])


def call(value: object) -> str:
    """Name the kind of a JSON value in a sentence."""
    if value is None:
        return "null"
    if isinstance(value, bool):
        return tr("true or false")
    names: dict[type, str] = {
        int: tr("a number"),
        float: tr("a number"),
        str: tr("text"),
        list: tr("a list"),
        tuple: tr("a list"),
    }
    return names.get(type(value), tr("an object"))


def show(value: object) -> str:
    """Show a short value, or name the kind of one that is not."""
    if isinstance(value, str):
        return quote(value)
    if isinstance(value, int | float) and not isinstance(value, bool):
        return "NaN" if value != value else f"{value:,}"
    return call(value)
