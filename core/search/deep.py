"""Routes of three generations: daughters back to the sire, and granddaughters back to him as well.

They are played, and nothing cheap bounds their chance well: the most promising are tried, with no claim on the rest.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from core.genetics.units import Floats
from core.plan.model import Forms, Plan
from core.search.candidate import Candidate
from core.search.founders import paid_for
from core.search.lineage import Table, picks
from core.search.odds import Odds
from core.search.stock import Kind, Places, Stock

# Tried at most, and the places for daughters and for granddaughters.
MOST_DEEP = 8
PLACES = (2, 4)


class Deep:
    """The most promising candidates of three generations."""

    def __init__(self, plan: Plan, stock: Stock, odds: Sequence[Odds]) -> None:
        self._plan, self._stock = plan, stock
        self._tables = [Table(one) for one in odds]
        self._picks = picks(plan)

    def candidates(self) -> Iterator[Candidate]:
        """The best of each pair of kinds, the most promising pairs first."""
        if not all(table.is_small for table in self._tables):
            return
        ranked: list[tuple[float, int, Candidate]] = []
        for m, sire in enumerate(self._stock.males):
            for f, dam in enumerate(self._stock.females):
                found = self._best(m, f, sire, dam)
                if found is not None:
                    ranked.append((found[0], len(ranked), found[1]))
        for _, _, candidate in sorted(ranked)[:MOST_DEEP]:
            yield candidate

    def _best(self, m: int, f: int, sire: Kind, dam: Kind) -> tuple[float, Candidate] | None:
        first = 1 + max(sire.ready_in, dam.ready_in)
        start, seasons = first + 2 * self._plan.species.matures.female, self._plan.goal.seasons
        house, load = self._plan.goal.housing, self._plan.species.females_per_male
        places = tuple(n for n in PLACES if n <= load and (house is None or n * 2 + 1 <= house))
        if start > seasons or not places or (dam.mine and dam.most > 1):
            return None
        chances = [(self._promise(sire, dam, one, later), n) for n, (one, later) in enumerate(self._pairs())]
        best, which = max(chances, key=lambda pair: (pair[0], -pair[1]))
        if best <= 0:
            return None
        one, later = self._pairs()[which]
        paid = float(paid_for(self._plan, sire)[start - 1] + paid_for(self._plan, dam)[first - 1])
        drawn = Candidate("back twice", m, f, counts=places, goes=first, pick=one, later=later)
        return paid / best, drawn

    def _pairs(self) -> list[tuple[Forms, Forms]]:
        """Daughters by one condition, granddaughters by one that asks no less."""
        return [(one, later) for one in self._picks for later in self._picks if one.items() <= later.items()]

    def _promise(self, sire: Kind, dam: Kind, one: Forms, later: Forms) -> float:
        """About the chance that a season of a granddaughter gives what is wanted, and that there is one at all."""
        least = 1.0
        for table in self._tables:
            daughters, some = self._young(table, sire, dam.states, dam.weights, one)
            able = np.nonzero(daughters)[0]
            young, more = self._young(table, sire, able, daughters[able], later)
            given = float(sire.weights @ (1 - table.powers[1][sire.states]) @ young)
            least = min(least, given * some * more)
        return least

    def _young(self, table: Table, sire: Kind, mothers: Places, weights: Floats, pick: Forms) -> tuple[Floats, float]:
        """What a young held back is, on average, and about the chance that a season gives one."""
        total, chance = np.zeros(table.odds.genotypes), 0.0
        for male, share in zip(sire.states, sire.weights, strict=True):
            for female, weight in zip(mothers, weights, strict=True):
                young = table.young(int(male), int(female), "female", pick)
                if young is not None:
                    total += share * weight * young[1] * young[0]
                    chance += share * weight * young[1]
        eggs = float(np.arange(len(table.odds.biology.sizes)) @ table.odds.biology.sizes)
        return (total / chance if chance else total), 1 - (1 - chance) ** eggs
