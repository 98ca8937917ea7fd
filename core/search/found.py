"""What a search has found so far, as values."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from core.plan.model import Route
from core.routes.result import RouteResult

# How a route of the space goes about it.
Way = Literal["outright", "straight", "then buy", "back", "second male", "together", "son", "three generations"]


@dataclass(frozen=True, eq=False)
class Proposal:
    """One route that was found, drawn with the counts that need least, and what it gives; `why`: a sentence."""

    way: Way
    route: Route
    why: str
    result: RouteResult

    @property
    def money(self) -> float:
        """What is to be set aside; infinite where the goal's chance is out of reach."""
        return self.result.to_goal.money if self.result.to_goal else math.inf

    @property
    def season(self) -> int | None:
        """The season in which the goal's chance is reached."""
        return self.result.to_goal.season if self.result.to_goal else None

    @property
    def chance(self) -> float:
        """The chance of the goal by the horizon, as drawn."""
        return float(self.result.chance_by_season[-1])


@dataclass(frozen=True)
class Point:
    """One point of the frontier: with this money in hand, by this season, this chance; `route`: the proposal's id."""

    money: float
    season: int
    chance: float
    route: str


@dataclass(frozen=True, eq=False)
class Found:
    """What a search has so far.

    proposals: the cheapest to the goal, within budget and housing, cheapest first; where none gets there, those that
    come closest. others: further routes that points of the frontier stand for. looked, of: candidates worked out and
    in all. floor: no candidate of one or two generations that was left out
    needs less than this. gap: the share of the money of any of those told that
    another might have saved, at most. affordable: whether `proposals` keep to the budget.
    left_out: animals not looked at because there are too many. holds: whether routes that hold young back were looked
    at; where too many genes are wanted at once they are not. traded: whether the frontier is that of the whole space,
    to the gap; else of what was worked out. ended: whether the search is over.
    """

    proposals: tuple[Proposal, ...] = ()
    others: tuple[Proposal, ...] = ()
    frontier: tuple[Point, ...] = ()
    looked: int = 0
    of: int = 0
    floor: float = 0.0
    gap: float = 1.0
    affordable: bool = True
    left_out: int = 0
    holds: bool = True
    traded: bool = False
    ended: bool = False

    @property
    def share(self) -> float:
        """How much of the work is done, as far as can be told."""
        return 1.0 if self.ended else min(0.99, self.looked / self.of) if self.of else 0.0

    def proposal(self, route: str) -> Proposal | None:
        """The proposal with a route id."""
        return next((one for one in (*self.proposals, *self.others) if one.route.id == route), None)


def best_routes(found: Found) -> tuple[Route, ...]:
    """The routes that were found, the cheapest first."""
    return tuple(one.route for one in found.proposals)
