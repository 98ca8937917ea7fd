"""What one pair of kinds gives in its own seasons and through its young: the pieces of the bounds for held young.

Places held back are never more than they are: each is filled at most once, is fit with at most `reaches`, and breeds
from the first season in which it could. An animal more, or a season more, never raises the chance of none; so with all
that can be held there from the first season on the chance of none is least. Where it hangs on what a mother carries,
the best case is taken.
"""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import dataclass, field, replace
from functools import cached_property
from itertools import product

import numpy as np

from core.genetics.units import Floats
from core.plan.model import Forms, Plan, Sex
from core.search.odds import Odds, joined
from core.search.stock import Kind, Places

# Powers of chances for every pair of genotypes are kept up to this many numbers.
MOST_KEPT = 12_000_000


class Table:
    """For one row: the chance of none in so many seasons, for all genotypes with all others; lineages share it."""

    def __init__(self, odds: Odds) -> None:
        self.odds, self.seasons = odds, odds.seasons
        self._missed: dict[tuple[int, int], float] = {}
        self._young: dict[tuple[int, int, Sex, tuple[tuple[str, str], ...]], tuple[Floats, float] | None] = {}
        self._seasons: dict[tuple[int, int, tuple[tuple[str, str], ...], int, bool], Floats] = {}

    @property
    def is_small(self) -> bool:
        """Whether young can be told apart at all."""
        return self.odds.genotypes**2 * (self.seasons + 1) <= MOST_KEPT

    @cached_property
    def powers(self) -> Floats:
        """Chance of none in so many seasons: [seasons + 1, males, females], over all genotypes."""
        return self.odds.among_all[None] ** np.arange(self.seasons + 1)[:, None, None]

    def young(self, sire: int, dam: int, sex: Sex, pick: Forms) -> tuple[Floats, float] | None:
        """`Odds.young`, kept."""
        key = sire, dam, sex, tuple(sorted(pick.items()))
        if key not in self._young:
            self._young[key] = self.odds.young(sire, dam, sex, pick)
        return self._young[key]

    def missed(self, sire: int, dam: int) -> float:
        """Chance that a season of a working pair gives none; kept."""
        if (sire, dam) not in self._missed:
            self._missed[sire, dam] = float(self.odds.missed(np.array(self._wanted(sire, dam))))
        return self._missed[sire, dam]

    def _wanted(self, sire: int, dam: int) -> float:
        return float(self.odds.per_egg(np.array([sire]), np.array([dam]))[0, 0])

    def reared(self, sire: int, dam: int, pick: Forms, most: int, *, sonless: bool) -> Floats:
        """So many seasons without a wanted young, by how many daughters can be held: [most + 1, seasons + 1].

        sonless: and without a son that can be held.
        """
        key = sire, dam, tuple(sorted(pick.items())), most, sonless
        if key not in self._seasons:
            young = self.young(sire, dam, "female", pick)
            missed = 1 - self._wanted(sire, dam)
            son = self.young(sire, dam, "male", pick) if sonless else None
            one = self.odds.reared(missed - (son[1] if son else 0.0), young[1] if young else 0.0, most)
            found = [np.append(np.eye(1, most)[0], 1.0)]
            for _ in range(self.seasons):
                found.append(joined(found[-1], one))
            self._seasons[key] = np.array(found).T
        return self._seasons[key]


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
    _known: dict[Hashable, Floats] = field(default_factory=dict, init=False)

    @cached_property
    def kin(self) -> bool:
        """Whether both are mine, and may hang together."""
        return self.sires.mine and self.mothers.mine

    @property
    def _seasons(self) -> Places:
        return np.arange(1, self.table.seasons + 1)

    def _bred(self, by: Places) -> Places:
        """Seasons the dams were bred in by the end of each: [seasons]."""
        return np.asarray(np.clip(np.minimum(by, self.last) - self.first + 1, 0, None))

    def own(self, wait: int) -> tuple[Floats, Floats]:
        """Chance of none among the dams' own young; and of that with no live young in time, `wait` seasons before.

        Both by the sire's genotype, given that he works, by the end of each season: [sire genotypes, seasons].
        """
        odds, seasons = self.table.odds, self._seasons
        missed = odds.missed(odds.per_egg(self.sires.states, self.mothers.states))
        bred, early = self._bred(seasons), self._bred(seasons - wait)
        none = missed[..., None] ** bred
        barren = odds.barren**early * missed[..., None] ** (bred - early)
        return self._over_dams(none), self._over_dams(barren.astype(np.float64))

    @cached_property
    def split(self) -> list[tuple[float, Lineage]]:
        """Where there is one dam, a lineage for each thing she may be, with its chance."""
        if self.dams > 1 or self.mothers.mine or len(self.mothers.states) == 1:
            return [(1.0, self)]
        one = np.ones(1)
        return [
            (float(weight), replace(self, mothers=replace(self.mothers, states=self.mothers.states[[i]], weights=one)))
            for i, weight in enumerate(self.mothers.weights)
        ]

    def reared(self, place: int, pick: Forms, wait: int, later: Floats, sons: int | None = None) -> Floats:
        """Chance of none at all where so many daughters held leave it at `later`: both [places + 1, ..., seasons].

        place: which of the sire's genotypes. Daughters that hatched `wait` seasons ago or earlier count. sons: the same
        for sons, without one of which the daughters have none.
        """
        if self.kin or (self.mothers.mine and self.mothers.most > 1):
            own, barren = (each[place] for each in self.own(wait))
            return np.asarray(barren * later[:1] + (own - barren) * later)
        found = self._over_numbers(self._numbers(place, pick, wait, len(later) - 1), later)
        if sons is None:
            return found
        sonless = self._numbers(place, pick, sons, len(later) - 1, sonless=True)
        return found + self._over_numbers(sonless, 1 - later)

    def _over_numbers(self, numbers: Floats, later: Floats) -> Floats:
        """The average of `later` with at most 0, 1, 2, … held: [places + 1, ..., seasons]."""
        apart = numbers.reshape(len(numbers), *(1,) * (later.ndim - 2), -1)
        fewer, total = apart[:-1], apart[-1]
        found: Floats = later * np.maximum(total - np.cumsum([np.zeros_like(total), *fewer], axis=0), 0.0)
        found[1:] += np.cumsum(fewer * later[:-1], axis=0)
        return found

    def _numbers(self, place: int, pick: Forms, wait: int, most: int, *, sonless: bool = False) -> Floats:
        """No wanted young, by how many daughters can be held in time: [most + 1, seasons], the last for all numbers.

        sonless: and no son in time. Kept: it is the same whomever the daughters are put to.
        """
        key = place, tuple(sorted(pick.items())), wait, most, sonless
        if key not in self._known:
            self._known[key] = self._work_out(place, pick, wait, most, sonless)
        return self._known[key]

    def _work_out(self, place: int, pick: Forms, wait: int, most: int, sonless: bool) -> Floats:
        odds, sire = self.table.odds, int(self.sires.states[place])
        bred, early = self._bred(self._seasons), self._bred(self._seasons - wait)
        one: Floats = np.zeros((most + 1, self.table.seasons))
        for dam, weight in zip(self.mothers.states, self.mothers.weights, strict=True):
            missed = self.table.missed(sire, int(dam))
            one += (
                weight
                * self.table.reared(sire, int(dam), pick, most, sonless=sonless)[:, early]
                * missed ** (bred - early)
            )
        works = odds.biology.works["female"]
        one = works * one
        one[[0, -1]] += 1 - works
        found = one
        for _ in range(self.dams - 1):
            found = joined(found, one)
        return found

    def taken_over(self, start: int, best: Floats) -> Floats:
        """Chance of none where each dam has the better of her male and `best` ([dam genotypes]) from a season on."""
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
        """Over what the sire may be, and whether he works: [sire genotypes, ...] to [...]."""
        works = self.table.odds.biology.works["male"]
        one = values.min(axis=0) if self.kin else np.tensordot(self.sires.weights, values, axes=1)
        found: Floats = 1 - works + works * one
        return found

    def daughters(self, sire: int, males: Places, pick: Forms) -> Floats | None:
        """A place for a daughter of this sire, put to males of these genotypes: [males, seasons bred + 1]; or None."""
        biology, found = self.table.odds.biology, []
        for dam in self.mothers.states:
            young = self.table.young(int(sire), int(dam), "female", pick)
            if young is not None:
                able = np.nonzero(young[0])[0]
                found.append(self.table.powers[:, males][:, :, able] @ young[0][able])
        if not found:
            return None
        fit = biology.reaches * biology.works["female"]
        least: Floats = 1 - fit + fit * np.min(found, axis=0).T
        return least

    def sons(self, sire: int, pick: Forms) -> list[Floats]:
        """What a son held back may be, by what his mother may be: each [genotypes]."""
        young = (self.table.young(int(sire), int(dam), "male", pick) for dam in self.mothers.states)
        return [one[0] for one in young if one is not None]

    def together(self, sire: int, pick: Forms, places: int) -> Floats | None:
        """Chance of none of a son with up to so many sisters: [places + 1, seasons bred + 1]; None: nothing to hold."""
        of_sons = self.sons(sire, pick)
        if not of_sons:
            return None
        able = np.nonzero(np.max(of_sons, axis=0))[0]
        one = self.daughters(sire, able, pick)
        if one is None:
            return None
        biology, numbers = self.table.odds.biology, np.arange(places + 1)[:, None, None]
        fit = biology.reaches * biology.works["male"]
        found: Floats = np.min([np.einsum("x,pxt->pt", each[able], one**numbers) for each in of_sons], axis=0)
        return 1 - fit + fit * found


def picks(plan: Plan) -> list[Forms]:
    """The conditions by which young may be held back: any, and every set of forms that a row wants."""
    found: dict[tuple[tuple[str, str], ...], None] = {(): None}
    for row in plan.goal.want:
        wanted = [(gene, form) for gene, form in sorted(row.forms.items()) if form != "normal"][:3]
        for chosen in product((False, True), repeat=len(wanted)):
            found.setdefault(tuple(one for one, taken in zip(wanted, chosen, strict=True) if taken))
    return [dict(one) for one in found]
