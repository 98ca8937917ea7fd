"""What many runs of a route came to."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from core.routes.simulation.lots import Floats, Indices


class Season(NamedTuple):
    """One season of the runs of a chunk that began it and did not buy outright; arrays are [those runs].

    Money and young are those of this season alone.
    """

    runs: Indices
    paid: Floats
    sales: Floats
    eggs: Indices
    young: Indices
    surplus: Indices
    present: Indices


@dataclass(frozen=True, eq=False)
class Played:
    """Many runs of one route. Money is in the plan's currency.

    met_season: [runs], when the goal was met, 0 never. met_egg: [runs], the goal-meeting egg counted from 1 over the
    route, 0 where it was met by none. spent, laid: [runs], paid and eggs in all until the run stopped. sums: [seasons,
    keys of `Season`], all runs together; of `runs` how many there were. seasons: what was played, by season and chunk,
    where runs are told `apart`. outright: [seasons], paid outright by all runs together.
    """

    met_season: NDArray[np.int16]
    met_egg: NDArray[np.int32]
    spent: Floats
    laid: NDArray[np.int32]
    sums: Floats
    seasons: tuple[list[Season], ...]
    outright: Floats
    apart: bool = True

    def add(self, season: int, own: Season) -> None:
        """Puts a season of some runs on record; hundreds of bytes a run, unless only the sums are kept."""
        self.sums[season - 1] += (len(own.runs), *(each.sum() for each in own[1:]))
        if self.apart:
            self.seasons[season - 1].append(own)

    def means(self, key: str) -> Floats:
        """A key of `Season` over all runs, by season: [seasons]."""
        means: Floats = self.sums[:, Season._fields.index(key)] / len(self.spent)
        return means

    def means_paid(self) -> Floats:
        """Paid in all through each season, over all runs: [seasons]."""
        return np.cumsum(self.means("paid") + self.outright / len(self.spent))

    def share_reached(self) -> Floats:
        """The share of the runs that began each season and did not buy outright: [seasons]."""
        return self.means("runs")

    @cached_property
    def paid(self) -> Floats:
        """Paid in all through each season by each run, constant after it has stopped: [runs, seasons]."""
        paid = self._each("paid").copy()
        for season in np.flatnonzero(self.outright).tolist():
            bought = self.met_season == season + 1
            paid[bought, season] = self.outright[season] / max(int(bought.sum()), 1)
        through: Floats = np.cumsum(paid, axis=1)
        return through

    @cached_property
    def sales(self) -> Floats:
        """What the surplus of each run can be expected to bring, through each season: [runs, seasons]."""
        return np.cumsum(self._each("sales"), axis=1)

    @cached_property
    def eggs(self) -> Floats:
        """Laid by each run in each season: [runs, seasons]."""
        return self._each("eggs")

    @cached_property
    def young(self) -> Floats:
        """Hatched in each run and season: [runs, seasons]."""
        return self._each("young")

    @cached_property
    def present(self) -> Floats:
        """Animals there in step 2 of each season, 0 where it was not reached: [runs, seasons]."""
        return self._each("present")

    @cached_property
    def surplus(self) -> Floats:
        """Young of each run that neither counted nor were held: [runs]."""
        surplus: Floats = self._each("surplus").sum(axis=1)
        return surplus

    @cached_property
    def reached(self) -> NDArray[np.bool_]:
        """Whether each run began the season and did not buy outright: [runs, seasons]."""
        there: NDArray[np.bool_] = self._each("runs", there=True) > 0
        return there

    def _each(self, key: str, *, there: bool = False) -> Floats:
        whole = np.zeros((len(self.spent), len(self.seasons)))
        for season, parts in enumerate(self.seasons):
            for part in parts:
                whole[part.runs, season] = 1.0 if there else getattr(part, key)
        whole.setflags(write=False)
        return whole
