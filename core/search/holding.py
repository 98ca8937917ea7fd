"""Lower bounds for routes that hold young back, by the rule of `founders.py`.

Where the founders breed no more by the time that the young do, keep of young is surely paid too. Let U(h, s) be the
bound of the chance with h places, and C(s, h) what a run has surely paid that is met in season s having held h. With x
in hand only runs with C(s, h) <= x count; with h' the most that C(start, h) <= x allows, and s' the last season that
C(s, 1) <= x does, these are met by s' with no more than h' held, so that their chance is at most U(h', s'). So x is at
least the least over h of max(C(start, h), C(s, 1)), with s the first season in which U(h, s) reaches the chance.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from core.genetics.units import Floats
from core.plan.chances import chance
from core.plan.model import Plan
from core.search.candidate import Bounded, Candidate, grown
from core.search.founders import SLACK, meet, paid_for
from core.search.lineage import Lineage, Table, picks
from core.search.odds import Odds
from core.search.stock import Kind, Places, Stock

# Places for daughters, dams to get them from, and seasons the dams stay after their first.
MOST_DAUGHTERS, MOST_DAMS, MOST_STAY = 4, 2, 1
_EVER = 10_000
# The ways in which dams may leave.
_LEFT = ("back", "second male", "together")
# By lineage and genotype of the sire: chance of none by how many places are filled, [places + 1, ..., seasons].
Later = Callable[[Lineage, int], Floats | None]


class Holding:
    """The bounds for one generation of young held back."""

    def __init__(self, plan: Plan, stock: Stock, odds: Sequence[Odds]) -> None:
        self.plan, self.stock = plan, stock
        self.tables = [Table(one) for one in odds]
        self.picks = picks(plan)
        self._paid_by_kind: dict[tuple[int, int], Floats] = {}
        # Of one pair of kinds, by how many dams and how long they stay.
        self._lines: dict[tuple[int, int | None], list[Lineage]] = {}
        self.goal, self.seasons = chance(plan.goal.chance), plan.goal.seasons
        self.matures = plan.species.matures
        self.load = plan.species.females_per_male
        self.house = np.inf if plan.goal.housing is None else plan.goal.housing

    @property
    def in_reach(self) -> bool:
        """Whether young can be told apart, so that there are bounds at all."""
        return all(table.is_small for table in self.tables)

    def candidates(self) -> Iterator[Bounded | None]:
        """Every candidate with its bound, one pair of kinds after the other; None between the pairs."""
        for m, sire in enumerate(self.stock.males):
            for f, dam in enumerate(self.stock.females):
                yield None
                self._lines.clear()
                first = meet(sire, dam)
                if first + min(self.matures.male, self.matures.female) <= self.seasons:
                    for drawn in self._founded(m, f, first):
                        yield from self._bred_on(drawn, first)

    def lingering(self, one: Candidate) -> Iterator[Candidate]:
        """The same with dams, as many or one alone, that stay until their young are grown: longer than is looked at."""
        if one.way not in _LEFT:
            return
        (sire, dam), second = self._kinds(one), None
        first = meet(sire, dam)
        start = grown(self.matures, first, "brothers" if one.way == "together" else "sire")
        if one.second is not None:
            second = self.stock.males[one.second].comes(start)
        for dams in {one.many} if dam.mine else sorted({1, one.many}):
            longer = replace(one, many=dams, goes=start - 1)
            counts = self._places(longer, first, self.load, second)
            if start - 1 > first + MOST_STAY and counts:
                yield replace(longer, counts=counts)

    def _founded(self, m: int, f: int, first: int) -> Iterator[Candidate]:
        """How many dams, and how long they stay."""
        dam = self.stock.females[f]
        # What may be one thing or another, twice over, takes long to follow.
        most = MOST_DAMS if len(dam.states) == 1 else 1
        numbers = (dam.most,) if dam.mine else range(1 + dam.spared, min(dam.most, most, self.load) + 1)
        for dams in numbers:
            for goes in (*range(first, min(first + MOST_STAY, self.seasons) + 1), None):
                yield Candidate("back", m, f, many=dams, goes=goes)

    def _bred_on(self, drawn: Candidate, first: int) -> Iterator[Bounded]:
        for pick in self.picks:
            if drawn.goes != self.seasons:
                # Dams that stay to the end are those that never leave.
                yield from self._back(replace(drawn, pick=pick), first)
            if drawn.goes is not None:
                yield from self._second(replace(drawn, way="second male", pick=pick), first)
                yield from self._together(replace(drawn, way="together", pick=pick), first)
            else:
                yield from self._son(replace(drawn, way="son", pick=pick), first)

    def _lineages(self, drawn: Candidate, first: int) -> list[Lineage]:
        key = drawn.many, drawn.goes
        if key not in self._lines:
            sire, dam = self._kinds(drawn)
            last = _EVER if drawn.goes is None else drawn.goes
            self._lines[key] = [Lineage(self.plan, table, sire, dam, drawn.many, first, last) for table in self.tables]
        return self._lines[key]

    def _kinds(self, drawn: Candidate) -> tuple[Kind, Kind]:
        assert drawn.sire is not None
        assert drawn.dams is not None
        return self.stock.males[drawn.sire], self.stock.females[drawn.dams]

    def _places(self, drawn: Candidate, first: int, served: int, second: int | None = None) -> tuple[int, ...]:
        """Numbers of daughters: what the males serve, and what there is room for beside all others in every season.

        second: the season in which a second male comes.
        """
        if np.isinf(self.house):
            return tuple(range(1, min(MOST_DAUGHTERS, served) + 1))
        last = self.seasons if drawn.goes is None else drawn.goes
        seasons = np.arange(1, self.seasons + 1)
        sire = 1 if drawn.way == "back" else seasons <= last
        others = sire + drawn.many * (seasons <= last) + (0 if second is None else seasons >= second)
        held = seasons > first
        if drawn.way == "together":
            others = others + held
        if others.max() > self.house:
            return ()
        room = self.house - (others[held].max() if held.any() else 0)
        return tuple(range(1, int(min(MOST_DAUGHTERS, served, room)) + 1))

    def _back(self, drawn: Candidate, first: int) -> Iterator[Bounded]:
        places = self._places(drawn, first, self.load - (drawn.many if drawn.goes is None else 0))
        start = first + self.matures.female
        if not places or start > self.seasons:
            return

        def later(line: Lineage, sire: int) -> Floats | None:
            each = line.daughters(sire, np.array([sire]), drawn.pick)
            return None if each is None else self._filled(each[0, self._later(start)], places)

        none = self._none(drawn, first, later)
        if none is not None:
            yield from self._bounded(none, replace(drawn, counts=places), start)

    def _second(self, drawn: Candidate, first: int) -> Iterator[Bounded]:
        start = first + self.matures.female
        places = self._places(drawn, first, self.load)
        if not places or start > self.seasons:
            return
        males = np.concatenate([one.states for one in self.stock.males])

        def later(line: Lineage, sire: int) -> Floats | None:
            each = line.daughters(sire, males, drawn.pick)
            if each is None:
                return None
            works = line.table.odds.biology.works["male"]
            return 1 - works + works * self._by_male(self._filled(each[:, self._later(start)], places), line)

        none = self._none(drawn, first, later)
        if none is None:
            return
        for second in np.flatnonzero(self._reached(none).any(axis=(0, -1))).tolist():
            kind = self.stock.males[second]
            own = self._places(drawn, first, self.load, kind.comes(start))
            if second != drawn.sire and own:
                chosen = replace(drawn, second=second, counts=own)
                yield from self._bounded(none[: own[-1] + 1, second], chosen, start, kind)

    def _none(self, drawn: Candidate, first: int, later: Later) -> Floats | None:
        """Chance of none for the worst row: [places + 1, ..., seasons]; None where nothing can be held."""
        found: list[Floats] = []
        for line in self._lineages(drawn, first):
            parts = [
                (weight, part, [later(part, int(sire)) for sire in part.sires.states]) for weight, part in line.split
            ]
            known = next((one for _, _, by_sire in parts for one in by_sire if one is not None), None)
            if known is None:
                return None
            # A pair that gives nothing to hold has only its own young.
            nothing, waits = np.ones_like(known), self.matures.female
            sons = self.matures.male if drawn.way == "together" else None
            by_part = [
                weight * np.array([
                    part.reared(place, drawn.pick, waits, nothing if one is None else one, sons)
                    for place, one in enumerate(by_sire)
                ])
                for weight, part, by_sire in parts
            ]  # fmt: skip
            found.append(line.over_sires(np.add.reduce(by_part)))
        return np.asarray(np.max(found, axis=0))

    def _filled(self, each: Floats, places: tuple[int, ...]) -> Floats:
        """With no place filled, one, two, … up to all: [places + 1, ...]."""
        found: Floats = each[None] ** np.arange(places[-1] + 1).reshape(-1, *(1,) * each.ndim)
        return found

    def _by_male(self, values: Floats, line: Lineage) -> Floats:
        """Over what each kind of second male may be: [places, genotypes, seasons] to [places, kinds, seasons]."""
        found, begin = [], 0
        for kind in self.stock.males:
            own = values[:, begin : begin + len(kind.states)]
            begin += len(kind.states)
            kin = kind.mine and (line.sires.mine or line.mothers.mine)
            found.append(own.min(axis=1) if kin else np.einsum("g,pgs->ps", kind.weights, own))
        return np.array(found).swapaxes(0, 1)

    def _together(self, drawn: Candidate, first: int) -> Iterator[Bounded]:
        start = first + max(self.matures.male, self.matures.female)
        places = self._places(drawn, first, self.load)
        if not places or start > self.seasons:
            return

        def later(line: Lineage, sire: int) -> Floats | None:
            found = line.together(sire, drawn.pick, places[-1])
            return None if found is None else found[:, self._later(start)]

        none = self._none(drawn, first, later)
        if none is not None:
            yield from self._bounded(none, replace(drawn, counts=places), start)

    def _son(self, drawn: Candidate, first: int) -> Iterator[Bounded]:
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
        yield from self._bounded(none[None], replace(drawn, counts=(drawn.many,)), start)

    def _later(self, start: int) -> Places:
        """Seasons that held young were bred in by the end of each: [seasons]."""
        return np.clip(np.arange(1, self.seasons + 1) - start + 1, 0, None)

    def _paid(self, drawn: Candidate, second: Kind | None, start: int) -> Floats:
        """What founders surely cost by the end of each season: [seasons]."""
        sire, dam = self._kinds(drawn)
        stays = np.minimum(np.arange(self.seasons), _EVER if drawn.goes is None else drawn.goes - 1)
        first = meet(sire, dam)
        sires = self._paid_for(sire, first)
        total = drawn.many * self._paid_for(dam, first)[stays] + (
            sires if drawn.way in ("back", "son") else sires[stays]
        )
        if second is not None:
            total = total + self._paid_for(second, start)
        return total + self.plan.costs.setup

    def _paid_for(self, kind: Kind, breeds: int) -> Floats:
        if (id(kind), breeds) not in self._paid_by_kind:
            self._paid_by_kind[id(kind), breeds] = paid_for(self.plan, kind, breeds)
        return self._paid_by_kind[id(kind), breeds]

    def _reached(self, none: Floats) -> NDArray[np.bool_]:
        """Where the goal's chance may be reached."""
        return none <= 1 - self.goal + SLACK

    def _bounded(self, none: Floats, drawn: Candidate, start: int, second: Kind | None = None) -> Iterator[Bounded]:
        """The least over numbers held of what is then surely paid; none: [places + 1, seasons]."""
        reached = self._reached(none)
        able = np.flatnonzero(reached.any(axis=1)).tolist()
        if able:
            paid, seasons = self._paid(drawn, second, start), (np.argmax(reached, axis=1) + 1).tolist()
            money = min(self._at_least(paid, drawn, held, seasons[held], start) for held in able)
            season = min(seasons[held] for held in able)
            # Young held back change nothing before they breed: the founders alone get there by then.
            after = start if drawn.goes is not None and season >= drawn.goes else season + 1
            alone = season < start and after <= self.seasons
            yield Bounded(money, season, max(money, float(paid[after - 1])) if alone else money, drawn)

    def _at_least(self, paid: Floats, drawn: Candidate, held: int, season: int, start: int) -> float:
        """What is surely paid where so many held reach the chance in a season, the young's first being `start`."""
        if drawn.goes is None or drawn.goes >= start or season < start:
            return float(paid[season - 1])
        keep, wait = float(self.plan.costs.keep_young), self.matures.female
        more = (held - 1) * keep * min(wait - 1, start - drawn.goes)
        least = paid[season - 1] + self._kept(drawn, season), paid[start - 1] + self._kept(drawn, start) + more
        return float(max(least))

    def _kept(self, drawn: Candidate, season: int) -> float:
        """Keep by the end of a season of one daughter that breeds by then and, where sons are held, of one son."""
        costs, goes = self.plan.costs, drawn.goes or 0
        waits = [self.matures.female, *([self.matures.male] if drawn.way == "together" else [])]
        return sum(
            float(costs.keep_young) * (wait - 1) + float(costs.keep_adult) * max(1, season - goes - wait + 1)
            for wait in waits
        )
