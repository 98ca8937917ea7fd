"""Young that meet the goal and are held back as well: how many of a season, and what they would have brought."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product

import numpy as np
from numpy.typing import NDArray

from core.routes.exact.chain.laid import Run
from core.routes.exact.chain.plans import FULL, Fate, Plan, plans
from core.routes.problem import Biology
from core.routes.result import Floats

# Chances, [kinds of weight, young to come that fill up each herd .., other young to come that each herd holds ..].
_Kind = NDArray[np.float64]
# Before the first young that meets the goal; that it is held; and that times what it would have brought.
_PLAIN, _NUMBER, _WORTH = range(3)


class Firsts:
    """The young of some runs, where a goal of one young is met by the first that fits it."""

    def __init__(self, runs: Sequence[Run], counts: Sequence[int], biology: Biology) -> None:
        self._runs, self._counts, self._biology = runs, counts, biology
        # Every female by the number of her run, in laying order.
        self._females = [place for place, run in enumerate(runs) for _ in range(run.times)]
        self._known: dict[tuple[Plan, int], _Kind] = {}

    def held(self, female: int, free: Sequence[int]) -> Floats:
        """Chance that the first young that meets the goal is this female's and held, and that times its worth.

        That it is nobody else's is asked of these runs alone. free: vacancies by herd.
        """
        found = np.zeros(2)
        for plan in plans([run.eggs.every for run in self._runs], [number == 0 for number in free]):
            chances = self._chances(plan, female)
            for place in _places(plan, free):
                found += chances.reshape(3, -1)[_NUMBER:, np.ravel_multi_index(place, chances.shape[1:])]
        return found

    def _chances(self, plan: Plan, female: int) -> _Kind:
        """Worked out from the last egg to the first."""
        if (plan, female) not in self._known:
            herds = range(len(self._counts))
            shape = (*(self._counts[herd] + 1 for herd in plan.brims()), *(self._counts[herd] + 1 for herd in herds))
            chances = np.zeros((3, *shape))
            chances[(_PLAIN, *(0,) * len(shape))] = 1
            for number in reversed(range(len(self._females))):
                chances = self._season(plan, chances, number, female)
            self._known[plan, female] = chances
        return self._known[plan, female]

    def _season(self, plan: Plan, after: _Kind, number: int, female: int) -> _Kind:
        run, biology = self._runs[self._females[number]], self._biology
        laid = after
        for _ in range(biology.clutches):
            total = biology.sizes[-1] * laid
            for chance in biology.sizes[:-1][::-1]:
                total = self._egg(plan, total, number, female) + chance * laid
            laid = (1 - biology.lost) * total + biology.lost * laid
        lays = run.works * biology.lays
        laid = lays * laid + (1 - lays) * after
        if number == female:
            # The eggs of earlier females come before the one that meets the goal.
            laid[_PLAIN] = 0
        return laid

    def _egg(self, plan: Plan, after: _Kind, number: int, female: int) -> _Kind:
        """One egg more: of later females any young, of earlier ones none that meets the goal."""
        out, place = np.zeros_like(after), self._females[number]
        for done, region in _regions(plan, place, after.ndim - 1):
            here, every = out[region], self._runs[place].eggs.every
            here += (1 - sum(sort.chance for sort in every)) * after[region]
            for sort in every:
                fate = plan.fate(place, done, sort)
                young = sort.chance * (after[region] if fate is None else _held(plan, after, region, fate))
                if sort.row is None or number > female:
                    here += young
                elif number == female:
                    here[_PLAIN] += young[_PLAIN]
                    if fate is not None:
                        here[_NUMBER] += young[_PLAIN]
                        here[_WORTH] += sort.price * young[_PLAIN]
        return out


def _regions(plan: Plan, place: int, axes: int) -> Iterator[tuple[int, tuple[slice, ...]]]:
    """Every set of herds (bits) that may have been filled up in a run, and where that is so."""
    here = plan.brims(place)
    for flags in product((False, True), repeat=len(here)):
        full = dict(zip(here, flags, strict=True))
        index = [slice(None)] * (axes + 1)
        for axis, herd in enumerate(plan.brims(), start=1):
            if herd in full:
                index[axis] = slice(0, 1) if full[herd] else slice(1, None)
        yield sum(1 << herd for herd in here if full[herd]), tuple(index)


def _held(plan: Plan, after: _Kind, region: tuple[slice, ...], fate: Fate) -> _Kind:
    """What follows where a young has this fate."""
    brims = plan.brims()
    if fate.last:
        source = list(region)
        source[1 + brims.index(fate.herd)] = slice(0, -1)
        return after[tuple(source)]
    moved, own = np.zeros_like(after[region]), after[region]
    before = (slice(None),) * (1 + len(brims) + fate.herd)
    moved[(*before, slice(1, None))] = own[(*before, slice(-1))]
    return moved


def _places(plan: Plan, free: Sequence[int]) -> Iterator[tuple[int, ...]]:
    """How many young fill up each herd that does, and how many others each herd holds."""
    for held in product(
        *(range(1 if status == FULL else own) for status, own in zip(plan.statuses, free, strict=True))
    ):
        yield (*(free[herd] - held[herd] for herd in plan.brims()), *held)
