"""A season's step of the chain: how many are held already, to how many are held after it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import product

import numpy as np

from core.routes.exact.algebra import Complex, CountAlgebra
from core.routes.exact.chain.laid import Laid, Run
from core.routes.exact.chain.plans import FULL, Brim, HoldClass, Plan, order, plans
from core.routes.exact.chain.sorts import Sort

# Per held herd, how many were ever held and how many of those are fit to breed.
State = tuple[tuple[int, int], ...]
# (herd, sort, rank among the fit ones; None: not fit): an egg held so, with all that becomes of it.
Weigh = Callable[[int, Sort, int | None], Complex]
# (that fill up, held by section, fit, held) to weights.
Ways = dict[tuple[int | None, tuple[int, ...], int, int], Complex]


class Filler:
    """One season's young shared out, for one chain."""

    def __init__(
        self,
        algebra: CountAlgebra,
        counts: Sequence[int],
        runs: Sequence[Run],
        laid: Callable[[Plan], tuple[Laid, Complex]],
        weigh: Weigh,
        *,
        risky: bool,
    ) -> None:
        self._algebra, self._counts, self._runs = algebra, counts, runs
        self._laid, self._weigh, self._risky = laid, weigh, risky
        self._weights: dict[tuple[object, ...], Complex] = {}
        self._plans: dict[tuple[bool, ...], list[Plan]] = {}

    def filled(self, states: dict[State, Complex], closed: Sequence[bool]) -> dict[State, Complex]:
        """The states after the season; `closed`: herds that nothing is held for any more."""
        after: dict[State, Complex] = {}
        for state, weight in states.items():
            pairs = zip(state, self._counts, closed, strict=True)
            full = tuple(shut or held >= count for (held, _), count, shut in pairs)
            if full not in self._plans:
                self._plans[full] = plans([run.eggs.sorts for run in self._runs], full)
            for plan in self._plans[full]:
                for onward, part in self._ways(plan, state):
                    grown = self._algebra.multiply(weight, part)
                    after[onward] = after[onward] + grown if onward in after else grown
        return after

    def _ways(self, plan: Plan, state: State) -> Iterator[tuple[State, Complex]]:
        laid, weights = self._laid(plan)
        each = [self._herd_ways(plan, laid, herd, *own) for herd, own in enumerate(state)]
        for choice in product(*(ways.items() for ways in each)):
            last = tuple(key[0] for key, _ in choice if key[0] is not None)
            held = tuple(map(sum, zip(*(key[1] for key, _ in choice), strict=True)))
            part = weights[(*last, *held)]
            for _, weight in choice:
                part = self._algebra.multiply(weight, part)
            yield tuple((own[0] + k[3], own[1] + k[2]) for own, (k, _) in zip(state, choice, strict=True)), part

    def _herd_ways(self, plan: Plan, laid: Laid, herd: int, held: int, fit: int) -> Ways:
        one = self._algebra.one(1)
        nothing = (0,) * len(laid.sections)
        status = plan.statuses[herd]
        if status == FULL:
            return {(None, nothing, 0, 0): one}
        free = self._counts[herd] - held
        better, last = self._classes(plan, herd)
        so_far: dict[tuple[tuple[int, ...], int, int], Complex] = {(nothing, 0, 0): one}
        for kind, sorts in better:
            so_far = self._with_class(so_far, laid.sections.index(kind[1:]), sorts, (herd, fit, free))
        if not isinstance(status, Brim):
            return {(None, *key): weight for key, weight in so_far.items()}
        ways: Ways = {}
        for (sections, able, number), weight in so_far.items():
            ended = {able: weight}
            for _ in range(free - number):
                ended = self._one_more(ended, last, herd, fit)
            for grown, total in ended.items():
                key = free - number, sections, grown, free
                ways[key] = ways[key] + total if key in ways else total
        return ways

    def _with_class(
        self,
        so_far: dict[tuple[tuple[int, ...], int, int], Complex],
        axis: int,
        sorts: tuple[Sort, ...],
        place: tuple[int, int, int],
    ) -> dict[tuple[tuple[int, ...], int, int], Complex]:
        herd, fit, free = place
        out: dict[tuple[tuple[int, ...], int, int], Complex] = {}
        for (sections, able, number), weight in so_far.items():
            ended = {able: weight}
            for more in range(free - number):
                if more:
                    ended = {f: w / more for f, w in self._one_more(ended, sorts, herd, fit).items()}
                grown = (*sections[:axis], sections[axis] + more, *sections[axis + 1 :])
                for total, part in ended.items():
                    key = grown, total, number + more
                    out[key] = out[key] + part if key in out else part
        return out

    def _one_more(self, so_far: dict[int, Complex], sorts: tuple[Sort, ...], herd: int, fit: int) -> dict[int, Complex]:
        out: dict[int, Complex] = {}
        for able, weight in so_far.items():
            for rank, more in ((fit + able, 1), (None, 0)) if self._risky else ((fit + able, 1),):
                part = self._algebra.multiply(weight, self._weight(sorts, herd, rank))
                out[able + more] = out[able + more] + part if able + more in out else part
        return out

    def _weight(self, sorts: tuple[Sort, ...], herd: int, rank: int | None) -> Complex:
        """An egg held as one of these sorts, with what becomes of it."""
        key = tuple(map(id, sorts)), herd, rank
        if key not in self._weights:
            total: Complex = np.sum([self._weigh(herd, sort, rank) for sort in sorts], axis=0)
            self._weights[key] = total
        return self._weights[key]

    def _classes(self, plan: Plan, herd: int) -> tuple[list[tuple[HoldClass, tuple[Sort, ...]]], tuple[Sort, ...]]:
        """The classes a herd is filled from, best first, and the sorts that fill it up."""
        better: dict[HoldClass, dict[Sort, None]] = {}
        last: dict[Sort, None] = {}
        for place, run in enumerate(self._runs):
            for done in plan.endings(place):
                for sort in run.eggs.sorts:
                    fate = plan.fate(place, done, sort)
                    level = sort.levels[herd]
                    if fate is None or fate.herd != herd or level is None:
                        continue
                    if fate.last:
                        last[sort] = None
                    else:
                        better.setdefault((level, place, done & plan.contested), {})[sort] = None
        return [(kind, tuple(better[kind])) for kind in sorted(better, key=order)], tuple(last)
