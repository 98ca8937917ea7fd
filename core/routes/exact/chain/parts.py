"""Probe points a part at a time."""

from __future__ import annotations

from dataclasses import dataclass

from core.routes.exact.eggs import Joined, Probe

# Numbers of one element that are worked out at once, over points and all that is looked at: as many as a processor's
# cache holds some dozens of elements of, and so many that looking after them takes less than they do.
AT_ONCE = 16_384
# Points that are worked out at once at the least.
LEAST = 64


@dataclass(frozen=True)
class Part(Probe):
    """Some of the points of a probe, of all probes together from `at` on."""

    at: int = 0


def points_at_once(looks: int, most: int) -> int:
    """At how many points so much is looked at together: a power of two, or so many at most."""
    return max(LEAST, min(most, 1 << (AT_ONCE // max(1, looks)).bit_length() - 1))


def parts_of(probe: Probe, chunk: int = AT_ONCE) -> list[Part]:
    """A probe in parts that fit a processor's cache."""
    found, at = [], 0
    for whole in probe.parts if isinstance(probe, Joined) else (probe,):
        for first in range(0, whole.points, chunk):
            cut = slice(first, first + chunk)
            keep = None if whole.keep is None else (whole.keep[0][cut], whole.keep[1][cut])
            weights = whole.egg[cut], whole.young[cut], whole.sale[cut]
            found.append(Part(*weights, whole.roots, whole.step, whole.first + first, keep, at=at + first))
        at += whole.points
    return found
