"""How the young of some runs may be shared out, and what a season's step takes from that."""

from __future__ import annotations

import math
from collections.abc import Callable, Hashable, Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from typing import NamedTuple

from core.routes.exact.algebra import Complex, CountAlgebra
from core.routes.exact.chain.laid import Laid, Run
from core.routes.exact.chain.plans import HoldClass, Plan, order, plans
from core.routes.exact.chain.recipe import Recipe
from core.routes.exact.chain.sorts import Sort

# Per held herd, how many were ever held and how many of those are fit to breed, as far as they are told apart.
State = tuple[tuple[int, int], ...]
# (herd, sorts, rank among the fit ones; None: not fit): an egg held so as one of them, with all that becomes of it.
Weigh = Callable[[int, tuple[Sort, ...], int | None], Complex]
# The classes a herd is filled from, best first, with their sorts; and the sorts that fill it up.
Classes = tuple[tuple[tuple[HoldClass, tuple[Sort, ...]], ...], tuple[Sort, ...]]
# Places in what is laid, with factors: (that fill up, held by section), factor.
Places = tuple[tuple[int | None, tuple[int, ...], float], ...]


class Season(NamedTuple):
    """What a season's step depends on besides the weights: per held herd, the following.

    counts: how many are held at most. closed: nothing is held any more. bound: how many may be fit afterwards, where
    that is set, and `least` how many must be, `members` in the end. ranks: up to how many fit ones are told apart, more
    are counted no further; alike: for each rank the first one with the same males. risky: held ones may
    not be fit.
    """

    counts: tuple[int, ...]
    closed: tuple[bool, ...]
    least: tuple[int, ...]
    bound: tuple[int | None, ...]
    members: tuple[int, ...]
    ranks: tuple[int, ...]
    alike: tuple[tuple[int, ...], ...]
    risky: bool


class Egg(NamedTuple):
    """An egg held as one of these sorts, with what becomes of it: the last of so many that may be in any order."""

    sorts: tuple[Sort, ...]
    herd: int
    rank: int | None
    of: int


class Eggs(NamedTuple):
    """What is laid where every herd has one of its places, summed up."""

    plan: Plan
    each: tuple[Places, ...]


@dataclass(frozen=True, eq=False)
class Step:
    """A season's step worked out but for its numbers: the states after it by their number in the recipe."""

    recipe: Recipe
    after: dict[State, int]


class Shares:
    """How the young of some runs may be shared out; good for every season that has such runs."""

    def __init__(self, runs: Sequence[Run], laid: Callable[[Plan], tuple[Laid, Complex]]) -> None:
        self.runs = runs
        self._lay = laid
        self._laid: dict[Plan, tuple[Laid, Complex]] = {}
        self._plans: dict[tuple[bool, ...], list[Plan]] = {}
        self._classes: dict[tuple[Plan, int], Classes] = {}
        self.steps: dict[tuple[Season, tuple[State, ...]], Step] = {}

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

    def filled(
        self, step: Step, states: Mapping[State, Complex], algebra: CountAlgebra, weigh: Weigh
    ) -> dict[State, Complex]:
        """The states after a season, with their weights."""
        given: dict[Hashable, Complex] = dict(states.items())
        known: dict[tuple[object, ...], Complex] = {}
        for key in step.recipe.told:
            if isinstance(key, Egg):
                own = key.herd, key.sorts, key.rank
                if own not in known:
                    known[own] = weigh(*own)
                given[key] = known[own] if key.of == 1 else known[own] * (1 / key.of)
            elif isinstance(key, Eggs):
                given[key] = _laid_at(self.laid(key.plan)[1], key.each)
        found = step.recipe.follow(algebra, given)
        return {state: found[number] for state, number in step.after.items()}


def _laid_at(weights: Complex, each: Sequence[Places]) -> Complex:
    """What is laid where every herd has one of its places, summed up; those held in a section come in any order."""
    total: Complex | None = None
    for choice in product(*each):
        last = tuple(place[0] for place in choice if place[0] is not None)
        held = tuple(map(sum, zip(*(place[1] for place in choice), strict=True)))
        factor = math.prod(place[2] for place in choice) * math.prod(map(math.factorial, held))
        part = weights[(*last, *held)] * factor if factor != 1 else weights[(*last, *held)]
        total = part if total is None else total + part
    assert total is not None
    return total
