"""How many young of a season are held, egg by egg, for one way of sharing them out."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import product
from typing import NamedTuple

import numpy as np

from core.routes.exact.algebra import Complex, CountAlgebra
from core.routes.exact.chain.plans import Fate, Plan
from core.routes.exact.chain.sorts import Eggs
from core.routes.exact.eggs import Probe, clutch_total
from core.routes.exact.limits import OutOfReach
from core.routes.problem import Biology

# Ways to hold the young of one season that are told apart.
_MOST_WAYS = 30_000


class Run(NamedTuple):
    """Neighbours in the laying order whose young are alike: their eggs, the chance that each works, how many."""

    eggs: Eggs
    works: float
    times: int


class Laid:
    """A season's weights, [young that fill up each herd .., held by run and section .., states, points].

    The axes of herds that fill up come first, in herd order; `sections` tells what the next axes count. The young held
    in one section are counted in the order in which they come.
    """

    def __init__(
        self, plan: Plan, runs: Sequence[Run], counts: Sequence[int], algebra: CountAlgebra, probe: Probe
    ) -> None:
        self.plan, self.brims = plan, plan.brims()
        self.sections = _sections(plan, runs)
        self._algebra, self._points = algebra, probe.points
        # Of those that fill up, one at least is not among the better ones, and where one has room it is not full.
        most = [
            sum(counts[herd] - 1 for herd in herds) if herds else 0
            for herds in ({fate.herd for fate in self._fates(runs, *section)} for section in self.sections)
        ]
        self.shape = (*(counts[herd] + 1 for herd in self.brims), *(m + 1 for m in most))
        self.size = math.prod(self.shape) * algebra.size
        if self.size > _MOST_WAYS:
            raise OutOfReach("a season's young can be held in too many ways")

    def nothing(self) -> Complex:
        """Where no egg is laid."""
        after = np.zeros((*self.shape, self._algebra.size, self._points), dtype=complex)
        after[(0,) * (len(self.shape) + 1)] = 1
        return after

    def weights(self, runs: Sequence[Run], biology: Biology, probe: Probe) -> Complex:
        """Worked out from the last egg to the first."""
        after = self.nothing()
        for place in reversed(range(len(runs))):
            for _ in range(runs[place].times):
                after = self.female(after, place, runs[place], biology, probe)
        return after

    def female(self, after: Complex, place: int, run: Run, biology: Biology, probe: Probe) -> Complex:
        """One female of a run more, before all that comes after her."""
        lost, steps, laid = clutch_total(biology.sizes, probe.egg), list(self._steps(place, run)), after
        for _ in range(biology.clutches):
            laid = self._clutch(laid, steps, biology, lost)
        lays = run.works * biology.lays
        return laid if lays == 1 else lays * laid + (1 - lays) * after

    def _clutch(self, after: Complex, steps: Sequence[_Step], biology: Biology, lost: Complex) -> Complex:
        laid = biology.sizes[-1] * after
        for chance in biology.sizes[:-1][::-1]:
            laid = self._egg(laid, steps)
            if chance:
                laid += chance * after
        told: Complex = (1 - biology.lost) * laid + biology.lost * lost * after
        return told

    def _egg(self, after: Complex, steps: Sequence[_Step]) -> Complex:
        out = np.empty_like(after)
        for step in steps:
            here = after[step.here]
            laid = self._algebra.multiply(here, step.missed)
            if step.held is not None:
                into = (slice(None),) * step.held
                laid[(*into, slice(1, None))] += here[(*into, slice(-1))]
            for source in step.last:
                laid += after[source]
            out[step.here] = laid
        return out

    def _steps(self, place: int, run: Run) -> list[_Step]:
        """One egg of a run, for every set of herds that may have been filled up in it."""
        here = [(axis, herd) for axis, herd in enumerate(self.brims) if herd in self.plan.brims(place)]
        return [self._step(place, run, list(zip(here, ended, strict=True))) for ended in _flags(len(here))]

    def _step(self, place: int, run: Run, ended: Sequence[tuple[tuple[int, int], bool]]) -> _Step:
        done = sum(1 << herd for (_, herd), full in ended if full)
        index: list[slice] = [slice(None)] * len(self.shape)
        for (axis, _), full in ended:
            index[axis] = slice(0, 1) if full else slice(1, None)
        missed, held, last = run.eggs.none, None, set[int]()
        for sort in run.eggs.sorts:
            fate = self.plan.fate(place, done, sort)
            if fate is None:
                missed = missed + sort.weight
            elif fate.last:
                last.add(self.brims.index(fate.herd))
            else:
                held = len(self.brims) + self.sections.index((place, done & self.plan.contested))
        sources = []
        for axis in sorted(last):
            source = list(index)
            source[axis] = slice(0, -1)
            sources.append(tuple(source))
        return _Step(tuple(index), missed, held, tuple(sources))

    def _fates(self, runs: Sequence[Run], place: int, section: int) -> list[Fate]:
        found: list[Fate] = []
        for done in self.plan.endings(place):
            if done & self.plan.contested == section:
                fates = [self.plan.fate(place, done, sort) for sort in runs[place].eggs.sorts]
                found += [fate for fate in fates if fate is not None and not fate.last]
        return found


class _Step(NamedTuple):
    here: tuple[slice, ...]
    missed: Complex
    held: int | None
    last: tuple[tuple[slice, ...], ...]


def _flags(count: int) -> list[tuple[bool, ...]]:
    return list(product((False, True), repeat=count))


def _sections(plan: Plan, runs: Sequence[Run]) -> list[tuple[int, int]]:
    """Every run and section in which any young is held other than to fill up a herd."""
    found: dict[tuple[int, int], None] = {}
    for place, run in enumerate(runs):
        for done in plan.endings(place):
            fates = [plan.fate(place, done, sort) for sort in run.eggs.sorts]
            if any(fate is not None and not fate.last for fate in fates):
                found[place, done & plan.contested] = None
    return list(found)
