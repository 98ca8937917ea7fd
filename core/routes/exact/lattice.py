"""A grid on which the cost of eggs and young falls, so that sums of it are sums of whole steps."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

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
    # The most seasons of females whose eggs are all paid for within half of the length, a quarter of it, and so on.
    halves: tuple[int, ...] = ()

    def strides(self, bred: Iterable[int]) -> list[int]:
        """By how much the length may be divided where only so many seasons of females are paid for."""
        fewest = self.halves[::-1]
        return [1 << len(fewest) - bisect_left(fewest, own) for own in bred]


# A sum of money is off the lattice's end less often than e to minus this.
_NEVER = 23.0
# As much again for each of dozens of seasons.
_SEASONS = 4.0
# How much outcomes are tilted towards large sums, to bound how often there are any.
_TILTS = np.geomspace(0.1, 600, 75)


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
    most = max(allowed, 1e-9)
    for steps in range(1, _MOST_STEPS_AN_EGG + 1):
        step = hatched / steps
        laid = round(running.per_egg / step)
        error = abs(laid * step - running.per_egg) * running.most_eggs
        if error <= most and error + _keep_error(running, step) <= most:
            break
    eggs, keep = _Paid(running, laid, steps - laid), round(running.most_keep / step)
    length = fast_length(eggs.most_steps() + keep + 1)
    return Lattice(step, laid, steps - laid, length, eggs.halves(length, keep))


class _Paid:
    """How many steps may be paid for eggs and young, but for a chance that is lost in rounding.

    Chernoff's bound: the chance of n or more is at most E(exp(t * steps)) / exp(t * n), whatever t > 0.
    """

    def __init__(self, running: Running, per_egg: int, per_young: int) -> None:
        laying = running.laying
        self._bred = running.most_eggs // max(1, laying.clutches * (len(laying.sizes) - 1))
        self._most = running.most_eggs * (per_egg + per_young)
        self._t = _TILTS / max(1, self._most)
        hatch = laying.fertile * laying.hatches
        egg = np.exp(self._t * per_egg) * (1 - hatch + hatch * np.exp(self._t * per_young))
        clutch = np.polyval(laying.sizes[::-1], egg)
        # Of one season of a female.
        self._log = np.log(1 - laying.lays + laying.lays * clutch**laying.clutches)

    def most_steps(self) -> int:
        """No more steps than this are paid."""
        return min(self._most, int(np.min((self._bred * self._log + _NEVER) / self._t)) + 1)

    def halves(self, length: int, keep: int) -> tuple[int, ...]:
        """See `Lattice`; so many steps may be paid for keep besides."""
        found: list[int] = []
        while (half := length >> len(found) + 1) << len(found) + 1 == length and not half % _EIGHT:
            # Seasons may lose as much each, so each has to lose less.
            enough = (self._t * (half - keep - 2) - _NEVER - _SEASONS) / np.maximum(self._log, 1e-300)
            bred = int(max(0.0, min(enough.max(), self._bred)))
            if not bred:
                break
            found.append(bred)
        return tuple(found)


def _keep_error(running: Running, step: float) -> float:
    return sum([abs(round(price / step) * step - price) * times for price, times in running.keep])


# Lengths are whole multiples of it.
_EIGHT = 8


@lru_cache(maxsize=64)
def fast_length(least: int) -> int:
    """The next length that transforms fast: eight times twos, threes and fives."""
    eights = max(1, -(-least // _EIGHT))
    while not _is_smooth(eights):
        eights += 1
    return _EIGHT * eights


def _is_smooth(number: int) -> bool:
    for factor in (2, 3, 5):
        while number % factor == 0:
            number //= factor
    return number == 1
