"""What a chart is painted from, under its curves and over them, in order."""

from __future__ import annotations

from PySide6.QtGui import QFontMetricsF

from desktop import fonts
from desktop.panels.charts import axes, end_labels, overlay, strip
from desktop.panels.charts.grip import pill_size
from desktop.panels.charts.layer import Painting
from desktop.words.charts import CHEAPEST_HERE, goal_chance
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
    return (axes.over_limit, axes.hairlines(numbers), axes.bottom_numbers(numbers))


def room_left(numbers: Numbers) -> float:
    """The room left of the plot: for its numbers, the goal's grip, and what the strip is of."""
    head = QFontMetricsF(fonts.sans(fonts.NOTE)).horizontalAdvance(CHEAPEST_HERE) + 10
    return max(pill_size(goal_chance(0.999, numbers)).width() + 12.0, head)


def room_over() -> float:
    """The room above the plot."""
    return strip.height() + 10.0
