"""Who is put to whom in a season, for every run at once."""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np

from core.routes.calendar import Animal, Mating, founders, matings
from core.routes.problem import Problem
from core.routes.simulation.flock import Flock, places
from core.routes.simulation.learning import UNKNOWN, look_up
from core.routes.simulation.lots import Indices

_LARGEST_TABLE = 1 << 18


class Roster(NamedTuple):
    """The matings of a season in laying order, [matings, runs] or, where all runs agree, [matings, 1].

    males, females: rows of a flock's `kinds`; a run with fewer matings than others ends in matings of nobody.
    """

    pairings: Indices
    males: Indices
    females: Indices


class Rosters:
    """Rosters of one route. They differ between runs only through how many held animals have grown up."""

    def __init__(self, problem: Problem) -> None:
        """Start with no roster worked out."""
        self._problem = problem
        self._alike: dict[tuple[tuple[int, ...], tuple[int, ...]], Alike] = {}

    def of(self, season: int) -> Alike:
        """What is shared by all seasons like this one."""
        key = self._key(season)
        if key not in self._alike:
            self._alike[key] = Alike(self._problem, season)
        return self._alike[key]

    def last_change(self) -> int:
        """The first season from which on no founder and no pairing comes or goes, and no group leaves."""
        herds, last = self._problem.herds, self._problem.horizon
        leaving = [herd.until + 1 for herd in herds if herd.held and herd.until is not None and herd.until < last]
        changes = [season for season in range(2, last + 1) if self._key(season) != self._key(season - 1)]
        return max([1, *leaving, *changes])

    def _key(self, season: int) -> tuple[tuple[int, ...], tuple[int, ...]]:
        pairings = tuple(i for i, p in enumerate(self._problem.pairings) if p.first <= season <= p.last)
        return pairings, tuple(h.index for h in self._problem.herds if not h.held and founders(h, season))


class Alike:
    """Seasons with the same pairings and founders: their rosters by the counts of grown held animals."""

    def __init__(self, problem: Problem, season: int) -> None:
        self._problem, self._season, self._places = problem, season, places(problem)
        active = [pairing for pairing in problem.pairings if pairing.first <= season <= pairing.last]
        asked = {herd for pairing in active for herd in (*pairing.males, *pairing.females)}
        self._held = [herd for herd in problem.herds if herd.held and herd.index in asked]
        combinations = math.prod(herd.count + 1 for herd in self._held)
        self._by_matings: dict[tuple[Mating, ...], int] = {}
        self._table: Indices | None = None
        if combinations <= _LARGEST_TABLE:
            self._table = np.full(combinations, UNKNOWN, dtype=np.intp)
        self._rows: list[tuple[Mating, ...]] = []
        self._stacked: list[Indices] = []
        # The pairings that have had any mating.
        self.busy: frozenset[int] = frozenset()

    def numbers(self, flock: Flock, runs: Indices) -> Indices:
        """Which roster some runs of a flock have; equal numbers mean the same matings."""
        before = len(self._rows)
        rows = self._numbered(self._codes(flock, runs))
        if len(self._rows) > before:
            self._stack()
        return rows

    def find(self, numbers: Indices) -> Roster:
        """The rosters of these numbers."""
        used = np.flatnonzero(np.bincount(numbers)).tolist()
        longest = max(len(self._rows[row]) for row in used)
        asked = numbers[:1] if len(used) == 1 else numbers
        return Roster(*(table[:longest].take(asked, axis=1) for table in self._stacked))

    def _codes(self, flock: Flock, runs: Indices) -> Indices:
        """The counts of grown held animals in one number; the first herd's change it least."""
        codes = np.zeros(len(runs), dtype=np.intp)
        for herd in reversed(self._held):
            codes *= herd.count + 1
            codes += flock.grown(herd, runs)
        return codes

    def _numbered(self, codes: Indices) -> Indices:
        """Which worked-out roster belongs to each code."""
        if self._table is None:
            distinct, where = np.unique(codes, return_inverse=True)
            return np.array([self._row(code) for code in distinct.tolist()], dtype=np.intp).take(where)
        return look_up(self._table, codes, self._learn)

    def _learn(self, codes: list[int]) -> None:
        """Put the rosters of these codes into the table."""
        if self._table is not None:
            self._table[codes] = [self._row(code) for code in codes]

    def _row(self, code: int) -> int:
        found = tuple(matings(self._problem, self._breeders(code), self._season))
        if found not in self._by_matings:
            self._by_matings[found] = len(self._rows)
            self._rows.append(found)
        return self._by_matings[found]

    def _breeders(self, code: int) -> list[list[Animal]]:
        counts = {}
        for herd in self._held:
            code, counts[herd.index] = divmod(code, herd.count + 1)
        return [
            [Animal(herd.index, place) for place in range(counts.get(herd.index, 0))]
            if herd.held
            else founders(herd, self._season)
            for herd in self._problem.herds
        ]

    def _stack(self) -> None:
        """Lay all rosters side by side: [matings, rosters]."""
        longest = max(map(len, self._rows))
        nobody = self._places.width - 1
        self._stacked = [np.full((longest, len(self._rows)), filler, dtype=np.intp) for filler in (0, nobody, nobody)]
        pairings, males, females = self._stacked
        for row, found in enumerate(self._rows):
            for place, mating in enumerate(found):
                pairings[place, row] = mating.pairing
                males[place, row] = self._places.first[mating.male.herd] + mating.male.place
                females[place, row] = self._places.first[mating.female.herd] + mating.female.place
        self.busy = frozenset(mating.pairing for found in self._rows for mating in found)
