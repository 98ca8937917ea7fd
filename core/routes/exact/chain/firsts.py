"""Young that count for the goal and are held back as well: how many of a season, and what they would have brought."""

from __future__ import annotations

from collections.abc import Generator, Iterator, Sequence
from itertools import product

import numpy as np
from numpy.typing import NDArray

from core.routes.exact.algebra import CountAlgebra, Indices
from core.routes.exact.chain.laid import Run
from core.routes.exact.chain.plans import FULL, Fate, Plan, plans
from core.routes.problem import Biology
from core.routes.result import Floats

# Chances, [kinds of weight, young to come that fill up each herd .., others to come that each herd holds .., goal].
_Kind = NDArray[np.float64]
# What fills up; how many of her young count and are held; and that times what they would have brought.
_PLAIN, _NUMBER, _WORTH = range(3)


class Firsts:
    """The young of some runs, by what the goal has when they hatch."""

    def __init__(self, runs: Sequence[Run], counts: Sequence[int], biology: Biology, goal: CountAlgebra) -> None:
        self._runs, self._counts, self._biology = runs, counts, biology
        # By row, what the goal's counts are after a young of it, and those that it changes.
        self._after: list[Indices] = [goal.stepped(row) for row in range(goal.steps)]
        self._counting = [after != np.arange(goal.size) for after in self._after]
        self._size = goal.size
        # Every female by the number of her run, in laying order.
        self._females = [place for place, run in enumerate(runs) for _ in range(run.times)]
        self._known: dict[tuple[Plan, int], _Kind] = {}

    @property
    def kept(self) -> int:
        """How many numbers are kept."""
        return sum(own.size for own in self._known.values())

    def held(self, female: int, free: Sequence[int]) -> Generator[None, None, Floats]:
        """Expected young of this female that count and are held, and that times their worth: [2, goal's counts before].

        The counts are those before all young of these runs. free: vacancies by herd. Yields between two plans.
        """
        found = np.zeros((2, self._size))
        for plan in plans([run.eggs.every for run in self._runs], [number == 0 for number in free]):
            yield
            chances = self._chances(plan, female)
            for place in _places(plan, free):
                found += chances.reshape(3, -1, self._size)[_NUMBER:, np.ravel_multi_index(place, chances.shape[1:-1])]
        return found

    def _chances(self, plan: Plan, female: int) -> _Kind:
        """Worked out from the last egg to the first."""
        if (plan, female) not in self._known:
            herds = range(len(self._counts))
            shape = (*(self._counts[herd] + 1 for herd in plan.brims()), *(self._counts[herd] + 1 for herd in herds))
            chances = np.zeros((3, *shape, self._size))
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
            # From here on only what the goal has when she lays makes a difference.
            laid[_PLAIN] = 0
        return laid

    def _egg(self, plan: Plan, after: _Kind, number: int, female: int) -> _Kind:
        """One egg more, with what is to come after it."""
        out, place = np.zeros_like(after), self._females[number]
        for done, region in _regions(plan, place, after.ndim - 2):
            here, every = out[region], self._runs[place].eggs.every
            here += (1 - sum(sort.chance for sort in every)) * after[region]
            for sort in every:
                fate = plan.fate(place, done, sort)
                young = sort.chance * (after[region] if fate is None else _held(plan, after, region, fate))
                if sort.row is None:
                    here += young
                    continue
                here[_PLAIN] += young[_PLAIN]
                here[_NUMBER:] += _at(young[_NUMBER:], self._after[sort.row])
                if fate is not None and number == female:
                    counted = young[_PLAIN] * self._counting[sort.row]
                    here[_NUMBER] += counted
                    here[_WORTH] += sort.price * counted
        return out


def _at(chances: _Kind, after: Indices) -> _Kind:
    """What is to come where the goal's counts have become these; nothing where it is met."""
    found: _Kind = np.where(after >= 0, chances[..., after], 0)
    return found


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
