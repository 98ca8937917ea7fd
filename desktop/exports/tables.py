"""Tables as text for spreadsheets and for the clipboard; no Qt."""

from __future__ import annotations

import csv
import io

import msgspec

from desktop.cells import harmless, pasted
from desktop.panels.charts.series import Picture
from desktop.panels.charts.values import Values
from desktop.words.numbers import PLAIN, Numbers


class Table(msgspec.Struct, frozen=True):
    """Heads and rows, as they read on screen."""

    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def chart_table(picture: Picture, numbers: Numbers) -> Table:
    """The numbers behind a chart."""
    values = Values(picture, numbers)
    columns = range(len(values.heads))
    rows = ((values.row_head(row), *(values.text(row, column) for column in columns)) for row in range(values.rows))
    return Table((picture.unit, *values.heads), tuple(rows))


def as_csv(table: Table, numbers: Numbers = PLAIN) -> bytes:
    """Comma-separated values as RFC 4180 has them; a mark at the start tells spreadsheets that it is UTF-8.

    Where `numbers` have a comma for their decimals, cells are apart by semicolons, as spreadsheets there read them.
    """
    out = io.StringIO()
    apart = ";" if "," in numbers.decimal(0.5, 1) else ","
    writer = csv.writer(out, delimiter=apart, lineterminator="\r\n")
    for row in (table.heads, *table.rows):
        writer.writerow([harmless(cell) for cell in row])
    return out.getvalue().encode("utf-8-sig")


def as_text(table: Table) -> str:
    """The same for the clipboard."""
    return pasted((table.heads, *table.rows))
