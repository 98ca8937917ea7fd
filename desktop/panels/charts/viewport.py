"""Which part of a chart is in sight: zooming, moving, and keeping within the whole; no Qt."""

from __future__ import annotations

import msgspec
from msgspec.structs import replace

from desktop.panels.charts.series import Picture

# Room for the thickest line at 0 and 100 %.
LOWEST, HIGHEST = -0.012, 1.015
_NEAREST_X, _NEAREST_Y = 200.0, 20.0


class Sight(msgspec.Struct, frozen=True):
    """The x range and the chance range in sight."""

    low: float
    high: float
    bottom: float = LOWEST
    top: float = HIGHEST

    def zoomed(self, whole: Sight, at: tuple[float, float], by: tuple[float, float]) -> Sight:
        """A part `by` times as wide and high around the point `at`, which stays where it is."""
        low, high = _scaled(self.low, self.high, at[0], by[0], (whole.low, whole.high), _NEAREST_X)
        bottom, top = _scaled(self.bottom, self.top, at[1], by[1], (whole.bottom, whole.top), _NEAREST_Y)
        return Sight(low, high, bottom, top)

    def moved(self, whole: Sight, x: float, y: float) -> Sight:
        """The same part further right and up, as far as there is anything."""
        low, high = _inside(self.low + x, self.high + x, whole.low, whole.high)
        bottom, top = _inside(self.bottom + y, self.top + y, whole.bottom, whole.top)
        return Sight(low, high, bottom, top)

    def showing(self, whole: Sight, x: float) -> Sight:
        """Moved just so far that `x` is in sight."""
        short = max(self.low - x, 0.0)
        over = max(x - self.high, 0.0)
        return self if not (short or over) else self.moved(whole, over - short, 0.0)

    def within(self, whole: Sight) -> Sight:
        """As much of this part as there is in another whole."""
        low, high = max(self.low, whole.low), min(self.high, whole.high)
        return whole if high - low < (whole.high - whole.low) / (_NEAREST_X * 2) else replace(self, low=low, high=high)


def whole_of(picture: Picture) -> Sight:
    """All that a picture shows."""
    return Sight(picture.low, picture.high)


def _scaled(
    low: float, high: float, at: float, by: float, whole: tuple[float, float], nearest: float
) -> tuple[float, float]:
    full = whole[1] - whole[0]
    width = min(max((high - low) * by, full / nearest), full)
    start = at - (at - low) * width / (high - low)
    return _inside(start, start + width, *whole)


def _inside(low: float, high: float, least: float, most: float) -> tuple[float, float]:
    if low < least:
        return least, min(most, least + high - low)
    if high > most:
        return max(least, most - (high - low)), most
    return low, high
