"""Where words and numbers go so that they do not lie over each other, nor over curves where they need not; no Qt."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

import msgspec
import numpy as np

from core.routes.result import Floats

_GAP = 3.0
# A place further down the list is taken only where it lies over this many fewer points of ink.
_PREFERENCE = 1.5


class Box(msgspec.Struct, frozen=True):
    """A rectangle in px."""

    left: float
    top: float
    width: float
    height: float

    @property
    def right(self) -> float:
        """The right edge."""
        return self.left + self.width

    @property
    def bottom(self) -> float:
        """The lower edge."""
        return self.top + self.height

    def touches(self, other: Box, gap: float = _GAP) -> bool:
        """Whether the two are nearer than `gap` sideways, or overlap."""
        across = self.left < other.right + gap and other.left < self.right + gap
        return across and self.top < other.bottom and other.top < self.bottom

    def lies_in(self, other: Box) -> bool:
        """Whether it is wholly inside."""
        return (
            self.left >= other.left
            and self.right <= other.right
            and self.top >= other.top
            and self.bottom <= other.bottom
        )


class Places:
    """The boxes taken so far, within an area, over `ink`: points (n, 2) along the curves."""

    def __init__(self, area: Box, ink: Floats, taken: Iterable[Box] = ()) -> None:
        self._area, self._ink = area, ink
        self._taken = list(taken)

    def take(self, wanted: Sequence[Box]) -> int | None:
        """Takes the best of the `wanted` boxes, most wanted first, and returns its place; None where none is free."""
        best, least = None, math.inf
        for place, box in enumerate(wanted):
            if not box.lies_in(self._area) or any(box.touches(other) for other in self._taken):
                continue
            cost = self._over(box) + place * _PREFERENCE
            if cost < least:
                best, least = place, cost
        if best is not None:
            self._taken.append(wanted[best])
        return best

    def _over(self, box: Box) -> int:
        x, y = self._ink[:, 0], self._ink[:, 1]
        inside = (x > box.left - 1) & (x < box.right + 1) & (y > box.top + 1) & (y < box.bottom - 1)
        return int(np.count_nonzero(inside))


def round_ticks(low: float, high: float, most: int) -> list[float]:
    """At most `most` round values between `low` and `high`, 1, 2 or 5 times a power of ten apart."""
    if not high > low or most < 1:
        return []
    step = round_step((high - low) / most)
    first = math.ceil(low / step - 1e-9)
    return [i * step for i in range(first, math.floor(high / step + 1e-9) + 1)]


def round_step(rough: float) -> float:
    """The least of 1, 2 or 5 times a power of ten that is at least `rough`."""
    power = 10.0 ** math.floor(math.log10(rough))
    return next(power * times for times in (1, 2, 5, 10) if power * times >= rough * (1 - 1e-9))


def spread(wanted: list[float], heights: list[float], low: float, high: float) -> list[float]:
    """Centres as near to `wanted` (ascending) as they can be without overlapping, within `low`..`high`."""
    blocks: list[tuple[float, float, int]] = []
    for centre, height in zip(wanted, heights, strict=True):
        block = (centre - height / 2, height, 1)
        while blocks and blocks[-1][0] + blocks[-1][1] > block[0]:
            top, tall, many = blocks.pop()
            middle = ((top + tall / 2) * many + (block[0] + block[1] / 2) * block[2]) / (many + block[2])
            block = (middle - (tall + block[1]) / 2, tall + block[1], many + block[2])
        top = min(max(block[0], low), max(high - block[1], low))
        blocks.append((top, block[1], block[2]))
    return _centres(blocks, heights, low, high)


def _centres(blocks: list[tuple[float, float, int]], heights: list[float], low: float, high: float) -> list[float]:
    """The centres of the parts of each block, pushed back inside where the last block ran over the edge."""
    tops: list[float] = []
    start = 0
    for top, _, many in blocks:
        at = top
        for height in heights[start : start + many]:
            tops.append(at)
            at += height
        start += many
    edge = high
    for place in reversed(range(len(tops))):
        tops[place] = max(min(tops[place], edge - heights[place]), low)
        edge = tops[place]
    return [top + height / 2 for top, height in zip(tops, heights, strict=True)]
