"""About what a line of three generations promises, for one pair of founders and one row of the goal."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from core.genetics.units import Floats
from core.plan.model import Forms, Sex
from core.search.candidate import Mate, Mates
from core.search.lineage import Table
from core.search.stock import Kind, Places

_SEXES: tuple[Sex, Sex] = ("male", "female")


class Line(NamedTuple):
    """What an animal may be: genotypes, each with its chance; and about the chance that there is one at all."""

    states: Places
    weights: Floats
    chance: float


# Males and females of one generation.
Brood = tuple[Line, Line]


class Descent:
    """A pair's young, and the young of their daughters: averages, with no claim to be bounds."""

    def __init__(self, table: Table, sire: Kind, dam: Kind) -> None:
        self._table = table
        self._sire, self._dam = of_kind(sire), of_kind(dam)
        sizes = table.odds.biology.sizes
        self._eggs = float(np.arange(len(sizes)) @ sizes)
        self._broods: dict[tuple[object, ...], Brood] = {}

    def promise(self, held: tuple[Forms, Forms], mates: Mates, second: Line | None, seasons: tuple[int, int]) -> float:
        """About the chance that a season of a granddaughter gives what is wanted, and that there is one at all.

        held: by which daughters, and granddaughters, are held back; mates: whom they are put to; seasons: for how many
        their dams are bred.
        """
        (pick, later), (by, then) = held, mates
        sons, daughters = self._brood((seasons[0],), self._sire, self._dam, pick)
        mate = self._mate(by, sons, second)
        key = (seasons[1], by, id(second) if by == "second male" else None, tuple(sorted(pick.items())))
        grandsons, granddaughters = self._brood(key, mate, daughters, later)
        last = self._mate(then, grandsons, second)
        chance = mate.chance * daughters.chance * last.chance * granddaughters.chance
        if not chance:
            return 0.0
        missed = self._table.odds.among_all[np.ix_(last.states, granddaughters.states)]
        return chance * float(last.weights @ (1 - missed) @ granddaughters.weights)

    def _mate(self, whom: Mate, brothers: Line, second: Line | None) -> Line:
        if whom == "brothers":
            return brothers
        if whom == "sire":
            return self._sire
        assert second is not None
        return second

    def _brood(self, key: tuple[int, *tuple[object, ...]], males: Line, females: Line, pick: Forms) -> Brood:
        whole = (*key, tuple(sorted(pick.items())))
        if whole not in self._broods:
            one, other = (self._young(males, females, sex, pick, key[0]) for sex in _SEXES)
            self._broods[whole] = one, other
        return self._broods[whole]

    def _young(self, males: Line, females: Line, sex: Sex, pick: Forms, seasons: int) -> Line:
        """What a young held back is, on average."""
        total, chance = np.zeros(self._table.odds.genotypes), 0.0
        for male, share in zip(males.states, males.weights, strict=True):
            for female, weight in zip(females.states, females.weights, strict=True):
                young = self._table.young(int(male), int(female), sex, pick)
                if young is not None:
                    total += share * weight * young[1] * young[0]
                    chance += share * weight * young[1]
        states = np.nonzero(total)[0]
        weights = total[states] / chance if chance else total[states]
        return Line(states, weights, float(1 - (1 - chance) ** (self._eggs * seasons)))


def of_kind(kind: Kind) -> Line:
    """A founder, who is there."""
    return Line(kind.states, kind.weights, 1.0)
