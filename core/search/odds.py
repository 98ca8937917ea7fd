"""Chances that no wanted young comes, for every pair of genotypes at once; the pieces of every bound."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache, cached_property, reduce
from math import comb

import numpy as np
from numpy.typing import NDArray

from core.genetics.units import Floats, Unit
from core.plan.model import Forms, Plan, Sex, Want
from core.routes.prepare import biology
from core.search.stock import Places, Stock


class Odds:
    """For one row of the goal: what a working female gives with a working male, by the genotypes of both."""

    def __init__(self, plan: Plan, stock: Stock, row: Want) -> None:
        self._stock, self._row = stock, row
        self.biology = biology(plan.species)
        self.seasons = plan.goal.seasons
        self._units = stock.genetics.units
        self._fits = [unit.fits(row.forms, row.sex) & ~unit.lethal for unit in self._units]
        share = stock.genetics.female_share
        told = stock.genetics.sex_unit is not None or row.sex == "any"
        self._share = 1.0 if told else share if row.sex == "female" else 1 - share
        self._every: dict[str, Floats] = {}

    @property
    def genotypes(self) -> int:
        """How many genotypes there are over all units."""
        return int(np.prod(self._stock.sizes))

    def per_egg(self, males: Places, females: Places) -> Floats:
        """Chance that an egg, all losses but a whole clutch's counted, fits the row: [males, females]."""
        sires, dams = self._stock.parts(males), self._stock.parts(females)
        found = np.full((len(males), len(females)), self._share * self.biology.fertile * self.biology.hatches)
        for unit, fit, of_sires, of_dams in zip(self._units, self._fits, sires, dams, strict=True):
            found *= _table(unit, fit, of_sires, of_dams)
        return found

    def missed(self, per_egg: Floats) -> Floats:
        """Chance that a season of a working female gives none, by her chance an egg."""
        sizes, lost = self.biology.sizes, self.biology.lost
        clutch = lost + (1 - lost) * np.polynomial.polynomial.polyval(1 - per_egg, sizes)
        missed = 1 - self.biology.lays + self.biology.lays * clutch**self.biology.clutches
        return missed.astype(np.float64)

    @cached_property
    def among_all(self) -> Floats:
        """`missed` for every genotype with every other: [males, females]."""
        every = np.arange(self.genotypes)
        return self.missed(self.per_egg(every, every))

    @property
    def barren(self) -> float:
        """Chance that a season of a working female, with a working male, gives no live clutch at all."""
        hatching = (1 - self.biology.lost) * (1 - self.biology.sizes[0])
        return float(1 - self.biology.lays * (1 - (1 - hatching) ** self.biology.clutches))

    def young(self, sire: int, dam: int, sex: Sex, pick: Forms) -> tuple[Floats, float] | None:
        """What a young that is held back by this pick may be while the row is not filled, and the chance of one an egg.

        A young that fits the row fills it, or counts for it: as long as none has come, what is held does not fit it.
        Genotypes: [genotypes], sums to 1. None where there are no such young.
        """
        sires, dams = self._stock.parts(np.intp(sire)), self._stock.parts(np.intp(dam))
        parts, wanted = [], []
        for unit, fit, i, j in zip(self._units, self._fits, sires, dams, strict=True):
            live = unit.cross(int(i), int(j)) * (unit.fits(pick, sex) & ~unit.lethal)
            parts.append(live)
            wanted.append(live * fit)
        every = reduce(np.multiply.outer, parts, np.ones(1)).ravel()
        if self._row.sex in ("any", sex):
            every = every - reduce(np.multiply.outer, wanted, np.ones(1)).ravel()
        total = float(every.sum())
        if total <= 1e-15:
            return None
        share = self._stock.genetics.female_share if self._stock.genetics.sex_unit is None else 1.0
        of_sex = share if sex == "female" or self._stock.genetics.sex_unit is not None else 1 - share
        return np.maximum(every, 0.0) / total, total * of_sex * self.biology.fertile * self.biology.hatches

    def reared(self, missed: float, held: float, most: int) -> Floats:
        """A season of a working female in which none is wanted, by how many young of `held` an egg come: [most + 1].

        missed: chance that an egg is not wanted. The last entry is for all numbers together.
        """
        sizes, lost = self.biology.sizes, self.biology.lost
        eggs, number = np.arange(len(sizes)), np.arange(most)[:, None]
        ways = np.where(eggs >= number, _choose(len(sizes), most), 0.0)
        rest = max(missed - held, 0.0)
        clutch = np.append((ways * rest ** np.maximum(eggs - number, 0) * held**number) @ sizes, sizes @ missed**eggs)
        clutch = (1 - lost) * clutch
        clutch[[0, -1]] += lost
        season = clutch
        for _ in range(self.biology.clutches - 1):
            season = joined(season, clutch)
        season = self.biology.lays * season
        season[[0, -1]] += 1 - self.biology.lays
        return season


def joined(one: Floats, other: Floats) -> Floats:
    """Numbers of two independent parts added up: [numbers, ...], the last entry of each for all numbers together."""
    most = len(one) - 1
    out = np.zeros(np.broadcast_shapes(one.shape, other.shape))
    for number in range(most):
        out[number:most] += one[number] * other[: most - number]
    out[-1] = one[-1] * other[-1]
    return out


@cache
def _choose(sizes: int, most: int) -> Floats:
    return np.array([[comb(eggs, number) for eggs in range(sizes)] for number in range(most)], dtype=np.float64)


def _table(unit: Unit, fit: NDArray[np.bool_], sires: Places, dams: Places) -> Floats:
    """The chance that an egg fits the row as far as one unit has a say: [sires, dams]."""
    own, where = np.unique(sires, return_inverse=True)
    others, which = np.unique(dams, return_inverse=True)
    small = np.array(
        [[float(unit.cross(int(i), int(j)) @ fit) if _able(unit, i, j) else 0.0 for j in others] for i in own]
    )
    return small[where][:, which]


def _able(unit: Unit, sire: int, dam: int) -> bool:
    return unit.sex[sire] != "female" and unit.sex[dam] != "male"


def by_kind(values: Floats, weights: Sequence[Floats]) -> Floats:
    """Averages over the genotypes of each kind: [..., all genotypes, one kind after the other] to [..., kinds]."""
    starts = np.cumsum([0, *(len(each) for each in weights[:-1])])
    return np.add.reduceat(values * np.concatenate(weights), starts, axis=-1)
