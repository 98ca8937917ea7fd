"""Names for new entries that nothing else has."""

from __future__ import annotations

from collections.abc import Iterable


def free_id(stem: str, taken: Iterable[str]) -> str:
    """`stem-1`, or the first after it that is free."""
    known = set(taken)
    number = 1
    while f"{stem}-{number}" in known:
        number += 1
    return f"{stem}-{number}"
