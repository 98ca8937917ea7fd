"""A season's step of the chain: how many are held already, to how many are held after it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import product
from typing import NamedTuple

from core.routes.exact.chain.laid import Laid
from core.routes.exact.chain.plans import FULL, Brim, Plan
from core.routes.exact.chain.recipe import Part, Place, Recipe
from core.routes.exact.chain.shares import Egg, Eggs, Places, Season, Shares, State, Step
from core.routes.exact.chain.sorts import Sort

# (held by section, fit, held) to the number of all that becomes of them.
Held = dict[tuple[tuple[int, ...], int, int], Place]


class Way(NamedTuple):
    """So many more of one herd fit and held; `weight`: the number of all that becomes of them."""

    fit: int
    held: int
    weight: Place


def step_of(shares: Shares, season: Season, states: Iterable[State]) -> Step:
    """What becomes of these states in a season. Raises OutOfReach where that takes too many products."""
    key = season, tuple(states)
    if key not in shares.steps:
        shares.steps[key] = Filler(shares, season).step(key[1])
    return shares.steps[key]


class Filler:
    """Works out how one season's young are shared out."""

    def __init__(self, shares: Shares, season: Season) -> None:
        self._shares, self._season = shares, season
        self._recipe = Recipe()
        self._after: dict[State, int] = {}
        # Products on the way from a state to another, by how many herds are done: put anew for each.
        self._between = [self._recipe.new() for _ in range(len(season.counts))]
        self._known: dict[tuple[object, ...], dict[Places, list[Way]]] = {}
        self._rows: dict[tuple[object, ...], Place] = {}

    def step(self, states: Sequence[State]) -> Step:
        """What becomes of these states."""
        for state in states:
            every = zip(state, self._season.counts, self._season.closed, strict=True)
            full = tuple(shut or held >= count for (held, _), count, shut in every)
            for plan in self._shares.plans(full):
                self._grow(plan, state)
        return Step(self._recipe, self._after)

    def _grow(self, plan: Plan, state: State) -> None:
        laid, _ = self._shares.laid(plan)
        each = [self._herd_ways(plan, laid, herd, *own) for herd, own in enumerate(state)]
        # The herd that has most ways comes last: what the others do is worked out once for all of them.
        herds = sorted(range(len(state)), key=lambda herd: sum(map(len, each[herd].values())))
        for places in product(*each):
            self._recipe.put(
                self._between[0],
                self._recipe.given(state),
                self._recipe.given(Eggs(plan, places)),
                adds=False,
            )
            ways = [(herd, each[herd][places[herd]]) for herd in herds]
            self._go_on(ways, state, self._between[0])

    def _go_on(self, ways: Sequence[tuple[int, list[Way]]], state: State, so_far: int) -> None:
        """Adds what becomes of the next herds to the states after the season."""
        (herd, own), *rest = ways
        for way in own:
            held, fit = state[herd]
            onward = (*state[:herd], (held + way.held, fit + way.fit), *state[herd + 1 :])
            if rest:
                between = self._between[len(self._between) - len(rest)]
                if way.weight is not None:
                    self._recipe.put(between, so_far, way.weight, adds=False)
                self._go_on(rest, onward, so_far if way.weight is None else between)
            else:
                adds = onward in self._after
                out = self._after[onward] if adds else self._after.setdefault(onward, self._recipe.new())
                self._recipe.put(out, so_far, way.weight, adds=adds)

    def _herd_ways(self, plan: Plan, laid: Laid, herd: int, held: int, fit: int) -> dict[Places, list[Way]]:
        # What other herds do makes no difference but to what is left for this one.
        key = plan.statuses[herd], self._shares.classes(plan, herd), tuple(laid.sections), herd, held, fit
        if key not in self._known:
            parts: dict[Places, dict[tuple[int, int], list[Part]]] = {}
            for places, more, part in self._any_ways(plan, laid, herd, held, fit):
                if self._may_be(herd, held + more[1], fit + more[0]):
                    parts.setdefault(places, {}).setdefault(more, []).append(part)
            self._known[key] = {
                places: [Way(*more, self._recipe.total(each)) for more, each in own.items()]
                for places, own in parts.items()
            }
        return self._known[key]

    def _may_be(self, herd: int, held: int, fit: int) -> bool:
        """Whether so many may be held and fit after the season."""
        bound, count = self._season.bound[herd], self._season.counts[herd]
        may_come = bound is None or count - held >= self._season.members[herd] - fit
        return fit >= self._season.least[herd] and may_come

    def _any_ways(
        self, plan: Plan, laid: Laid, herd: int, held: int, fit: int
    ) -> Iterator[tuple[Places, tuple[int, int], Part]]:
        """Where they are in what is laid, how many more are fit and held, and a part of what becomes of them."""
        status, nothing = plan.statuses[herd], (0,) * len(laid.sections)
        if status == FULL:
            yield ((None, nothing, 1.0),), (0, 0), (None, None)
            return
        free = self._season.counts[herd] - held
        classes, last = self._shares.classes(plan, herd)
        better = [(laid.sections.index(kind[1:]), sorts) for kind, sorts in classes]
        # Those of the last class and those that fill up may be alike; they are then followed as one row.
        alike = better.pop()[0] if isinstance(status, Brim) and better and better[-1][1] == last else None
        so_far: Held = {(nothing, 0, 0): None}
        for axis, sorts in better:
            so_far = self._with_class(so_far, axis, sorts, (herd, fit, free))
        if isinstance(status, Brim):
            yield from self._filled_up(so_far, last, alike, (herd, fit, free))
            return
        for (sections, able, number), weight in so_far.items():
            yield ((None, sections, 1.0),), (able, number), (weight, None)

    def _filled_up(
        self, so_far: Held, last: tuple[Sort, ...], axis: int | None, place: tuple[int, int, int]
    ) -> Iterator[tuple[Places, tuple[int, int], Part]]:
        """A herd filled up with these sorts; axis: the section of the class that is alike, if there is one."""
        herd, fit, free = place
        for (sections, able, number), weight in so_far.items():
            rest = free - number
            counts = range(rest) if axis is not None else (0,)
            places = tuple(
                (rest - more, _with_more(sections, axis, more), math.factorial(rest) / math.factorial(more))
                for more in counts
            )
            for grown, part in self._row(last, herd, fit + able, rest):
                yield places, (able + grown, free), (weight, part)

    def _with_class(self, so_far: Held, axis: int, sorts: tuple[Sort, ...], place: tuple[int, int, int]) -> Held:
        herd, fit, free = place
        parts: dict[tuple[tuple[int, ...], int, int], list[Part]] = {}
        for (sections, able, number), weight in so_far.items():
            for more in range(free - number):
                for grown, row in self._row(sorts, herd, fit + able, more):
                    key = _with_more(sections, axis, more), able + grown, number + more
                    parts.setdefault(key, []).append((weight, row))
        return {key: self._recipe.total(own) for key, own in parts.items()}

    def _row(self, sorts: tuple[Sort, ...], herd: int, fit: int, number: int) -> Iterator[tuple[int, Place]]:
        """So many held one after the other, in any order, when so many are fit already: by how many more will be."""
        for able in self._ables(herd, fit, number):
            yield able, self._in_a_row(sorts, herd, fit, number, able)

    def _ables(self, herd: int, fit: int, number: int) -> range:
        """How many of so many may be fit, as far as they are told apart."""
        bound, most = self._season.bound[herd], max(self._season.ranks[herd] - fit, 0)
        left = number if bound is None else bound - fit
        if self._season.risky:
            return range(min(number, most, left) + 1)
        return range(min(number, most), min(number, most) + (number <= left))

    def _in_a_row(self, sorts: tuple[Sort, ...], herd: int, fit: int, number: int, able: int) -> Place:
        if not number:
            return None
        alike, most = self._season.alike[herd], self._season.ranks[herd]
        # Only what those that are held are told apart by makes a difference, not how many came before them.
        told = alike[fit : fit + able], alike[fit + able] if fit + able >= most else None
        key = sorts, herd, number, able, told
        if key not in self._rows:
            self._rows[key] = self._recipe.total(list(self._one_more(sorts, herd, fit, number, able)))
        return self._rows[key]

    def _one_more(self, sorts: tuple[Sort, ...], herd: int, fit: int, number: int, able: int) -> Iterator[Part]:
        """The last of them: one fit more, or one of those that are alike, or one that is not fit."""
        most, bound = self._season.ranks[herd], self._season.bound[herd]
        every: list[tuple[int, int | None]] = [(able - 1, self._season.alike[herd][fit + able - 1])] if able else []
        if fit + able >= most and (bound is None or fit + able < bound):
            every.append((able, self._season.alike[herd][fit + able]))
        if self._season.risky:
            every.append((able, None))
        for before, rank in every:
            if before in self._ables(herd, fit, number - 1):
                egg = self._recipe.given(Egg(sorts, herd, rank, number))
                yield self._in_a_row(sorts, herd, fit, number - 1, before), egg


def _with_more(sections: tuple[int, ...], axis: int | None, more: int) -> tuple[int, ...]:
    return sections if axis is None else (*sections[:axis], sections[axis] + more, *sections[axis + 1 :])
