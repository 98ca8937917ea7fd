"""A grid on which the cost of eggs and young falls, so that sums of it are sums of whole steps."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from core.routes.problem import Biology

_MOST_STEPS_AN_EGG = 400


@dataclass(frozen=True)
class Lattice:
    """Money of one step; whole steps of an egg, and of a live young on top; and the length that holds every sum."""

    step: float
    per_egg: int
    per_young: int
    length: int


# A sum of money is off the lattice's end less often than e to minus this.
_NEVER = 23.0
# How much outcomes are tilted towards large sums, to bound how often there are any.
_TILTS = np.geomspace(0.1, 100, 60)


@dataclass(frozen=True)
class Running:
    """Running costs of a route: prices, how often each may be paid at most, and the most that is paid for keep.

    laying: how each of the most seasons of a female goes.
    """

    per_egg: float
    per_young: float
    most_eggs: int
    laying: Biology
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
    most = _most_steps(running, laid, steps - laid) + round(running.most_keep / step)
    return Lattice(step, laid, steps - laid, fast_length(most + 1))


def _most_steps(running: Running, per_egg: int, per_young: int) -> int:
    """No more steps than this are paid for eggs and young, but for a chance that is lost in rounding.

    Chernoff's bound: the chance of n or more is at most E(exp(t * steps)) / exp(t * n), whatever t > 0.
    """
    laying = running.laying
    bred = running.most_eggs // max(1, laying.clutches * (len(laying.sizes) - 1))
    most = running.most_eggs * (per_egg + per_young)
    t = _TILTS / max(1, most)
    hatch = laying.fertile * laying.hatches
    egg = np.exp(t * per_egg) * (1 - hatch + hatch * np.exp(t * per_young))
    clutch = np.polyval(laying.sizes[::-1], egg)
    season = 1 - laying.lays + laying.lays * clutch**laying.clutches
    return min(most, int(np.min((bred * np.log(season) + _NEVER) / t)) + 1)


def _keep_error(running: Running, step: float) -> float:
    return sum(abs(round(price / step) * step - price) * times for price, times in running.keep)


def fast_length(least: int) -> int:
    """The next length that transforms fast: eight times twos, threes and fives."""
    eights = max(1, -(-least // 8))
    while not _is_smooth(eights):
        eights += 1
    return 8 * eights


def _is_smooth(number: int) -> bool:
    for factor in (2, 3, 5):
        while number % factor == 0:
            number //= factor
    return number == 1
