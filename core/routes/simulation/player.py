"""A chunk of runs, season by season."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from core.routes.calendar import fixed_costs, founders_present
from core.routes.problem import Herd, Problem
from core.routes.simulation.choosing import choose
from core.routes.simulation.clutches import Clutches, lay
from core.routes.simulation.counting import count_goal
from core.routes.simulation.flock import Flock
from core.routes.simulation.looks import Asked, Look
from core.routes.simulation.lots import Binomials
from core.routes.simulation.outcome import Outcome
from core.routes.simulation.pairs import Pairs
from core.routes.simulation.played import Played
from core.routes.simulation.roster import Rosters
from core.routes.simulation.shown import Shown, show


class Odds:
    """What was worked out about a route's pairs; good for the same route at any counts."""

    def __init__(self, problem: Problem) -> None:
        """Start with nothing worked out."""
        self.pairs = Pairs(problem)
        self.binomials = Binomials(len(problem.biology.sizes) - 1)
        self._looks: dict[tuple[Asked, ...], Look] = {}

    def look(self, asked: tuple[Asked, ...]) -> Look:
        """What to look for, from what matters in each pairing."""
        if asked not in self._looks:
            self._looks[asked] = Look(self.pairs, self.binomials, asked)
        return self._looks[asked]


class Player:
    """Plays chunks of runs of one route."""

    def __init__(self, problem: Problem, odds: Odds) -> None:
        """odds: of this route, at these or other counts."""
        self._problem, self._odds = problem, odds
        self._fixed, self._present = fixed_costs(problem).tolist(), founders_present(problem).tolist()
        self._rosters = Rosters(problem)
        self._goal = 2 ** len(problem.wanted) - 1
        self._sells = problem.prices.sold_share > 0 and any(problem.prices.surplus)

    def play(self, record: Played, rng: np.random.Generator) -> None:
        """Play the runs of a record that is all zero: [seasons, runs]."""
        problem = self._problem
        # A stream a season, so that routes that differ in one season stay alike in the next.
        start, *streams = rng.spawn(problem.horizon + 1)
        flock = Flock(problem, self._odds.pairs, len(record.surplus), start)
        for season, stream in enumerate(streams, start=1):
            if season > 1:
                record.paid[season - 1] = record.paid[season - 2]
                record.sales[season - 1] = record.sales[season - 2]
            if season == problem.outright:
                record.paid[season - 1, flock.runs] += problem.outright_price
                record.met_season[flock.runs] = season
                flock.keep(np.zeros(len(flock), dtype=np.bool_))
            if len(flock):
                self._season(flock, season, record, stream)

    def _season(self, flock: Flock, season: int, record: Played, rng: np.random.Generator) -> None:
        """Play one season and put it on record; runs that meet the goal leave the flock."""
        now, runs, prices = season - 1, flock.runs, self._problem.prices
        flock.begin(season)
        grown, growing = flock.grown.sum(axis=0), flock.growing.sum(axis=0)
        record.reached[now, runs] = True
        record.present[now, runs] = int(self._present[season - 1]) + grown + growing
        paid = self._fixed[season - 1] + prices.keep_adult * grown + prices.keep_young * growing
        roster = self._rosters.of(flock, season)
        if roster is None:
            record.paid[now, runs] += paid
            return
        clutches = lay(self._odds.pairs, flock.kinds, roster, rng)
        outcome = self._judge(flock, clutches, self._open(season, roster.busy), season, rng)
        paid += prices.per_egg * outcome.eggs + prices.per_young * outcome.young
        record.paid[now, runs] += paid
        record.sales[now, runs] += outcome.sales
        record.eggs[now, runs] = outcome.eggs
        record.young[now, runs] = outcome.young
        record.surplus[runs] += outcome.surplus.astype(np.int32)
        met = np.flatnonzero(outcome.met)
        record.met_season[runs[met]] = season
        record.met_egg[runs[met]] = flock.eggs[met] + outcome.egg[met]
        flock.eggs += outcome.eggs.astype(np.int32)
        flock.need -= outcome.filled
        if met.size:
            flock.keep(~outcome.met)

    def _judge(
        self, flock: Flock, clutches: Clutches, herds: list[Herd], season: int, rng: np.random.Generator
    ) -> Outcome:
        """Count for the goal and hold back: by counts alone where that will do, else young by young."""
        rows = len(self._problem.wanted)
        outcome = Outcome.of(clutches, rows, self._odds.pairs.worth() if self._sells else None)
        choosing = np.full(len(flock), rows > 1)
        for herd in herds:
            choosing |= flock.ever[herd.index] < herd.count
        if not choosing.all():
            shown = self._show(outcome, [], ~choosing, rng)
            count_goal(outcome, shown, flock.need[0], rng)
        if choosing.any():
            herds = [herd for herd in herds if (flock.ever[herd.index] < herd.count).any()]
            shown = self._show(outcome, herds, choosing, rng)
            choose(outcome, shown, flock, herds, season, rng)
        return outcome

    def _open(self, season: int, busy: frozenset[int]) -> list[Herd]:
        """The held herds that may take young of this season; busy: the pairings that have matings."""
        return [
            herd
            for herd in self._problem.herds
            if herd.held and (herd.until is None or season < herd.until) and not busy.isdisjoint(herd.sources)
        ]

    def _show(self, outcome: Outcome, herds: list[Herd], of_runs: NDArray[np.bool_], rng: np.random.Generator) -> Shown:
        """Draw what the young of some runs show, as far as the goal and these herds ask for it."""
        asked = tuple(
            Asked(self._goal, tuple(herd.picks for herd in herds if index in herd.sources))
            for index in range(len(self._problem.pairings))
        )
        shown = show(self._odds.look(asked), self._odds.binomials, outcome.clutches, of_runs, rng)
        if self._sells:
            # Knowing what they show, their worth is known better than from their parents alone.
            before = shown.young * self._odds.pairs.worth().take(shown.pair)
            outcome.add_sales(shown.runs.take(shown.column), shown.worth() - before)
        return shown
