"""What one season comes to in every run."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.routes.simulation.clutches import Clutches, nth_hit
from core.routes.simulation.flock import Tally
from core.routes.simulation.lots import Floats, Indices
from core.routes.simulation.pairs import eggs_of


@dataclass(frozen=True)
class Outcome:
    """Arrays over the runs of a flock, filled while the season is played.

    surplus: young neither counted nor held. sales: what they can be expected to bring.
    met: whether this season met the goal, by its `egg`-th egg. filled: [goal rows, runs], young that counted.
    """

    eggs: Indices
    young: Indices
    surplus: Indices
    sales: Floats
    met: NDArray[np.bool_]
    egg: Indices
    filled: Tally

    @staticmethod
    def of(rows: int, eggs: Indices, young: Indices, sales: Floats) -> Outcome:
        """The outcome of what was laid, before any young is told apart. rows: of the goal."""
        runs = len(sales)
        filled = np.zeros((rows, runs), dtype=np.int32)
        return Outcome(
            eggs, young, young.copy(), sales, np.zeros(runs, dtype=np.bool_), np.zeros(runs, dtype=np.intp), filled
        )

    def meet(
        self,
        clutches: Clutches,
        runs: Indices,
        clutch: Indices,
        hits: Indices,
        nth: Indices,
        rng: np.random.Generator,
    ) -> None:
        """The goal is met in these runs, by the n-th of the hits of a clutch."""
        own = eggs_of(clutches.packed[clutch, runs])
        self.met[runs] = True
        self.egg[runs] = clutches.eggs_before(runs, clutch) + nth_hit(own, hits, nth, rng)
