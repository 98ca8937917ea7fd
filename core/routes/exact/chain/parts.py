"""Probe points a part at a time."""

from __future__ import annotations

from dataclasses import dataclass

from core.routes.exact.eggs import Joined, Probe

# Points that are worked out at once.
CHUNK = 1024


@dataclass(frozen=True)
class Part(Probe):
    """Some of the points of a probe, of all probes together from `at` on."""

    at: int = 0


def parts_of(probe: Probe, chunk: int = CHUNK) -> list[Part]:
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
