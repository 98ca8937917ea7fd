"""What a chart is painted from, under its curves and over them, in order."""

from __future__ import annotations

from desktop.panels.charts import axes, end_labels, overlay, strip
from desktop.panels.charts.layer import Painting
from desktop.words.numbers import Numbers

OVER: tuple[Painting, ...] = (
    overlay.outright_price,
    overlay.goal_line,
    overlay.symbols,
    overlay.crossings,
    overlay.words,
    end_labels.end_labels,
    strip.strip,
)


def under(numbers: Numbers) -> tuple[Painting, ...]:
    """What lies under the curves."""
    return (axes.over_limit, axes.hairlines, axes.bottom_numbers(numbers))


def room_over() -> float:
    """The room above the plot."""
    return strip.height() + 10.0
