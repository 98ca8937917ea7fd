"""What one pair of kinds gives in its own seasons and through its young: the pieces of the bounds for held young.

Places held back are never more than they are: each is filled at most once, is fit with at most `reaches`, and breeds from
the first season in which it could. An animal more, or a season more, never raises the chance of none; so with every place
filled from the first season on the chance of none is least. Where it hangs on what a mother carries, the best case is taken.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from itertools import product

import numpy as np

from core.genetics.units import Floats
from core.plan.model import Forms, Plan, Sex
from core.search.odds import Odds
from core.search.stock import Kind

# Powers of chances for every pair of genotypes are kept up to this many numbers.
MOST_KEPT = 12_000_000


class Table:
    """For one row: the chance of none in so many seasons, for every genotype with every other; kept for all lineages."""

    def __init__(self, odds: Odds) -> None:
        self.odds, self.seasons = odds, odds.seasons
        self._young: dict[tuple[int, int, Sex, tuple[tuple[str, str], ...]], Floats | None] = {}

    @property
    def is_small(self) -> bool:
        """Whether young can be told apart at all."""
        return self.odds.genotypes**2 * (self.seasons + 1) <= MOST_KEPT

    @cached_property
    def powers(self) -> Floats:
        """Chance of none in so many seasons: [seasons + 1, males, females], over all genotypes."""
        return self.odds.among_all[None] ** np.arange(self.seasons + 1)[:, None, None]

    def young(self, sire: int, dam: int, sex: Sex, pick: Forms) -> Floats | None:
        """`Odds.young`, kept."""
        key = sire, dam, sex, tuple(sorted(pick.items()))
        if key not in self._young:
            self._young[key] = self.odds.young(sire, dam, sex, pick)
        return self._young[key]


@dataclass(frozen=True, eq=False)
class Lineage:
    """One kind of sires with one kind of dams, for one row of the goal.

    dams: how many; first, last: the seasons in which they breed.
    """

    plan: Plan
    table: Table
    sires: Kind
    mothers: Kind
    dams: int
    first: int
    last: int

    @cached_property
    def kin(self) -> bool:
        """Whether both are mine, and may hang together."""
        return self.sires.mine and self.mothers.mine

    @property
    def _seasons(self) -> Floats:
        return np.arange(1, self.table.seasons + 1)

    def _bred(self, by: Floats) -> Floats:
        """Seasons the dams were bred in by the end of each: [seasons]."""
        return np.clip(np.minimum(by, self.last) - self.first + 1, 0, None)

    def own(self, wait: int) -> tuple[Floats, Floats]:
        """Chance of none among the dams' own young, and that no live young came in time to be bred after `wait` seasons.

        Both by the sire's genotype, given that he works, by the end of each season: [sire genotypes, seasons]; the second
        counts only where the first holds.
        """
        odds, seasons = self.table.odds, self._seasons
        missed = odds.missed(odds.per_egg(self.sires.states, self.mothers.states))
        bred, early = self._bred(seasons), self._bred(seasons - wait)
        none = missed[..., None] ** bred
        barren = odds.barren**early * missed[..., None] ** (bred - early)
        return self._over_dams(none), self._over_dams(barren)

    def taken_over(self, start: int, best: Floats) -> Floats:
        """Chance of none where from season `start` on each dam has the better of her male and `best`: [dam genotypes]."""
        odds, seasons = self.table.odds, self._seasons
        missed = odds.missed(odds.per_egg(self.sires.states, self.mothers.states))
        before = self._bred(np.minimum(seasons, start - 1))
        after = self._bred(seasons) - before
        better = np.minimum(missed, best[None])
        return self._over_dams(missed[..., None] ** before * better[..., None] ** after)

    def _over_dams(self, values: Floats) -> Floats:
        """Over what the dams may be, and over all of them: [sires, dam genotypes, seasons] to [sires, seasons]."""
        works = self.table.odds.biology.works["female"]
        if self.kin or (self.mothers.mine and self.mothers.most > 1):
            one = values.min(axis=1)
        else:
            one = np.einsum("f,mfs->ms", self.mothers.weights, values)
        found: Floats = (1 - works + works * one) ** self.dams
        return found

    def over_sires(self, values: Floats) -> Floats:
        """Over what the sire may be, and whether he works: [sire genotypes, seasons] to [seasons]."""
        works = self.table.odds.biology.works["male"]
        one = values.min(axis=0) if self.kin else self.sires.weights @ values
        found: Floats = 1 - works + works * one
        return found

    def daughters(self, sire: int, males: Floats, pick: Forms) -> Floats | None:
        """One place for a daughter of this sire, put to males of these genotypes: [males, seasons bred + 1]; or None."""
        biology, found = self.table.odds.biology, []
        for dam in self.mothers.states:
            young = self.table.young(int(sire), int(dam), "female", pick)
            if young is not None:
                able = np.nonzero(young)[0]
                found.append(self.table.powers[:, males][:, :, able] @ young[able])
        if not found:
            return None
        fit = biology.reaches * biology.works["female"]
        least: Floats = 1 - fit + fit * np.min(found, axis=0).T
        return least

    def sons(self, sire: int, pick: Forms) -> list[Floats]:
        """What a son held back may be, by what his mother may be: each [genotypes]."""
        young = (self.table.young(int(sire), int(dam), "male", pick) for dam in self.mothers.states)
        return [one for one in young if one is not None]


def picks(plan: Plan) -> list[Forms]:
    """The conditions by which young may be held back: any, and every set of forms that a row wants."""
    found: dict[tuple[tuple[str, str], ...], None] = {(): None}
    for row in plan.goal.want:
        wanted = [(gene, form) for gene, form in sorted(row.forms.items()) if form != "normal"][:3]
        for chosen in product((False, True), repeat=len(wanted)):
            found.setdefault(tuple(one for one, taken in zip(wanted, chosen, strict=True) if taken))
    return [dict(one) for one in found]
