"""The best of what was worked out: which routes are told, in which order, and what it takes to be one of them."""

from __future__ import annotations

import math
from operator import attrgetter

from core.plan.model import Plan
from core.search.candidate import Candidate, Recipe, plainer
from core.search.working import Worked

# Half a percent less money is no reason for a longer way: the plainer route is told, and the other spared.
AS_CHEAP = 1.005


class Ranking:
    """The cheapest route of every recipe; `most` of them are told. below: what takes as much is not asked for."""

    def __init__(self, plan: Plan, most: int, below: float) -> None:
        self._most, self._below = most, below
        self._budget = math.inf if plan.goal.budget is None else float(plan.goal.budget)
        self._best: dict[Recipe, Worked] = {}
        # Those that may be told, in order; None where they are to be looked through anew.
        self._ordered: list[Worked] | None = None

    def add(self, worked: Worked) -> None:
        """One more; the same route worked out further takes its own place."""
        known = self._best.get(worked.candidate.recipe)
        if known is None or known.route is worked.route or worked.rank < known.rank:
            self._best[worked.candidate.recipe] = worked
            self._ordered = None

    def same(self, candidate: Candidate) -> Worked | None:
        """The best so far of the same animals in the same way."""
        return self._best.get(candidate.recipe)

    @property
    def reaching(self) -> bool:
        """Whether any reaches the goal's chance."""
        return any(math.isfinite(one.money) for one in self._best.values())

    @property
    def affordable(self) -> bool:
        """Whether those that are told keep to the budget."""
        first = next(iter(self.ordered), None)
        return first is None or first.money <= self._budget or math.isinf(first.money)

    @property
    def ordered(self) -> list[Worked]:
        """The best of every recipe, cheapest first; without those that a plainer route of the same founders spares."""
        if self._ordered is None:
            kept = (
                one
                for one in self._best.values()
                if math.isinf(one.money) or not self.spares(one.candidate, one.money, one.reached.season)
            )
            self._ordered = sorted(kept, key=attrgetter("rank"))
        return self._ordered

    @property
    def told(self) -> list[Worked]:
        """Those within budget; where there are none those that reach the goal's chance, or else that come close."""
        reaching = [one for one in self.ordered if math.isfinite(one.money)]
        within = [one for one in reaching if one.money <= self._budget]
        return (within or reaching or self.ordered)[: self._most]

    @property
    def limit(self) -> float:
        """What costs more than this cannot be among those told."""
        money = [one.money for one in self.ordered]
        limit = min(self._below, money[self._most - 1] if len(money) >= self._most else math.inf)
        return min(limit, self._budget) if money and money[0] <= self._budget else limit

    def spares(self, candidate: Candidate, money: float, season: int) -> bool:
        """Whether fewer animals of the same, bred straight together, are known to be as cheap and as soon."""
        if candidate.way in ("outright", "straight") and candidate.other is None:
            return False
        for plain in plainer(candidate):
            known = self.same(plain)
            if known is not None and known.reached.by_season[season - 1] <= money * AS_CHEAP:
                return True
        return False
