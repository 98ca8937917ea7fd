"""The ladder laid out as rows: from where to where for each route, and the figures beside it; no Qt."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal

import msgspec

from core.explain.ladder import Ladder, told_percent
from core.explain.numbers import Numbers
from core.explain.rungs import REAL, chance_text, points_text, rung_label, rung_note, textbook_label, textbook_note
from core.plan.model import Plan
from desktop.words import why as words

_WIDE, _NARROW = 70.0, 30.0


class Row(msgspec.Struct, frozen=True):
    """One row: spans in percent, one a route, and its figures; two routes have their difference as a third."""

    kind: Literal["textbook", "rung", "real"]
    label: str
    note: str
    spans: tuple[tuple[float, float], ...]
    figures: tuple[str, ...]


class Scale(msgspec.Struct, frozen=True):
    """From and to, in percent, and where the lines are."""

    low: float
    high: float
    ticks: tuple[int, ...]


def ladder_rows(plan: Plan, ladders: Sequence[Ladder], season: int, numbers: Numbers) -> tuple[Row, ...]:
    """The rows of one ladder or of two; notes are about the first."""
    at = season - 1
    tops = [100 * float(one.textbook[at]) for one in ladders]
    ends = [100 * float(one.real[at]) for one in ladders]
    note = textbook_note(plan) if len(ladders) == 1 else ""
    rows = [Row("textbook", textbook_label(plan), note, tuple((top, top) for top in tops), _chances(tops, numbers))]
    for rung in ladders[0].rungs:
        rungs = [one.rung(rung.truth) for one in ladders]
        spans = tuple((100 * float(one.before[at]), 100 * float(one.after[at])) for one in rungs)
        points = [one.told_points(season) for one in rungs]
        note = rung_note(plan, rung.truth, applies=rung.applies, numbers=numbers) if len(ladders) == 1 else ""
        rows.append(Row("rung", rung_label(plan, rung.truth), note, spans, _points(points, numbers)))
    real = tuple((top, end) for top, end in zip(tops, ends, strict=True))
    return (*rows, Row("real", REAL, "", real, _chances(ends, numbers)))


def scale_of(rows: Sequence[Row], goal: float) -> Scale:
    """A scale that holds every span and the goal, in percent."""
    values = [value for row in rows for span in row.spans for value in span]
    low = 10 * math.floor((min([*values, goal]) - 0.5) / 10)
    high = 10 * math.ceil((max([*values, goal]) + 0.5) / 10)
    low, high = max(low, 0), min(high, 100)
    step = 20 if high - low > _WIDE else 5 if high - low <= _NARROW else 10
    return Scale(low, high, tuple(range(low + -low % step, high + 1, step)))


def rows_spoken(rows: Sequence[Row], names: Sequence[str]) -> str:
    """The rows for those who do not see them."""
    if len(names) < 2:
        return "; ".join(f"{row.label}: {row.figures[0]}. {row.note}".strip() for row in rows)
    heads = [*names, words.DIFFERENCE]
    return "; ".join(
        f"{row.label}: {', '.join(f'{head} {figure}' for head, figure in zip(heads, row.figures, strict=False))}"
        for row in rows
    )


def _chances(values: list[float], numbers: Numbers) -> tuple[str, ...]:
    told = [told_percent(value / 100) for value in values]
    return tuple(chance_text(value / 100, numbers) for value in values) + _difference(told, numbers)


def _points(values: list[float], numbers: Numbers) -> tuple[str, ...]:
    return tuple(points_text(value, numbers) for value in values) + _difference(values, numbers)


def _difference(values: list[float], numbers: Numbers) -> tuple[str, ...]:
    return (points_text(values[0] - values[1], numbers),) if len(values) == 2 else ()
