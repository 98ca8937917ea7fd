"""The space of routes that is searched, and what is tried on top of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cached_property

from core.plan.model import Plan
from core.search.candidate import Bounded, Candidate
from core.search.deep import Deep
from core.search.founders import Founders
from core.search.holding import Holding
from core.search.odds import Odds
from core.search.stock import Stock


class Space:
    """The candidates of one plan's stock; `holds`: whether those that hold young back are among them."""

    def __init__(self, plan: Plan, stock: Stock) -> None:
        self._plan, self._stock = plan, stock
        self.holds = True

    def families(self) -> Iterator[Iterator[Bounded | None]]:
        """A bound for every candidate that may reach the goal; the quickest first.

        None in between: a moment to look up.
        """
        goal = self._plan.goal
        if goal.outright_price is not None:
            price = float(goal.outright_price)
            yield iter([Bounded(price, 1, price, Candidate("outright"))])
        if not self._breeds:
            return
        yield self._founders.straight()
        yield self._founders.then_buy()
        self.holds = self._holding.in_reach
        if self.holds:
            yield self._holding.candidates()
        yield self._founders.two_kinds()

    def at_count(self, one: Candidate, females: int) -> float:
        """The bound of a candidate that holds nothing back with so many females of its first kind alone."""
        return self._founders.at_count(one, females)

    def deep(self, limit: float) -> Iterator[Candidate | None]:
        """A few of three generations whose animals take less than `limit`; None in between."""
        return Deep(self._plan, self._stock, self._odds).candidates(limit) if self._breeds else iter(())

    def lingering(self, told: Iterable[Candidate]) -> Iterator[Candidate]:
        """Those that hold young back once more, with dams that stay until their young are grown."""
        return (longer for one in told for longer in self._holding.lingering(one))

    def closest(self, most: int) -> Iterator[Candidate]:
        """Of the plainest those that come closest to the goal."""
        return self._founders.closest(most) if self._breeds else iter(())

    @property
    def _breeds(self) -> bool:
        return bool(self._stock.males and self._stock.females)

    @cached_property
    def _odds(self) -> list[Odds]:
        return [Odds(self._plan, self._stock, row) for row in self._plan.goal.want]

    @cached_property
    def _founders(self) -> Founders:
        return Founders(self._plan, self._stock, self._odds)

    @cached_property
    def _holding(self) -> Holding:
        return Holding(self._plan, self._stock, self._odds)
