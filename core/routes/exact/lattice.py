"""A grid on which the cost of eggs and young falls, so that sums of it are sums of whole steps."""

from __future__ import annotations

from dataclasses import dataclass

_MOST_STEPS_AN_EGG = 400


@dataclass(frozen=True)
class Lattice:
    """Money of one step; whole steps of an egg, and of a live young on top; and the length that holds every sum."""

    step: float
    per_egg: int
    per_young: int
    length: int


def money_lattice(per_egg: float, per_young: float, most_eggs: int, most_keep: float, allowed: float) -> Lattice:
    """The coarsest grid on which the cost of `most_eggs` eggs, whatever hatches, is off by at most `allowed`.

    Where the two prices have no common measure, eggs that hatch are met exactly. `most_keep`: the most paid on top of
    eggs and young in single sums, each rounded to the grid.
    """
    hatched = per_egg + per_young
    if hatched * most_eggs <= allowed:
        step = max(allowed, 1e-9)
        return Lattice(step, 0, 0, fast_length(round(most_keep / step) + 1))
    for steps in range(1, _MOST_STEPS_AN_EGG + 1):
        step = hatched / steps
        laid = round(per_egg / step)
        fine = not most_keep or step <= 2 * allowed
        if fine and abs(laid * step - per_egg) * most_eggs <= max(allowed, 1e-9):
            break
    return Lattice(step, laid, steps - laid, fast_length(steps * most_eggs + round(most_keep / step) + 1))


def fast_length(least: int) -> int:
    """The next length that transforms fast: 2, 3 or 5 times a power of two."""
    power = 1 << (least - 1).bit_length()
    return min(length for length in (power * 5 // 8, power * 3 // 4, power) if length >= least)
