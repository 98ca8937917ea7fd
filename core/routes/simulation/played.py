"""What many runs of a route came to."""

from __future__ import annotations

from dataclasses import dataclass, fields

import numpy as np
from numpy.typing import NDArray

from core.routes.simulation.lots import Floats


@dataclass(frozen=True, eq=False)
class Played:
    """Many runs of one route; every array has a row a run and is read-only. Money is in the plan's currency.

    met_season: [runs], when the goal was met, 0 never. met_egg: [runs], the goal-meeting egg counted from 1 over the
    route, 0 where it was met by none. paid, sales: [runs, seasons], in all through each season, constant after a run
    has stopped; sales are what the surplus can be expected to bring, given the rest of the run. eggs, young: [runs,
    seasons], laid and hatched in each season. surplus: [runs]. present: [runs, seasons], animals there in step 2, 0
    where not reached. reached: [runs, seasons], whether the season was begun and did not buy outright.
    """

    met_season: NDArray[np.int16]
    met_egg: NDArray[np.int32]
    paid: Floats
    sales: Floats
    eggs: NDArray[np.int32]
    young: NDArray[np.int32]
    surplus: NDArray[np.int32]
    present: NDArray[np.int32]
    reached: NDArray[np.bool_]


class Record:
    """The same while it is filled: [seasons, runs], so that a season is one stretch of memory."""

    def __init__(self, seasons: int, runs: int) -> None:
        """All zero."""
        whole = (seasons, runs)
        self.arrays = Played(
            met_season=np.zeros(runs, dtype=np.int16),
            met_egg=np.zeros(runs, dtype=np.int32),
            paid=np.zeros(whole),
            sales=np.zeros(whole),
            eggs=np.zeros(whole, dtype=np.int32),
            young=np.zeros(whole, dtype=np.int32),
            surplus=np.zeros(runs, dtype=np.int32),
            present=np.zeros(whole, dtype=np.int32),
            reached=np.zeros(whole, dtype=np.bool_),
        )

    def part(self, begin: int, end: int) -> Played:
        """The arrays of some runs, [seasons, runs], to be filled."""
        return Played(**{f.name: getattr(self.arrays, f.name)[..., begin:end] for f in fields(Played)})

    def finished(self) -> Played:
        """The whole, a row a run, read-only."""
        turned = {f.name: getattr(self.arrays, f.name).T for f in fields(Played)}
        for array in turned.values():
            array.setflags(write=False)
        return Played(**turned)
