"""Cells on their way to another program: a spreadsheet must take none for a formula, nor lose its rows; no Qt."""

from __future__ import annotations

from collections.abc import Iterable
from unicodedata import category, normalize

# What makes a spreadsheet take a cell for a formula, also in wide letters, which some read alike.
_FORMULA, _BREAKS = ("=", "+", "-", "@"), ("\t", "\r", "\n")


def harmless(cell: str) -> str:
    """A cell that no spreadsheet takes for a formula; numbers below zero stay as they are."""
    begins = cell.startswith(_BREAKS) or _first_seen(cell) in _FORMULA
    return f"'{cell}" if begins and not _is_number(cell) else cell


def pasted(rows: Iterable[Iterable[str]]) -> str:
    """Cells apart by tabs, rows by line breaks, for the clipboard; either inside a cell becomes a space."""
    return "\n".join("\t".join(harmless(" ".join(cell.split())) for cell in row) for row in rows)


def _first_seen(cell: str) -> str:
    """The first sign that is seen, plain: spaces and marks of direction before it stop no spreadsheet."""
    first = next((one for one in cell if not one.isspace() and category(one) != "Cf"), "")
    return normalize("NFKC", first)


def _is_number(cell: str) -> bool:
    digits = cell.strip().removeprefix("-").removeprefix("+").removesuffix("%").strip()
    return bool(digits) and all(one.isdigit() or one in ".,'  \u2009" for one in digits)
