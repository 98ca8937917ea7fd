"""The clutches of one season."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from core.routes.simulation.flock import Flock
from core.routes.simulation.lots import Indices
from core.routes.simulation.pairs import NOTHING, Pairs, eggs_of
from core.routes.simulation.roster import Alike


@dataclass(frozen=True)
class Clutches:
    """Clutches of the runs of a flock in laying order, [clutches, runs]: their pairs, and what is in them.

    packed: eggs, young and hits, as `Pairs.lay` gives them.
    """

    pairs: Indices
    packed: Indices

    def eggs_before(self, runs: Indices, clutch: Indices) -> Indices:
        """Eggs of earlier clutches than these, in some runs."""
        eggs = eggs_of(self.packed.take(runs, axis=1))
        eggs *= np.arange(len(eggs))[:, None] < clutch
        return np.asarray(eggs.sum(axis=0))


def mate(pairs: Pairs, flock: Flock, alike: Alike, rng: np.random.Generator) -> Indices:
    """The pair of every clutch of a season in laying order: [clutches, runs]."""
    _mate_anew(pairs, flock, alike)
    biology, found = pairs.problem.biology, flock.pairs
    if biology.clutches > 1:
        if biology.lays < 1:
            found = np.where(rng.random(found.shape) < biology.lays, found, NOTHING)
        found = np.repeat(found, biology.clutches, axis=0)
    return found


def _mate_anew(pairs: Pairs, flock: Flock, alike: Alike) -> None:
    """Put the animals together in the runs where others breed than in the season before."""
    runs = np.arange(len(flock)) if flock.alike is not alike else np.flatnonzero(flock.stale)
    if not runs.size:
        return
    numbers = alike.numbers(flock, runs)
    if flock.alike is alike:
        changed = np.flatnonzero(numbers != flock.roster.take(runs))
        runs, numbers = runs.take(changed), numbers.take(changed)
    flock.roster[runs], flock.alike, flock.stale[:] = numbers, alike, False
    if not runs.size:
        return
    roster, columns = alike.find(numbers), flock.columns.take(runs)
    males, females = (_gather(flock.kinds, rows, columns) for rows in (roster.males, roster.females))
    flock.mate(runs, pairs.find(roster.pairings, males, females))


def _gather(kinds: NDArray[np.int32], rows: Indices, columns: Indices) -> NDArray[np.int32]:
    """The kinds in these places, [clutches, runs]; rows may have one column."""
    if rows.shape[1] == 1:
        return kinds.take(rows[:, 0], axis=0).take(columns, axis=1)
    where = rows * kinds.shape[1]
    where += columns
    return np.asarray(kinds.reshape(-1).take(where))


def running_sums(counts: Indices) -> Indices:
    """Sums over the clutches up to each: [clutches, runs]."""
    sums = counts.copy()
    # Adding whole rows is several times faster than a sum along columns.
    for before, own in pairwise(sums):
        own += before
    return sums


def nth_hit(eggs: Indices, hits: Indices, nth: Indices, rng: np.random.Generator) -> Indices:
    """Which egg of a clutch is the n-th of its hits, all orders equally likely; every array [clutches]."""
    # A single hit is as likely to be any egg.
    position = (rng.random(len(eggs)) * eggs).astype(np.intp)
    first = np.where(nth == 1, hits, 1)
    # One more is as likely to be any egg but those that are hits, none of which comes before the first.
    for known in range(1, int(first.max(initial=1))):
        some = np.flatnonzero(first > known)
        another = (rng.random(len(some)) * (eggs.take(some) - known)).astype(np.intp)
        position[some] = np.minimum(position.take(some), another)
    later = np.flatnonzero(nth > 1)
    if later.size:
        position[later] = _nth_of_several(eggs.take(later), hits.take(later), nth.take(later), rng)
    return position + 1


def _nth_of_several(eggs: Indices, hits: Indices, nth: Indices, rng: np.random.Generator) -> Indices:
    """Choose the places of a clutch's hits one by one among those that are left, and put them in order."""
    clutches, most = len(eggs), int(hits.max())
    places = np.full((clutches, most), np.iinfo(np.intp).max)
    for hit in range(most):
        some = np.flatnonzero(hits > hit)
        place = (rng.random(len(some)) * (eggs.take(some) - hit)).astype(np.intp)
        for taken in places[some, :hit].T:
            place += place >= taken
        places[some, hit] = place
        places[:, : hit + 1].sort(axis=1)
    return np.asarray(places[np.arange(clutches), nth - 1])
