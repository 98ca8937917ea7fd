"""Numbers as lists write them: prices, counts and shares."""

from __future__ import annotations

import re
from fractions import Fraction

# What each sign may stand for.
_SIGNED = {
    "$": {"usd", "aud", "cad", "hkd", "mxn", "nzd", "sgd"},
    "€": {"eur"},
    "£": {"gbp"},
    "¥": {"cny", "jpy"},
}
_SIGNS = "".join(_SIGNED)
_CODES = {"usd", "eur", "gbp", "chf", "aud", "cad", "sek", "nok", "dkk", "pln", "czk", "jpy"}
_PLAIN = re.compile(r"\d+(?:\.\d{1,2})?")
_THOUSANDS = re.compile(r"\d{1,3}(?:[,'’]\d{3})+(?:\.\d{1,2})?")
_COMMA_DECIMALS = re.compile(r"\d{1,3}(?:\.\d{3})*,\d{1,2}")
_MOST_DIGITS = 12


def has_sign(text: str) -> bool:
    """Whether a currency sign stands at either end."""
    return text[:1] in _SIGNS or text[-1:] in _SIGNS


def is_currency(text: str) -> bool:
    """Whether a word is a currency and nothing else."""
    return text in _CODES or text in _SIGNED


def may_be(said: str, own: str) -> bool:
    """Whether a currency, as a list says it, may be the plan's own; a plan that names none takes any."""
    own = own.strip().casefold()
    return not own or said == own or own in _SIGNED.get(said, ()) or said in _SIGNED.get(own, ())


def read_amount(text: str) -> float | None:
    """Read a price with thousands separators; None where it can be read two ways ("1.200") or not at all."""
    bare = text.strip(_SIGNS)
    if len(bare) > _MOST_DIGITS:
        return None
    if _PLAIN.fullmatch(bare):
        return float(bare)
    if _THOUSANDS.fullmatch(bare):
        return float(re.sub(r"[,'’]", "", bare))
    if _COMMA_DECIMALS.fullmatch(bare):
        return float(bare.replace(".", "").replace(",", "."))
    return None


def amount_readings(text: str) -> list[str]:
    """Give the amounts that an unclear number may stand for."""
    bare = text.strip(_SIGNS)
    whole = re.sub(r"\D", "", bare)
    if not whole or len(whole) > _MOST_DIGITS:
        return []
    parts = re.split(r"\D", bare)
    return list(dict.fromkeys([str(int(whole)), f"{int(parts[0] or 0)}.{parts[-1][:2]}"]))


def share(text: str) -> str | None:
    """Read "66%" as the share the trade means by it: two thirds; None for what is no share of an animal."""
    percent = text.rstrip("% ")
    if not percent.isdecimal() or len(percent) > 3 or not 0 < int(percent) <= 100:
        return None
    return {66: "2/3", 67: "2/3", 33: "1/3"}.get(int(percent), str(Fraction(int(percent), 100)))
