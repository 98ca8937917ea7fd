"""The clutches of one season, and how many of their young show what matters."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.routes.simulation.lots import Indices
from core.routes.simulation.pairs import NOTHING, Pairs
from core.routes.simulation.roster import Roster


@dataclass(frozen=True)
class Clutches:
    """Clutches in laying order, [clutches, runs]: their pair, eggs and live young."""

    pairs: Indices
    eggs: Indices
    young: Indices


def lay(pairs: Pairs, kinds: NDArray[np.int32], roster: Roster, rng: np.random.Generator) -> Clutches:
    """Lay and hatch the clutches of a season. kinds: [places, runs]."""
    biology = pairs.problem.biology
    found = pairs.find(roster.pairings, _gather(kinds, roster.males), _gather(kinds, roster.females))
    if biology.clutches > 1:
        if biology.lays < 1:
            found = np.where(rng.random(found.shape) < biology.lays, found, NOTHING)
        found = np.repeat(found, biology.clutches, axis=0)
    eggs, young = pairs.lay(rng, found)
    return Clutches(found, eggs, young)


def _gather(kinds: NDArray[np.int32], rows: Indices) -> NDArray[np.int32]:
    if rows.shape[1] == 1:
        return np.asarray(kinds.take(rows[:, 0], axis=0))
    return np.asarray(kinds.ravel().take(rows * kinds.shape[1] + np.arange(kinds.shape[1])))


def nth_hit(eggs: Indices, hits: Indices, nth: Indices, rng: np.random.Generator) -> Indices:
    """Which egg of a clutch is the n-th of its hits, all orders equally likely; every array [clutches]."""
    # A single hit is as likely to be any egg; more of them are met egg by egg.
    position = (rng.random(len(eggs)) * eggs).astype(np.intp) + 1
    going = np.flatnonzero(hits > 1)
    position[going] = 0
    eggs, hits, nth = eggs[going], hits[going], nth[going]
    while going.size:
        hit = rng.random(len(going)) * eggs < hits
        position[going] += 1
        eggs -= 1
        hits -= hit
        nth -= hit
        on = np.flatnonzero(nth > 0)
        if on.size < going.size:
            going, eggs, hits, nth = going[on], eggs[on], hits[on], nth[on]
    return position
