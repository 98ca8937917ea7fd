"""Text to lines: CSV with a header row is laid out as the lines a seller would write."""

from __future__ import annotations

import csv
import re
import unicodedata

_COLUMNS = {
    "sex": {"sex", "gender"},
    "animal": {"animal", "genes", "genetics", "traits", "trait", "carries", "colour", "color", "description"},
    "price": {"price", "cost", "asking"},
    "qty": {"quantity", "qty", "count", "number"},
    "label": {"label", "name", "id"},
    "ready in": {"ready in", "ready_in", "ready"},
}
_SAMPLE = 4096
# A comma without a space beside what is no digit, as no sentence has it; or a cell in quotes.
_ROW = re.compile(r'[^\d\s],(?=\S)|(?<=\S),[^\d\s]|(?:^|;\s?)"[^"]*";|;\s?"[^"]*"$')


def lines_of(text: str) -> list[str]:
    """Give the lines of a list, blank ones left out; control characters become spaces."""
    clean = "".join(_plain(letter) for letter in text.removeprefix("\ufeff")) if not text.isascii() else _ascii(text)
    lines = [line.strip() for line in clean.split("\n")]
    lines = [line for line in lines if line]
    columns, delimiter = _header(lines)
    return [_written(line, columns, delimiter) for line in lines[1:]] if columns else [_apart(line) for line in lines]


def _apart(line: str) -> str:
    """A row of cells without a header, each cell apart: "340,2" is no price there, and quoted cells are no names."""
    delimiter = ";" if ";" in line else ","
    return "; ".join(filter(None, map(str.strip, _cells(line, delimiter)))) if _ROW.search(line) else line


def _ascii(text: str) -> str:
    return re.sub(r"[\x00-\x09\x0b-\x1f\x7f]", " ", re.sub(r"\r\n?", "\n", text).replace("\t", ";"))


def _plain(letter: str) -> str:
    if letter in "\r\n":
        return "\n"
    return ";" if letter == "\t" else " " if unicodedata.category(letter)[0] in "CZ" else letter


def _header(lines: list[str]) -> tuple[list[str], str]:
    """Give the meaning of each column, and the sign between them; no columns for a list without a header row."""
    if not lines:
        return [], ""
    try:
        delimiter = csv.Sniffer().sniff(lines[0][:_SAMPLE], delimiters=",;|").delimiter
    except csv.Error:
        return [], ""
    cells = [cell.strip().casefold() for cell in _cells(lines[0], delimiter)]
    columns = [next((known for known, words in _COLUMNS.items() if cell in words), "") for cell in cells]
    return (columns, delimiter) if {"sex", "animal"} & {*columns} and sum(map(bool, columns)) > 1 else ([], "")


def _cells(line: str, delimiter: str) -> list[str]:
    try:
        return next(csv.reader([line], delimiter=delimiter, skipinitialspace=True), [])
    except csv.Error:
        return [line]


def _written(line: str, columns: list[str], delimiter: str) -> str:
    said: list[str] = []
    for place, cell in enumerate(_cells(line, delimiter)):
        column = columns[place] if place < len(columns) else ""
        cell = cell.strip()
        if not cell:
            continue
        if column == "label":
            said.append('"' + cell.replace('"', "'") + '"')
        else:
            said.append(f"{column} {cell}" if column in ("price", "qty", "ready in") else cell)
    return "; ".join(said)
