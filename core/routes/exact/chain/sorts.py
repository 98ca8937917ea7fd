"""The young of a pair by all that is looked at: which held herds want them how much, and what they do for the goal."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from core.routes.exact.algebra import Complex, CountAlgebra
from core.routes.exact.brood import level_of
from core.routes.exact.clusters import States
from core.routes.exact.eggs import Probe
from core.routes.exact.filling import Founders
from core.routes.exact.states import Kinds
from core.routes.problem import Genotype, Herd, Problem


@dataclass(frozen=True, eq=False)
class Sort:
    """Young that are alike: per held herd their place in its preferences, their goal row, and what they may be.

    weight: of an egg that gives one, an element of the goal's counts; states: per held herd, what they are there.
    """

    levels: tuple[int | None, ...]
    row: int | None
    weight: Complex
    chance: float
    price: float
    states: tuple[States, ...]


@dataclass(frozen=True, eq=False)
class Eggs:
    """An egg of one pair: the sorts of young, the weight of no young at all, and whether some may count and be held.

    Of `every` sort, young that meet the goal fall out of `sorts`: nothing is held from then on.
    """

    every: tuple[Sort, ...]
    sorts: tuple[Sort, ...]
    none: Complex
    counted_and_held: bool


class Nest:
    """Works out the eggs of pairs for one way of counting the goal, at one set of points."""

    def __init__(
        self, problem: Problem, kinds: Kinds, rows: Sequence[int], algebra: CountAlgebra, probe: Probe
    ) -> None:
        self.algebra, self.probe = algebra, probe
        self.herds: tuple[Herd, ...] = tuple(herd for herd in problem.herds if herd.held)
        self._problem, self._kinds, self._rows = problem, kinds, tuple(rows)
        self._known: dict[tuple[int, int | None, int], Eggs] = {}

    def eggs(self, pair: Founders) -> Eggs:
        """The eggs of founders that work."""
        key = pair.pairing, pair.male, pair.female
        found = self._known.get(key)
        if found is None:
            found = self._known[key] = self._work_out(pair)
        return found

    def _work_out(self, pair: Founders) -> Eggs:
        problem, pairs, probe = self._problem, self._kinds.pairs, self.probe
        assert pair.male is not None
        hatch = problem.biology.fertile * problem.biology.hatches
        young: dict[tuple[tuple[int | None, ...], int | None], list[tuple[Genotype, float, float]]] = {}
        for (mask, genotype), weight in problem.young(pairs.males[pair.male], pairs.females[pair.female]).items():
            levels = tuple(level_of(h, mask) if pair.pairing in h.sources else None for h in self.herds)
            row = next((row for row in self._rows if mask >> row & 1), None)
            if hatch * weight > 0:
                young.setdefault((levels, row), []).append((genotype, hatch * weight, problem.price(mask)))
        sorts = tuple(self._sort(levels, row, alike) for (levels, row), alike in young.items())
        live = sum(sort.chance for sort in sorts)
        left = tuple(sort for sort in sorts if sort.weight.any())
        none = self.algebra.one(probe.points) * (probe.egg * (1 - live))
        both = any(sort.row is not None and any(level is not None for level in sort.levels) for sort in sorts)
        return Eggs(sorts, left, none, both)

    def _sort(
        self, levels: tuple[int | None, ...], row: int | None, alike: Sequence[tuple[Genotype, float, float]]
    ) -> Sort:
        chance = sum(weight for _, weight, _ in alike)
        price = sum(weight * price for _, weight, price in alike) / chance
        weight = self.probe.egg * self.probe.young * (chance + chance * price * self.probe.sale)
        one = self.algebra.one(self.probe.points)
        if row is None:
            element = one * weight
        else:
            nothing = np.zeros_like(weight)
            steps = [weight if step == self._rows.index(row) else nothing for step in range(len(self._rows))]
            element = self.algebra.lay(one, nothing, steps) if self.algebra.size > 1 else 0 * one
        shares = [(genotype, weight / chance) for genotype, weight, _ in alike]
        states = tuple(
            self._kinds.held_states(herd, shares) if level is not None else ()
            for herd, level in zip(self.herds, levels, strict=True)
        )
        return Sort(levels, row, element, chance, price, states)
