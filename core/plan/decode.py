"""Bytes to plain JSON values, strictly: what a stranger's file may hold ends in one clear line, never in a crash."""

from __future__ import annotations

import codecs
import json
from collections import Counter
from typing import Any

from core.plan.faults import FILE, Fault, PlanError
from core.plan.limits import MOST_BYTES
from core.text import tr

_JSON_WORDS = {
    "Expecting value": tr("a value was expected here"),
    "Expecting ',' delimiter": tr("a comma or a closing bracket was expected here"),
    "Expecting ':' delimiter": tr("a colon was expected here"),
    "Expecting property name enclosed in double quotes": tr("a key in double quotes was expected here"),
    "Illegal trailing comma before end of object": tr("the comma before a closing bracket must go"),
    "Illegal trailing comma before end of array": tr("the comma before a closing bracket must go"),
    "Unterminated string starting at": tr("the text that begins here has no closing quote; was the file cut off?"),
    "Invalid control character at": tr("a line break or control character stands inside a text"),
    "Invalid \\escape": tr("a backslash stands before a character that needs none"),
    "Invalid \\uXXXX escape": tr("\\u must be followed by four hexadecimal digits"),
    "Extra data": tr("the plan ends before this, yet more follows"),
}
# An integer with more digits is beyond every limit of a plan; as a float it costs no time to compare.
_MOST_DIGITS = 20


class Doubled(dict[str, Any]):
    """A JSON object in which some keys were given more than once."""

    def __init__(self, pairs: list[tuple[str, Any]]) -> None:
        super().__init__(pairs)
        times = Counter(key for key, _ in pairs)
        self.doubled = tuple(key for key, count in times.items() if count > 1)


def parse_json(data: bytes) -> object:
    """Parse one UTF-8 JSON document.

    Objects with a key given twice come back as `Doubled`; NaN and infinities as such floats, for the reader to name
    their place. Raises PlanError.
    """
    text = _decode(data)
    try:
        return json.loads(text, object_pairs_hook=_object, parse_int=_integer)
    except json.JSONDecodeError as error:
        raise PlanError([Fault(FILE, _explain(error, text))]) from None
    except RecursionError:
        raise PlanError([Fault(FILE, tr("is nested far deeper than a plan"))]) from None


def _decode(data: bytes) -> str:
    if len(data) > MOST_BYTES:
        raise PlanError(
            [Fault(FILE, tr("is larger than {most} MiB, the most a plan may take", most=MOST_BYTES // 1024**2))]
        )
    if data.startswith(codecs.BOM_UTF8):
        raise PlanError([Fault(FILE, tr("begins with a byte-order mark; save it as UTF-8 without one"))])
    if not data.strip():
        raise PlanError([Fault(FILE, tr("is empty"))])
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError as error:
        raise PlanError(
            [Fault(FILE, tr("is not UTF-8 text (from byte {byte} on)", byte=f"{error.start + 1:,}"))]
        ) from None


def _object(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    return found if len(found) == len(pairs) else Doubled(pairs)


def _integer(digits: str) -> int | float:
    return int(digits) if len(digits) <= _MOST_DIGITS else float(digits)


def _explain(error: json.JSONDecodeError, text: str) -> str:
    where = tr("line {line}, column {column}", line=f"{error.lineno:,}", column=f"{error.colno:,}")
    if error.pos >= len(text.rstrip()):
        return tr("ends too soon, at {where}; was it cut off?", where=where)
    return tr(
        "is not JSON at {where}: {fault}", where=where, fault=_JSON_WORDS.get(error.msg, tr("this cannot be read"))
    )
