"""Who is put to whom in a season, for every run at once."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from core.routes.calendar import Animal, Mating, founders, matings
from core.routes.problem import Problem
from core.routes.simulation.flock import Flock, places
from core.routes.simulation.lots import Indices

_LARGEST_TABLE = 1 << 18
_UNKNOWN = -1


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
        self._problem, self._places = problem, places(problem)
        self._seasons: dict[int, _Season] = {}

    def of(self, flock: Flock, season: int) -> Roster | None:
        """The season's roster for the runs of a flock; None where nobody is put to anybody in any of them."""
        if season not in self._seasons:
            self._seasons[season] = _Season(self._problem, season)
        return self._seasons[season].find(flock.grown)


class _Season:
    """One season's rosters by the counts of grown held animals."""

    def __init__(self, problem: Problem, season: int) -> None:
        self._problem, self._season, self._places = problem, season, places(problem)
        active = [pairing for pairing in problem.pairings if pairing.first <= season <= pairing.last]
        asked = {herd for pairing in active for herd in (*pairing.males, *pairing.females)}
        self._held = [herd for herd in problem.herds if herd.held and herd.index in asked]
        sizes = [herd.count + 1 for herd in self._held]
        self._factors = np.array([int(np.prod(sizes[:k], dtype=object)) for k in range(len(sizes))], dtype=np.int64)
        combinations = int(np.prod(sizes, dtype=object))
        self._by_code: dict[int, int] = {}
        self._table: Indices | None = None
        if combinations <= _LARGEST_TABLE:
            self._table = np.full(combinations, _UNKNOWN, dtype=np.intp)
        self._rows: list[list[Mating]] = []
        self._stacked = Roster(*(np.empty((0, 0), dtype=np.intp) for _ in range(3)))

    def find(self, grown: NDArray[np.int32]) -> Roster | None:
        rows = self._row_of_each(grown)
        if len(self._stacked.males) != len(self._rows):
            self._stack()
        if self._stacked.males.shape[1] == 0:
            return None
        if not rows.size or (rows == rows[0]).all():
            one = [table[rows[:1]].T for table in self._stacked]
            used = np.flatnonzero(one[1][:, 0] != self._places.rows - 1)
            return Roster(*(table[used] for table in one)) if used.size else None
        return Roster(*(np.ascontiguousarray(table.T).take(rows, axis=1) for table in self._stacked))

    def _row_of_each(self, grown: NDArray[np.int32]) -> Indices:
        """Which worked-out roster each run has."""
        if not self._held:
            return self._numbered(np.zeros(min(1, grown.shape[1]), dtype=np.int64))
        codes = self._factors @ grown[[herd.index for herd in self._held]]
        return self._numbered(codes)

    def _numbered(self, codes: NDArray[np.int64]) -> Indices:
        if self._table is None:
            distinct, where = np.unique(codes, return_inverse=True)
            return np.array([self._row(code) for code in distinct.tolist()], dtype=np.intp).take(where)
        rows = self._table.take(codes)
        if rows.size and rows.min() == _UNKNOWN:
            for code in np.unique(codes[rows == _UNKNOWN]).tolist():
                self._table[code] = self._row(code)
            rows = self._table.take(codes)
        return rows

    def _row(self, code: int) -> int:
        if code not in self._by_code:
            self._by_code[code] = len(self._rows)
            self._rows.append(matings(self._problem, self._breeders(code), self._season))
        return self._by_code[code]

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
        longest = max(map(len, self._rows), default=0)
        nobody = self._places.rows - 1
        tables = [np.full((len(self._rows), longest), filler, dtype=np.intp) for filler in (0, nobody, nobody)]
        for row, pairs in enumerate(self._rows):
            for place, mating in enumerate(pairs):
                tables[0][row, place] = mating.pairing
                tables[1][row, place] = self._places.first[mating.male.herd] + mating.male.place
                tables[2][row, place] = self._places.first[mating.female.herd] + mating.female.place
        self._stacked = Roster(*tables)
