"""A route made ready to be played or worked out: numbers in place of names, shared by both engines."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any, TypeVar

from core.genetics.young import Condition, Judge
from core.plan.model import Plan, Route, Sex
from core.routes.another import another
from core.routes.result import Floats

_Kept = TypeVar("_Kept")

# The true genotype of one animal: an index per linkage unit of the problem's genetics.
Genotype = tuple[int, ...]


@dataclass(frozen=True, eq=False)
class Biology:
    """The species' numbers, chances as floats; `sizes[n]` is the chance of a clutch of n eggs."""

    sizes: Floats
    clutches: int
    lays: float
    lost: float
    fertile: float
    hatches: float
    works: Mapping[Sex, float]
    reaches: float
    load: int
    matures: Mapping[Sex, int]


@dataclass(frozen=True)
class Herd:
    """One group of a route. Seasons count from 1; `ready` is None for held groups, whose young grow up apart."""

    index: int
    id: str
    sex: Sex
    count: int
    held: bool
    arrives: int
    ready: int | None
    until: int | None
    pays_keep: bool
    price: float
    # True genotypes one animal may have, each with its chance (not for held groups).
    prior: tuple[tuple[Genotype, float], ...] = ()
    # For named animals instead: which of `Problem.named` they are, in order.
    named: tuple[int, ...] = ()
    # For held groups: the pairings the young come from, and the bits of the conditions they are picked by, best first.
    sources: tuple[int, ...] = ()
    picks: tuple[int, ...] = ()

    def there(self, season: int) -> bool:
        """Whether the group's animals are on the place in this season (held ones: could be)."""
        return self.arrives <= season and (self.until is None or season <= self.until)


@dataclass(frozen=True)
class Pairing:
    """Group indices in the order tried, and the seasons in which the pairing is open."""

    id: str
    males: tuple[int, ...]
    females: tuple[int, ...]
    first: int
    last: int


@dataclass(frozen=True)
class Prices:
    """Costs of the plan and the route, in the plan's currency."""

    setup: float
    keep_adult: float
    keep_young: float
    per_egg: float
    per_young: float
    sold_share: float
    surplus: tuple[float, ...]


@dataclass(frozen=True, eq=False)
class Problem:
    """One route with its counts as drawn; `with_counts` gives the same route at other counts.

    The conditions judged on every young are, bit by bit: the goal's rows, then every pick, then the surplus rows.
    """

    plan: Plan
    route: Route
    judge: Judge
    biology: Biology
    prices: Prices
    conditions: tuple[Condition, ...]
    wanted: tuple[int, ...]
    herds: tuple[Herd, ...]
    pairings: tuple[Pairing, ...]
    horizon: int
    outright: int | None
    outright_price: float
    # My animals that any herd names, and what they may carry together: a genotype for each, with its chance.
    named: tuple[str, ...] = ()
    together: tuple[tuple[tuple[Genotype, ...], float], ...] = ()
    # Where that is too much to list, `together` is empty, and this is what each may carry by itself; see `crowded`.
    apart: tuple[tuple[tuple[Genotype, float], ...], ...] = ()
    # No more is paid where the goal is met, as far as that is known.
    most_told: float = math.inf
    _kept: dict[str, Any] = field(init=False, repr=False, default_factory=dict)

    def kept(self, key: str, work_out: Callable[[], _Kept]) -> _Kept:
        """Something that is the same whatever the counts, worked out once for all of them."""
        if key not in self._kept:
            self._kept[key] = work_out()
        found: _Kept = self._kept[key]
        return found

    @property
    def crowded(self) -> bool:
        """Whether named animals may carry too much together to be listed; such routes can only be played."""
        return bool(self.apart)

    @property
    def may_fail_twice(self) -> bool:
        """Whether a named animal of several herds may not work: in none of them then, so that they are not apart."""
        named = [(animal, herd.sex) for herd in self.herds for animal in herd.named]
        return any(0 < self.biology.works[sex] < 1 and named.count((animal, sex)) > 1 for animal, sex in named)

    @cached_property
    def breeding_seasons(self) -> int:
        """The last season in which anything can be bred."""
        return self.horizon if self.outright is None else self.outright - 1

    @cached_property
    def holds(self) -> bool:
        """Whether any young are held back."""
        return any(herd.held for herd in self.herds)

    def masks(self, sire: Genotype, dam: Genotype) -> Mapping[int, float]:
        """What a fertile egg of this pair fits: condition bits to chances; what is missing to 1 is lethal."""
        return self.judge.masks(sire, dam)

    def young(self, sire: Genotype, dam: Genotype) -> dict[tuple[int, Genotype], float]:
        """The same, told apart by the young's true genotype too."""
        return self.judge.genotypes(sire, dam)

    def price(self, mask: int) -> float:
        """What a surplus young with these condition bits could bring: the first surplus row that it fits."""
        first = len(self.conditions) - len(self.prices.surplus)
        for row, price in enumerate(self.prices.surplus):
            if mask >> (first + row) & 1:
                return price * self.prices.sold_share
        return 0.0

    def with_counts(self, groups: Sequence[str], count: int) -> Problem:
        """The same route with `count` animals in each of the named groups."""
        herds = [another(herd, count=count) if herd.id in groups else herd for herd in self.herds]
        return another(self, herds=tuple(herds))
