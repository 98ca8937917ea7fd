"""The clutches of one season."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.routes.simulation.lots import Indices
from core.routes.simulation.pairs import NOTHING, Pairs, eggs_of
from core.routes.simulation.roster import Roster


@dataclass(frozen=True)
class Clutches:
    """Clutches of some runs of a flock in laying order, [clutches, runs]: their pairs, and what is in them.

    runs: [runs], which runs of the flock. packed: eggs, young and hits, as `Pairs.lay` gives them.
    """

    runs: Indices
    pairs: Indices
    packed: Indices

    def eggs_before(self, columns: Indices, clutch: Indices) -> Indices:
        """Eggs of earlier clutches than these, in some columns."""
        eggs = eggs_of(self.packed.take(columns, axis=1))
        return np.asarray(np.where(np.arange(len(eggs))[:, None] < clutch, eggs, 0).sum(axis=0))


def mate(pairs: Pairs, kinds: NDArray[np.int32], roster: Roster, rng: np.random.Generator) -> Indices:
    """The pair of every clutch of a season in laying order: [clutches, runs]. kinds: [places, runs]."""
    biology = pairs.problem.biology
    found = pairs.find(roster.pairings, _gather(kinds, roster.males), _gather(kinds, roster.females))
    if biology.clutches > 1:
        if biology.lays < 1:
            found = np.where(rng.random(found.shape) < biology.lays, found, NOTHING)
        found = np.repeat(found, biology.clutches, axis=0)
    return found


def _gather(kinds: NDArray[np.int32], rows: Indices) -> NDArray[np.int32]:
    if rows.shape[1] == 1:
        return np.asarray(kinds.take(rows[:, 0], axis=0))
    return np.asarray(kinds.ravel().take(rows * kinds.shape[1] + np.arange(kinds.shape[1])))


def nth_hit(eggs: Indices, hits: Indices, nth: Indices, rng: np.random.Generator) -> Indices:
    """Which egg of a clutch is the n-th of its hits, all orders equally likely; every array [clutches]."""
    # A single hit is as likely to be any egg.
    position = (rng.random(len(eggs)) * eggs).astype(np.intp) + 1
    several = np.flatnonzero(hits > 1)
    if several.size:
        position[several] = _nth_of_several(eggs[several], hits[several], nth[several], rng)
    return position


def _nth_of_several(eggs: Indices, hits: Indices, nth: Indices, rng: np.random.Generator) -> Indices:
    """Shuffle the eggs of each clutch; the first of them are its hits."""
    place = np.arange(int(eggs.max()))
    keys = np.where(place < eggs[:, None], rng.random((len(eggs), len(place))), 1.0)
    shuffled = np.argsort(keys, axis=1)[:, : int(hits.max())]
    shuffled[place[: shuffled.shape[1]] >= hits[:, None]] = len(place)
    shuffled.sort(axis=1)
    return np.asarray(shuffled[np.arange(len(eggs)), nth - 1] + 1)
