"""Shares as dots out of 100."""

from __future__ import annotations

from collections.abc import Sequence

DOTS = 100
_CERTAIN = 1 - 1e-12


def dots_of(shares: Sequence[float]) -> tuple[int, ...]:
    """Whole dots out of 100 for each share, by largest remainder: together as many as the shares make.

    What can be has a dot at least, and only what is certain has all of them.
    """
    exact = [DOTS * share for share in shares]
    found = [int(one + 1e-9) for one in exact]
    by_rest = sorted(range(len(exact)), key=lambda place: found[place] - exact[place])
    for place in by_rest[: round(sum(exact)) - sum(found)]:
        found[place] += 1
    return tuple(_honest(dots, share) for dots, share in zip(_giving(found, shares), shares, strict=True))


def _giving(found: list[int], shares: Sequence[float]) -> list[int]:
    """The largest give a dot to each that has none although it can be."""
    given = list(found)
    for place, share in enumerate(shares):
        if share > 0 and not given[place]:
            largest = max(range(len(given)), key=given.__getitem__)
            given[largest] -= given[largest] > 1
            given[place] = 1
    return given


def _honest(dots: int, share: float) -> int:
    return min(dots, DOTS - 1) if share < _CERTAIN else dots
