"""A season's step of the chain: how many are held already, to how many are held after it."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from itertools import product
from typing import NamedTuple

import numpy as np

from core.routes.exact.algebra import Complex, CountAlgebra
from core.routes.exact.chain.laid import Laid, Run
from core.routes.exact.chain.plans import FULL, Brim, HoldClass, Plan, order, plans
from core.routes.exact.chain.sorts import Sort

# Per held herd, how many were ever held and how many of those are fit to breed, as far as they are told apart.
State = tuple[tuple[int, int], ...]
# (herd, sort, rank among the fit ones; None: not fit): an egg held so, with all that becomes of it.
Weigh = Callable[[int, Sort, int | None], Complex]
# The classes a herd is filled from, best first, with their sorts; and the sorts that fill it up.
Classes = tuple[tuple[tuple[HoldClass, tuple[Sort, ...]], ...], tuple[Sort, ...]]
# Places in what is laid, with factors: (that fill up, held by section), factor.
Places = tuple[tuple[int | None, tuple[int, ...], float], ...]
# (held by section, fit, held) to all that becomes of them.
Held = dict[tuple[tuple[int, ...], int, int], Complex]


class Way(NamedTuple):
    """So many more of one herd fit and held; `weight`: all that becomes of them."""

    fit: int
    held: int
    weight: Complex
    places: Places


class Shares:
    """How the young of some runs may be shared out; good for every season that has such runs."""

    def __init__(self, runs: Sequence[Run], laid: Callable[[Plan], tuple[Laid, Complex]]) -> None:
        self.runs = runs
        self._lay = laid
        self._laid: dict[Plan, tuple[Laid, Complex]] = {}
        self._plans: dict[tuple[bool, ...], list[Plan]] = {}
        self._classes: dict[tuple[Plan, int], Classes] = {}

    def plans(self, full: tuple[bool, ...]) -> list[Plan]:
        """Every way to share them out, given which herds have no vacancy."""
        if full not in self._plans:
            self._plans[full] = plans([run.eggs.sorts for run in self.runs], full)
        return self._plans[full]

    def laid(self, plan: Plan) -> tuple[Laid, Complex]:
        """What is laid where they are shared out like this."""
        if plan not in self._laid:
            self._laid[plan] = self._lay(plan)
        return self._laid[plan]

    def classes(self, plan: Plan, herd: int) -> Classes:
        """The classes a herd is filled from, best first, and the sorts that fill it up."""
        if (plan, herd) not in self._classes:
            self._classes[plan, herd] = self._work_out(plan, herd)
        return self._classes[plan, herd]

    def _work_out(self, plan: Plan, herd: int) -> Classes:
        better: dict[HoldClass, dict[Sort, None]] = {}
        last: dict[Sort, None] = {}
        for place, run in enumerate(self.runs):
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
        return tuple((kind, tuple(better[kind])) for kind in sorted(better, key=order)), tuple(last)


class Filler:
    """One season's young shared out, for one chain."""

    def __init__(
        self, algebra: CountAlgebra, counts: Sequence[int], shares: Shares, weigh: Weigh, *, risky: bool
    ) -> None:
        self._algebra, self._counts, self._shares = algebra, counts, shares
        self._weigh, self._risky = weigh, risky
        self._weights: dict[tuple[tuple[Sort, ...], int, int | None], Complex] = {}
        self._known: dict[tuple[object, ...], list[Way]] = {}
        self._in_a_row: dict[tuple[tuple[Sort, ...], int, int], list[dict[int, Complex]]] = {}
        self._bound: Sequence[int | None] = ()
        self._ranks: Sequence[int] = ()
        self._nobody = algebra.one(1)

    def filled(
        self,
        states: dict[State, Complex],
        closed: Sequence[bool],
        bound: Sequence[int | None],
        ranks: Sequence[int],
    ) -> dict[State, Complex]:
        """The states after the season.

        closed: herds that nothing is held for any more. bound: per herd, how many must be fit then, where that is set.
        ranks: up to how many fit ones are told apart; more are counted no further.
        """
        self._bound, self._ranks = bound, ranks
        after: dict[State, Complex] = {}
        for state, weight in states.items():
            pairs = zip(state, self._counts, closed, strict=True)
            full = tuple(shut or held >= count for (held, _), count, shut in pairs)
            for plan in self._shares.plans(full):
                for onward, grown in self._grown(plan, state, weight):
                    after[onward] = after[onward] + grown if onward in after else grown
        return after

    def _grown(self, plan: Plan, state: State, weight: Complex) -> Iterator[tuple[State, Complex]]:
        laid, weights = self._shares.laid(plan)
        most, *others = sorted(
            ((herd, self._herd_ways(plan, laid, herd, *own)) for herd, own in enumerate(state)),
            key=lambda ways: -len(ways[1]),
        )
        for choice in product(*(ways for _, ways in others)):
            so_far, onward = weight, list(state)
            for (herd, _), way in zip(others, choice, strict=True):
                so_far = self._both(so_far, way.weight)
                onward[herd] = _with_way(state[herd], way)
            for way in most[1]:
                onward[most[0]] = _with_way(state[most[0]], way)
                order = {most[0]: way.places, **{herd: w.places for (herd, _), w in zip(others, choice, strict=True)}}
                part = self._both(way.weight, _laid_at(weights, [order[herd] for herd in range(len(state))]))
                yield tuple(onward), self._algebra.multiply(so_far, part)

    def _herd_ways(self, plan: Plan, laid: Laid, herd: int, held: int, fit: int) -> list[Way]:
        # What other herds do makes no difference but to what is left for this one.
        key = plan.statuses[herd], self._shares.classes(plan, herd), tuple(laid.sections), herd, held, fit
        if key not in self._known:
            ways, bound = self._any_ways(plan, laid, herd, held, fit), self._bound[herd]
            self._known[key] = [way for way in ways if bound is None or fit + way.fit == bound]
        return self._known[key]

    def _any_ways(self, plan: Plan, laid: Laid, herd: int, held: int, fit: int) -> list[Way]:
        status, nothing = plan.statuses[herd], (0,) * len(laid.sections)
        if status == FULL:
            return [Way(0, 0, self._nobody, ((None, nothing, 1.0),))]
        free = self._counts[herd] - held
        classes, last = self._shares.classes(plan, herd)
        better = [(laid.sections.index(kind[1:]), sorts) for kind, sorts in classes]
        # Those of the last class and those that fill up may be alike; they are then followed as one row.
        alike = better.pop()[0] if isinstance(status, Brim) and better and better[-1][1] == last else None
        so_far: Held = {(nothing, 0, 0): self._nobody}
        for axis, sorts in better:
            so_far = self._with_class(so_far, axis, sorts, (herd, fit, free))
        if isinstance(status, Brim):
            return self._filled_up(so_far, last, alike, (herd, fit, free))
        return [Way(able, number, w, ((None, sections, 1.0),)) for (sections, able, number), w in so_far.items()]

    def _filled_up(
        self, so_far: Held, last: tuple[Sort, ...], axis: int | None, place: tuple[int, int, int]
    ) -> list[Way]:
        """A herd filled up with these sorts; axis: the section of the class that is alike, if there is one."""
        herd, fit, free = place
        ways = []
        for (sections, able, number), weight in so_far.items():
            rest = free - number
            counts = range(rest) if axis is not None else (0,)
            places = tuple(
                (rest - more, _with_more(sections, axis, more), math.factorial(rest) / math.factorial(more))
                for more in counts
            )
            for grown, part in self._row(last, herd, fit + able, rest).items():
                ways.append(Way(able + grown, free, self._both(weight, part), places))
        return ways

    def _with_class(self, so_far: Held, axis: int, sorts: tuple[Sort, ...], place: tuple[int, int, int]) -> Held:
        herd, fit, free = place
        out: Held = {}
        for (sections, able, number), weight in so_far.items():
            for more in range(free - number):
                for grown, row in self._row(sorts, herd, fit + able, more).items():
                    key = _with_more(sections, axis, more), able + grown, number + more
                    part = self._both(weight, row)
                    out[key] = out[key] + part if key in out else part
        return out

    def _both(self, one: Complex, other: Complex) -> Complex:
        """The product of two weights."""
        if one is self._nobody:
            return other
        return one if other is self._nobody else self._algebra.multiply(one, other)

    def _row(self, sorts: tuple[Sort, ...], herd: int, fit: int, number: int) -> dict[int, Complex]:
        """So many held one after the other, in any order, when so many are fit already: by how many more will be."""
        rows = self._in_a_row.setdefault((sorts, herd, fit), [{0: self._nobody}])
        while len(rows) <= number:
            rows.append(
                {able: weight / len(rows) for able, weight in self._one_more(rows[-1], sorts, herd, fit).items()}
            )
        return rows[number]

    def _one_more(self, so_far: dict[int, Complex], sorts: tuple[Sort, ...], herd: int, fit: int) -> dict[int, Complex]:
        out: dict[int, Complex] = {}
        bound, ranks = self._bound[herd], self._ranks[herd]
        for able, weight in so_far.items():
            rank = fit + able
            if bound is None or rank < bound:
                part, more = self._both(weight, self._weight(sorts, herd, rank)), able + (rank < ranks)
                out[more] = out[more] + part if more in out else part
            if self._risky:
                part = self._both(weight, self._weight(sorts, herd, None))
                out[able] = out[able] + part if able in out else part
        return out

    def _weight(self, sorts: tuple[Sort, ...], herd: int, rank: int | None) -> Complex:
        """An egg held as one of these sorts, with what becomes of it."""
        key = sorts, herd, rank
        if key not in self._weights:
            total: Complex = np.sum([self._weigh(herd, sort, rank) for sort in sorts], axis=0)
            self._weights[key] = total
        return self._weights[key]


def _with_way(own: tuple[int, int], way: Way) -> tuple[int, int]:
    held, fit = own
    return held + way.held, fit + way.fit


def _with_more(sections: tuple[int, ...], axis: int | None, more: int) -> tuple[int, ...]:
    return sections if axis is None else (*sections[:axis], sections[axis] + more, *sections[axis + 1 :])


def _laid_at(weights: Complex, each: Sequence[Places]) -> Complex:
    """What is laid where every herd has one of its places, summed up."""
    total: Complex | None = None
    for choice in product(*each):
        last = tuple(place[0] for place in choice if place[0] is not None)
        held = tuple(map(sum, zip(*(place[1] for place in choice), strict=True)))
        factor = math.prod(place[2] for place in choice)
        part = weights[(*last, *held)] * factor if factor != 1 else weights[(*last, *held)]
        total = part if total is None else total + part
    assert total is not None
    return total
