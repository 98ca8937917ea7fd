"""Lower bounds for routes that hold nothing back.

The bound of money. Let U(s) be no less than the chance that the goal is met by the end of season s, and F(s) what is
surely paid by the end of season s: setup, prices, keep of founders. Money x is enough when the goal is met with at most
x paid in at least `chance` of all runs. If U(s - 1) < chance, some of these runs are met in season s or later, and have
paid F(s) by then, so that x >= F(s). With s the first season in which U(s) reaches the chance, F(s) is the bound. A
route that buys outright in season b is met by then in every run: if U(b - 1) < chance, some of the runs bought it, and
have paid F(b - 1) and its price.

U here is the chance that one row of the goal gets at least one young, the least over rows: every row must get one. For
one row it is exact where no animals are mine: females are independent given the true genotype of their male. Animals of
mine may be kin; of those that are together the best case is taken.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property

import numpy as np

from core.genetics.units import Floats
from core.plan.chances import chance
from core.plan.model import Plan
from core.search.candidate import Bounded, Candidate
from core.search.odds import Odds, by_kind
from core.search.stock import MOST_FEMALES, Kind, Places, Stock

# Sums that are equal but for rounding.
SLACK = 1e-9


class Founders:
    """The bounds for males and females bred straight together; there must be some of each."""

    def __init__(self, plan: Plan, stock: Stock, odds: Sequence[Odds]) -> None:
        self.plan, self.stock, self.odds = plan, stock, odds
        self.goal, self.seasons = chance(plan.goal.chance), plan.goal.seasons
        self.load = plan.species.females_per_male
        self.house = np.inf if plan.goal.housing is None else plan.goal.housing
        # What each animal surely costs by the end of each season, bought for these mates: [seasons, males, females].
        self.paid_males = np.array([[paid_for(plan, m, meet(m, f)) for f in stock.females] for m in stock.males])
        self.paid_females = np.array([[paid_for(plan, f, meet(m, f)) for f in stock.females] for m in stock.males])
        self.paid_males, self.paid_females = (np.moveaxis(one, -1, 0) for one in (self.paid_males, self.paid_females))
        self._bounds: dict[tuple[int, int, int | None], Floats] = {}
        self._both_mine = np.logical_and.outer([m.mine for m in stock.males], [f.mine for f in stock.females])

    def counts(self, dams: int, sires: int = 1, beside: int = 0) -> tuple[int, ...]:
        """How many of a kind of dams there can be with so many sires, where `beside` others are there."""
        kind, first = self.stock.females[dams], 1 if sires == 1 else self.load + 1
        most = int(min(kind.most, self.load * sires - beside, MOST_FEMALES - beside, self.house - sires - beside))
        if kind.mine:
            return (kind.most,) if first <= kind.most <= most else ()
        return tuple(range(max(first, kind.spared + 1), most + 1))

    def straight(self) -> Iterator[Bounded]:
        """One kind of dams; one sire or, for more than he can serve, two."""
        for sires in (1, 2):
            counts = [self.counts(f, sires) for f in range(len(self.stock.females))]
            for bound, (m, f) in _finite(self._one_kind(counts, sires)):
                yield _plain(bound, Candidate("straight", m, f, counts=counts[f], many=sires))

    def then_buy(self) -> Iterator[Bounded]:
        """One kind of dams, then buying."""
        goal, counts = self.plan.goal, [self.counts(f) for f in range(len(self.stock.females))]
        if goal.outright_price is None:
            return
        for season in range(2, self.seasons + 1):
            for bound, (m, f) in _finite(self._one_kind(counts, 1, season)):
                if meet(self.stock.males[m], self.stock.females[f]) >= season:
                    # They would not have bred yet.
                    continue
                yield _plain(bound, Candidate("then buy", m, f, counts=counts[f], buy=season))

    def two_kinds(self) -> Iterator[Bounded]:
        """Two kinds of dams: one at all its counts, the other, listed after it or mine, at a fixed count."""
        for others in range(1, min(self.load, MOST_FEMALES)):
            counts = [self.counts(f, beside=others) for f in range(len(self.stock.females))]
            bounds = self._two_kinds(counts, others)
            for bound, (m, f, other) in _finite(bounds):
                chosen = tuple(n for n in counts[f] if self._beside(f, n, other, others))
                yield _plain(bound, Candidate("straight", m, f, other, counts=chosen, others=others))

    def closest(self, most: int) -> Iterator[Candidate]:
        """Of one kind of dams those that come closest to the goal, whatever they cost."""
        counts = [self.counts(f) for f in range(len(self.stock.females))]
        able = [(m, f) for m in range(len(self.stock.males)) for f, each in enumerate(counts) if each]
        none = {n: self.none(1, n)[-1] for n in {each[-1] for each in counts if each}}
        ranked = sorted(able, key=lambda pair: float(none[counts[pair[1]][-1]][pair]))
        for m, f in ranked[:most]:
            if none[counts[f][-1]][m, f] < 1:
                yield Candidate("straight", m, f, counts=counts[f])

    def none(self, males: int, females: int, others: int = 0) -> Floats:
        """Chance that some row gets no young by the end of each season: [seasons, males, females(, other females)]."""
        rows: list[Floats] = [self._none(row, males, females, others) for row in range(len(self.odds))]
        return np.asarray(np.max(rows, axis=0))

    def bound(self, none: Floats, paid: Floats) -> Floats:
        """What is paid by the end of the first season in which the chance is reached; infinite where it never is."""
        reached = none <= 1 - self.goal + SLACK
        first = np.argmax(reached, axis=0)[None]
        money = np.take_along_axis(np.broadcast_to(paid, none.shape), first, axis=0)[0]
        return np.where(reached.any(axis=0), money + self.plan.costs.setup, np.inf)

    def at_count(self, one: Candidate, females: int) -> float:
        """The bound of a candidate with so many females of its first kind alone; infinite where it cannot reach."""
        if one.other is not None:
            return float(self._two_at(females, one.others)[one.sire, one.dams, one.other])
        return float(self._one_at(females, one.many, one.buy)[one.sire, one.dams])

    def _one_kind(self, counts: Sequence[tuple[int, ...]], sires: int, buy: int | None = None) -> Floats:
        least = np.full(self._both_mine.shape, np.inf)
        for n in sorted({n for each in counts for n in each}):
            allowed = np.array([n in each for each in counts]) & self._enough(sires)[:, None]
            found = self._one_at(n, sires, buy)
            least = np.where(allowed, np.minimum(least, found), least)
        return least

    def _one_at(self, n: int, sires: int, buy: int | None) -> Floats:
        """The bounds with so many females of one kind: [males, females]."""
        if (n, sires, buy) not in self._bounds:
            none = self.none(sires, n)
            paid = sires * self.paid_males + n * self.paid_females
            self._bounds[n, sires, buy] = self.bound(none, paid) if buy is None else self._bought(none, paid, buy)
        return self._bounds[n, sires, buy]

    def _two_at(self, n: int, others: int) -> Floats:
        """The bounds with so many females of one kind and of another: [males, females, other females]."""
        if (n, -others, None) not in self._bounds:
            of_males, of_dams = ((one[..., None], one[:, :, None]) for one in (self.paid_males, self.paid_females))
            # He comes for those of them that are grown first.
            paid = np.maximum(*of_males) + n * of_dams[0] + others * of_dams[1]
            self._bounds[n, -others, None] = self.bound(self.none(1, n, others), paid)
        return self._bounds[n, -others, None]

    def _bought(self, none: Floats, paid: Floats, season: int) -> Floats:
        """The bound where the finished animals are bought in a season when there are none before."""
        goal = self.plan.goal
        price = float(goal.outright_price or 0) * (1 + goal.outright_change) ** (season - 1)
        before = self.bound(none[: season - 1], paid[: season - 1])
        return np.where(np.isfinite(before), before, self.plan.costs.setup + paid[season - 2] + price)

    def _beside(self, dams: int, n: int, other: int, others: int) -> bool:
        """Whether no cheaper kind does as well as the other kind beside so many of the dams."""
        dam, cheaper = self.stock.females[dams], self.stock.females[other].cheaper
        if cheaper is None:
            return True
        return n + others > cheaper.most if cheaper is dam else others > cheaper.most

    def _two_kinds(self, counts: Sequence[tuple[int, ...]], others: int) -> Floats:
        females = self.stock.females
        able = np.array([one.most == others if one.mine else one.most >= others for one in females])
        mine = np.array([one.mine for one in females])
        order = np.triu(np.ones((len(females),) * 2, dtype=bool), 1)
        # Of two that are bought either may be scaled; where one is mine it is the bought one.
        pairs = np.where(mine[None, :], ~mine[:, None], order & ~mine[:, None]) & able[None, :]
        shape = (*self._both_mine.shape, len(females))
        least = np.full(shape, np.inf)
        for n in sorted({n for each in counts for n in each}):
            needed = np.array(
                [[self._beside(f, n, o, others) for o in range(len(females))] for f in range(len(females))]
            )
            allowed = pairs & needed & np.array([n in each for each in counts])[:, None]
            found = self._two_at(n, others)
            least = np.where(allowed[None], np.minimum(least, found), least)
        return least

    def _enough(self, sires: int) -> Floats:
        return np.array([one.most >= sires for one in self.stock.males])

    def _none(self, row: int, sires: int, females: int, others: int) -> Floats:
        average, worst = self._females(row)
        works = self.odds[row].biology.works["male"]
        total: Floats | float = 1.0
        # Females go to the males in turn.
        for n in (len(range(sire, females, sires)) for sire in range(sires)):
            served, at_worst = average**n, worst**n
            if others:
                served = served[..., None] * average[:, :, None, :] ** others
                at_worst = at_worst[..., None] * average[:, :, None, :] ** others
            mine = self._both_mine[..., None] if others else self._both_mine
            total = total * (1 - works + works * np.where(mine, self._worst(at_worst), self._average(served)))
        return np.asarray(total)

    def _average(self, values: Floats) -> Floats:
        weights = np.concatenate([one.weights for one in self.stock.males])
        weighed = values * weights.reshape(-1, *(1,) * (values.ndim - 2))
        return np.add.reduceat(weighed, _starts(self.stock.males), axis=1)

    def _worst(self, values: Floats) -> Floats:
        return np.minimum.reduceat(values, _starts(self.stock.males), axis=1)

    def _females(self, row: int) -> tuple[Floats, Floats]:
        return self._by_row[row]

    @cached_property
    def _by_row(self) -> list[tuple[Floats, Floats]]:
        """Per row, a female's chance of none by season, on average and at worst: [seasons, male genotypes, females]."""
        return [self._one_row(odds) for odds in self.odds]

    def _one_row(self, odds: Odds) -> tuple[Floats, Floats]:
        males, females = self.stock.males, self.stock.females
        missed = odds.missed(odds.per_egg(*(np.concatenate([one.states for one in each]) for each in (males, females))))
        powers = missed[None] ** np.arange(self.seasons + 1)[:, None, None]
        average = by_kind(powers, [one.weights for one in females])
        worst = np.minimum.reduceat(powers, _starts(females), axis=-1)
        average = np.where([one.mine and one.most > 1 for one in females], worst, average)
        works = odds.biology.works["female"]
        ready = np.repeat([one.ready_in for one in males], [len(one.states) for one in males])
        waits = np.maximum.outer(ready, [one.ready_in for one in females])
        bred = np.maximum(0, np.arange(1, self.seasons + 1)[:, None, None] - waits[None])
        return tuple(1 - works + works * np.take_along_axis(each, bred, axis=0) for each in (average, worst))  # type: ignore[return-value]


def meet(sire: Kind, dam: Kind) -> int:
    """The first season in which both are breeder-size, where both come as soon as they can."""
    return 1 + max(sire.ready_in, dam.ready_in)


def paid_for(plan: Plan, kind: Kind, breeds: int) -> Floats:
    """What each animal of a kind that is there to breed in a season surely costs by the end of each: [seasons]."""
    seasons, comes = np.arange(1, plan.goal.seasons + 1), kind.comes(breeds)
    if kind.mine:
        return np.zeros(len(seasons))
    costs = np.where(seasons >= comes + kind.ready_in, plan.costs.keep_adult, plan.costs.keep_young)
    return np.cumsum(np.where(seasons < comes, 0.0, costs + kind.price * (seasons == comes)))


def _starts(kinds: Sequence[Kind]) -> Places:
    return np.cumsum([0, *(len(one.states) for one in kinds[:-1])], dtype=np.intp)


def _finite(bounds: Floats) -> Iterator[tuple[float, tuple[int, ...]]]:
    for place in np.argwhere(np.isfinite(bounds)):
        where = tuple(int(each) for each in place)
        yield float(bounds[where]), where


def _plain(bound: float, candidate: Candidate) -> Bounded:
    return Bounded(bound, 1, bound, candidate)
