"""Lower bounds for routes that hold young back, by the rule of `founders.py`.

What is surely paid has one thing more here: where the founders breed no more by the time that the young do, a run that
meets the goal from then on has kept one young at least from its first winter on.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from core.genetics.units import Floats
from core.plan.chances import chance
from core.plan.model import Forms, Plan
from core.search.candidate import Candidate
from core.search.founders import SLACK, paid_for
from core.search.lineage import Lineage, Table, picks
from core.search.odds import Odds
from core.search.stock import Kind, Stock

# Places for daughters, dams to get them from, and seasons the dams stay after their first.
MOST_DAUGHTERS, MOST_DAMS, MOST_STAY = 4, 3, 1
_EVER = 10_000


class Holding:
    """The bounds for one generation of young held back."""

    def __init__(self, plan: Plan, stock: Stock, odds: Sequence[Odds]) -> None:
        self.plan, self.stock = plan, stock
        self.tables = [Table(one) for one in odds]
        self.picks = picks(plan)
        self.goal, self.seasons = chance(plan.goal.chance), plan.goal.seasons
        self.matures = plan.species.matures
        self.load = plan.species.females_per_male
        self.house = np.inf if plan.goal.housing is None else plan.goal.housing

    @property
    def in_reach(self) -> bool:
        """Whether young can be told apart, so that there are bounds at all."""
        return all(table.is_small for table in self.tables)

    def candidates(self) -> Iterator[tuple[float, Candidate]]:
        """Every candidate with its bound, one pair of kinds after the other."""
        for m, sire in enumerate(self.stock.males):
            for f, dam in enumerate(self.stock.females):
                first = 1 + max(sire.ready_in, dam.ready_in)
                if first + min(self.matures.male, self.matures.female) <= self.seasons:
                    for drawn in self._founded(m, f, first):
                        yield from self._bred_on(drawn, first)

    def _founded(self, m: int, f: int, first: int) -> Iterator[Candidate]:
        """How many dams, and how long they stay."""
        dam = self.stock.females[f]
        numbers = (dam.most,) if dam.mine else range(1, min(dam.most, MOST_DAMS, self.load) + 1)
        for dams in numbers:
            for goes in (*range(first, min(first + MOST_STAY, self.seasons - 1) + 1), None):
                yield Candidate("back", m, f, many=dams, goes=goes)

    def _bred_on(self, drawn: Candidate, first: int) -> Iterator[tuple[float, Candidate]]:
        for pick in self.picks:
            yield from self._back(replace(drawn, pick=pick), first)
            if drawn.goes is not None:
                yield from self._second(replace(drawn, way="second male", pick=pick), first)
                for sons in (1, 2):
                    yield from self._together(replace(drawn, way="together", pick=pick, sons=sons), first)
            else:
                yield from self._son(replace(drawn, way="son", pick=pick, sons=1), first)

    def _lineages(self, drawn: Candidate, first: int) -> list[Lineage]:
        sire, dam = self._kinds(drawn)
        last = _EVER if drawn.goes is None else drawn.goes
        return [Lineage(self.plan, table, sire, dam, drawn.many, first, last) for table in self.tables]

    def _kinds(self, drawn: Candidate) -> tuple[Kind, Kind]:
        assert drawn.sire is not None
        assert drawn.dams is not None
        return self.stock.males[drawn.sire], self.stock.females[drawn.dams]

    def _first(self, drawn: Candidate) -> int:
        sire, dam = self._kinds(drawn)
        return 1 + max(sire.ready_in, dam.ready_in)

    def _places(self, drawn: Candidate, others: int, served: int) -> tuple[int, ...]:
        """Numbers of daughters: what the males serve, and what there is room for beside so many others."""
        first = drawn.many + 1
        # Dams that stay for a second season meet the young held in their first.
        beside = max(others, first) if drawn.goes is None or drawn.goes > self._first(drawn) else others
        most = min(MOST_DAUGHTERS, served, self.house - beside) if first <= self.house else 0
        return tuple(range(1, int(most) + 1))

    def _back(self, drawn: Candidate, first: int) -> Iterator[tuple[float, Candidate]]:
        places = self._places(drawn, 1, self.load - (drawn.many if drawn.goes is None else 0))
        start = first + self.matures.female
        if not places or start > self.seasons:
            return
        none = np.zeros(self.seasons)
        for line in self._lineages(drawn, first):
            own, barren = line.own(self.matures.female)
            by_sire = []
            for place, sire in enumerate(line.sires.states):
                each = line.daughters(sire, np.array([sire]), drawn.pick)
                if each is None:
                    return
                later = each[0, self._later(start)] ** places[-1]
                by_sire.append(barren[place] + (own[place] - barren[place]) * later)
            none = np.maximum(none, line.over_sires(np.array(by_sire)))
        yield from self._bounded(none, self._paid(drawn, None, start), drawn, places, start, self.matures.female)

    def _second(self, drawn: Candidate, first: int) -> Iterator[tuple[float, Candidate]]:
        start = first + self.matures.female
        places = self._places(drawn, 1, self.load)
        if not places or start > self.seasons:
            return
        males = np.concatenate([one.states for one in self.stock.males])
        none = np.zeros((len(self.stock.males), self.seasons))
        for line in self._lineages(drawn, first):
            own, barren = line.own(self.matures.female)
            works = line.table.odds.biology.works["male"]
            by_sire = []
            for place, sire in enumerate(line.sires.states):
                each = line.daughters(sire, males, drawn.pick)
                if each is None:
                    return
                later = 1 - works + works * self._by_male(each[:, self._later(start)] ** places[-1], line)
                by_sire.append(barren[place] + (own[place] - barren[place]) * later)
            none = np.maximum(none, np.array([line.over_sires(np.array(one)) for one in zip(*by_sire, strict=True)]))
        for second in range(len(self.stock.males)):
            if second != drawn.sire:
                paid = self._paid(drawn, self.stock.males[second], start)
                chosen = replace(drawn, second=second)
                yield from self._bounded(none[second], paid, chosen, places, start, self.matures.female)

    def _by_male(self, values: Floats, line: Lineage) -> Floats:
        """Over what each kind of second male may be: [genotypes, seasons] to [kinds, seasons]."""
        found, begin = [], 0
        for kind in self.stock.males:
            own = values[begin : begin + len(kind.states)]
            begin += len(kind.states)
            kin = kind.mine and (line.sires.mine or line.mothers.mine)
            found.append(own.min(axis=0) if kin else kind.weights @ own)
        return np.array(found)

    def _together(self, drawn: Candidate, first: int) -> Iterator[tuple[float, Candidate]]:
        start = first + max(self.matures.male, self.matures.female)
        places = self._places(drawn, drawn.sons, self.load * drawn.sons)
        if not places or start > self.seasons:
            return
        none = np.zeros(self.seasons)
        for line in self._lineages(drawn, first):
            own, barren = line.own(min(self.matures.male, self.matures.female))
            by_sire = []
            for place, sire in enumerate(line.sires.states):
                later = self._of_sons(line, int(sire), drawn, places[-1])
                if later is None:
                    return
                by_sire.append(barren[place] + (own[place] - barren[place]) * later[self._later(start)])
            none = np.maximum(none, line.over_sires(np.array(by_sire)))
        waits = self.matures.male, self.matures.female
        yield from self._bounded(none, self._paid(drawn, None, start), drawn, places, start, *waits)

    def _of_sons(self, line: Lineage, sire: int, drawn: Candidate, places: int) -> Floats | None:
        """Chance of none in so many seasons of sons with their sisters: [seasons bred + 1]; the better of two sons."""
        sons = line.sons(sire, drawn.pick)
        if not sons:
            return None
        able = np.nonzero(np.max(sons, axis=0))[0]
        each = line.daughters(sire, able, drawn.pick)
        if each is None:
            return None
        biology = line.table.odds.biology
        fit = biology.reaches * biology.works["male"]
        if drawn.sons == 1:
            return 1 - fit + fit * np.min([one[able] @ each**places for one in sons], axis=0)
        unfit = (1 - fit) ** drawn.sons
        return unfit + (1 - unfit) * (each**places).min(axis=0)

    def _son(self, drawn: Candidate, first: int) -> Iterator[tuple[float, Candidate]]:
        start = first + self.matures.male
        if start > self.seasons or drawn.many + 2 > self.house:
            return
        none = np.zeros(self.seasons)
        for line in self._lineages(drawn, first):
            by_sire = []
            for place, sire in enumerate(line.sires.states):
                sons = line.sons(int(sire), drawn.pick)
                if not sons:
                    return
                able = np.nonzero(np.max(sons, axis=0))[0]
                best = line.table.odds.among_all[np.ix_(able, line.mothers.states)].min(axis=0)
                by_sire.append(line.taken_over(start, best)[place])
            none = np.maximum(none, line.over_sires(np.array(by_sire)))
        numbers = (drawn.many,)
        yield from self._bounded(none, self._paid(drawn, None, start), drawn, numbers, start, self.matures.male)

    def _later(self, start: int) -> Floats:
        """Seasons that held young were bred in by the end of each: [seasons]."""
        return np.clip(np.arange(1, self.seasons + 1) - start + 1, 0, None)

    def _paid(self, drawn: Candidate, second: Kind | None, start: int) -> Floats:
        """What founders surely cost by the end of each season: [seasons]."""
        sire, dam = self._kinds(drawn)
        stays = np.minimum(np.arange(self.seasons), _EVER if drawn.goes is None else drawn.goes - 1)
        sires = paid_for(self.plan, sire)
        total = drawn.many * paid_for(self.plan, dam)[stays] + (sires if drawn.way in ("back", "son") else sires[stays])
        if second is not None:
            total = total + self._paid_later(second, start)
        return total + self.plan.costs.setup

    def _paid_later(self, kind: Kind, start: int) -> Floats:
        """What a male that comes as late as can be costs by the end of each season: [seasons]."""
        arrives = max(1, start - kind.ready_in)
        paid = paid_for(self.plan, kind)
        return np.concatenate([np.zeros(arrives - 1), paid[: self.seasons - arrives + 1]])

    def _bounded(
        self, none: Floats, paid: Floats, drawn: Candidate, counts: tuple[int, ...], start: int, *waits: int
    ) -> Iterator[tuple[float, Candidate]]:
        reached = np.nonzero(none <= 1 - self.goal + SLACK)[0]
        if not len(reached):
            return
        first = int(reached[0])
        money = float(paid[first])
        if drawn.goes is not None and drawn.goes < start <= first + 1:
            money += sum(self._keep_of_one(wait) for wait in waits)
        yield money, replace(drawn, counts=counts)

    def _keep_of_one(self, wait: int) -> float:
        costs = self.plan.costs
        return float(costs.keep_young) * (wait - 1) + float(costs.keep_adult)

