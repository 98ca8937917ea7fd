"""A chunk of runs, season by season."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from core.routes.calendar import fixed_costs, founders_present
from core.routes.problem import Herd, Problem
from core.routes.simulation.choosing import choose
from core.routes.simulation.clutches import Clutches, mate
from core.routes.simulation.counting import count_goal
from core.routes.simulation.flock import Flock
from core.routes.simulation.looks import Asked, Look
from core.routes.simulation.lots import Binomials, Indices
from core.routes.simulation.outcome import Outcome
from core.routes.simulation.pairs import LARGEST_COUNTED, Pairs, eggs_of, hits_of, young_of
from core.routes.simulation.played import Played, Season
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
        # From this season on, a run in which nothing breeds stays like that.
        self._last_change = problem.horizon if problem.outright else self._rosters.last_change()
        self._goal = 2 ** len(problem.wanted) - 1
        # Whether the goal can be followed by counts alone.
        self._counts = len(problem.wanted) == 1 and len(problem.biology.sizes) <= LARGEST_COUNTED + 1
        self._sells = problem.prices.sold_share > 0 and any(problem.prices.surplus)

    def play(self, record: Played, begin: int, end: int, rng: np.random.Generator) -> Iterator[int]:
        """Play the runs begin..end - 1 of a record that holds nothing of them yet; yields each season played."""
        problem = self._problem
        # A stream a season, so that routes that differ in one season stay alike in the next.
        start, *streams = rng.spawn(problem.horizon + 1)
        flock = Flock(problem, self._odds.pairs, range(begin, end), start)
        for season, stream in enumerate(streams, start=1):
            if season == problem.outright:
                flock.paid += problem.outright_price
                record.outright[season - 1] += problem.outright_price * len(flock)
                record.met_season[flock.runs] = season
                break
            if not len(flock):
                break
            self._season(flock, season, record, stream)
            yield season
        record.spent[flock.runs], record.laid[flock.runs] = flock.paid, flock.eggs

    def _season(self, flock: Flock, season: int, record: Played, rng: np.random.Generator) -> None:
        """Play one season and put it on record; runs that meet the goal leave the flock."""
        prices, runs = self._problem.prices, flock.runs
        flock.begin(season)
        grown, growing = flock.reared()
        present = int(self._present[season - 1]) + grown + growing
        paid = self._fixed[season - 1] + prices.keep_adult * grown + prices.keep_young * growing
        outcome = self._breed(flock, season, rng)
        paid += prices.per_egg * outcome.eggs + prices.per_young * outcome.young
        flock.paid += paid
        own = Season(runs, paid, outcome.sales, outcome.eggs, outcome.young, outcome.surplus, present)
        record.add(season, own)
        met = np.flatnonzero(outcome.met)
        record.met_season[runs[met]] = season
        record.met_egg[runs[met]] = flock.eggs[met] + outcome.egg[met]
        flock.eggs += outcome.eggs.astype(np.int32)
        flock.need -= outcome.filled
        if met.size:
            record.spent[runs[met]], record.laid[runs[met]] = flock.paid[met], flock.eggs[met]
        going_on = ~outcome.met
        if self._last_change <= season < self._problem.horizon:
            idle = going_on & flock.idle()
            self._retire(flock, np.flatnonzero(idle), grown, season, record)
            going_on &= ~idle
        if not going_on.all():
            flock.keep(going_on)

    def _retire(self, flock: Flock, where: Indices, grown: Indices, season: int, record: Played) -> None:
        """Put on record the seasons to come of runs in which nothing will be bred. grown: animals of breeder size."""
        runs, paid, grown = flock.runs.take(where), flock.paid.take(where), grown.take(where)
        none = np.zeros(len(runs), dtype=np.intp)
        for later in range(season, self._problem.horizon):
            own = self._fixed[later] + self._problem.prices.keep_adult * grown
            present = int(self._present[later]) + grown
            record.add(later + 1, Season(runs, own, np.zeros(len(runs)), none, none, none, present))
            paid += own
        record.spent[runs], record.laid[runs] = paid, flock.eggs.take(where)

    def _breed(self, flock: Flock, season: int, rng: np.random.Generator) -> Outcome:
        """Count for the goal and hold back: by counts alone where that will do, else young by young."""
        pairs, alike = self._odds.pairs, self._rosters.of(season)
        found = mate(pairs, flock, alike, rng)
        vacancies = {herd: flock.vacancies(herd) for herd in self._open(season, alike.busy)}
        vacancies = {herd: own for herd, own in vacancies.items() if own.any()}
        choosing = np.full(len(flock), not self._counts)
        for own in vacancies.values():
            choosing |= own > 0
        clutches = Clutches(found, pairs.lay(rng, found, counted=not choosing.all()))
        laid = clutches.packed.sum(axis=0)
        income, worth = pairs.income() if self._sells else (None, None)
        sales = np.zeros(len(flock)) if income is None else income.take(found).sum(axis=0)
        outcome = Outcome.of(len(self._problem.wanted), eggs_of(laid), young_of(laid), sales)
        # Where young are told apart one by one, hits say nothing.
        hits = hits_of(laid)
        hits *= ~choosing
        count_goal(outcome, clutches, hits, flock.need[0], worth, rng)
        runs = np.flatnonzero(choosing)
        if runs.size:
            shown = self._show(clutches, runs, list(vacancies), rng)
            choose(outcome, shown, flock, vacancies, season, rng, sells=self._sells)
        return outcome

    def _open(self, season: int, busy: frozenset[int]) -> list[Herd]:
        """The held herds that may take young of this season; busy: the pairings that have matings."""
        return [
            herd
            for herd in self._problem.herds
            if herd.held and (herd.until is None or season < herd.until) and not busy.isdisjoint(herd.sources)
        ]

    def _show(self, clutches: Clutches, runs: Indices, herds: list[Herd], rng: np.random.Generator) -> Shown:
        """Draw what young of some runs show, as far as the goal and these herds ask for it."""
        asked = tuple(
            Asked(self._goal, tuple(herd.picks for herd in herds if index in herd.sources))
            for index in range(len(self._problem.pairings))
        )
        return show(self._odds.look(asked), self._odds.binomials, clutches, runs, rng)
