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


@dataclass(frozen=True)
class Running:
    """Running costs of a route: prices, how often each may be paid at most, and the most that is paid for keep."""

    per_egg: float
    per_young: float
    most_eggs: int
    keep: tuple[tuple[float, int], ...] = ()
    most_keep: float = 0.0


def money_lattice(running: Running, allowed: float) -> Lattice:
    """The coarsest grid on which all that can be paid, whatever hatches, is off by at most `allowed`.

    Where the prices have no common measure, eggs that hatch are met exactly.
    """
    hatched = running.per_egg + running.per_young
    if hatched * running.most_eggs <= allowed / 2:
        # Eggs are next to nothing: the keep of held animals alone sets the grid.
        paid = [price for price, times in running.keep if price and times]
        step, parts = (min(paid), 1) if paid else (max(allowed, 1e-9), 1)
        while _keep_error(running, step / parts) > allowed / 2 and parts < _MOST_STEPS_AN_EGG:
            parts += 1
        return Lattice(step / parts, 0, 0, fast_length(round(running.most_keep * parts / step) + 1))
    for steps in range(1, _MOST_STEPS_AN_EGG + 1):
        step = hatched / steps
        laid = round(running.per_egg / step)
        error = abs(laid * step - running.per_egg) * running.most_eggs + _keep_error(running, step)
        if error <= max(allowed, 1e-9):
            break
    most = steps * running.most_eggs + round(running.most_keep / step)
    return Lattice(step, laid, steps - laid, fast_length(most + 1))


def _keep_error(running: Running, step: float) -> float:
    return sum(abs(round(price / step) * step - price) * times for price, times in running.keep)


def fast_length(least: int) -> int:
    """The next length that transforms fast: 2, 3 or 5 times a power of two."""
    power = 1 << (least - 1).bit_length()
    return min(length for length in (power * 5 // 8, power * 3 // 4, power) if length >= least)
