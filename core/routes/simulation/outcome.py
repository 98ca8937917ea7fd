"""What one season comes to in every run."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.routes.simulation.clutches import Clutches, nth_hit
from core.routes.simulation.flock import Tally
from core.routes.simulation.lots import Floats, Indices


@dataclass(frozen=True)
class Outcome:
    """Arrays over runs, filled while the season is played.

    surplus: young neither counted nor held. sales: what they can be expected to bring, given what they show.
    met: whether this season met the goal, by its `egg`-th egg. filled: [goal rows, runs], young that counted.
    """

    clutches: Clutches
    eggs: Indices
    young: Indices
    surplus: Indices
    sales: Floats
    met: NDArray[np.bool_]
    egg: Indices
    filled: Tally

    @staticmethod
    def of(clutches: Clutches, rows: int, worth: Floats | None) -> Outcome:
        """The outcome before anything is counted or held back.

        rows: of the goal. worth: [pairs], what a young of each can be expected to bring; None for nothing at all.
        """
        eggs, young = clutches.eggs.sum(axis=0), clutches.young.sum(axis=0)
        runs = len(eggs)
        return Outcome(
            clutches=clutches,
            eggs=eggs,
            young=young,
            surplus=young.copy(),
            sales=np.zeros(runs) if worth is None else (worth.take(clutches.pairs) * clutches.young).sum(axis=0),
            met=np.zeros(runs, dtype=np.bool_),
            egg=np.zeros(runs, dtype=np.intp),
            filled=np.zeros((rows, runs), dtype=np.int32),
        )

    def add_sales(self, runs: Indices, amounts: Floats) -> None:
        """Add amounts to the sales of these runs, which may come up more than once."""
        self.sales[:] += np.bincount(runs, weights=amounts, minlength=len(self.sales))

    def not_surplus(self, runs: Indices, counts: Indices | None = None) -> None:
        """Take young that counted or are held (one, or as many as `counts`) out of the surplus of each of these runs.

        A run may come up more than once.
        """
        taken = np.bincount(runs, weights=counts, minlength=len(self.surplus))
        self.surplus[:] -= taken.astype(np.intp)

    def meet(self, runs: Indices, clutch: Indices, hits: Indices, nth: Indices, rng: np.random.Generator) -> None:
        """The goal is met in these runs, by the n-th of the hits of a clutch."""
        eggs = self.clutches.eggs.take(runs, axis=1)
        before = np.where(np.arange(len(eggs))[:, None] < clutch, eggs, 0).sum(axis=0)
        own = self.clutches.eggs[clutch, runs]
        self.met[runs] = True
        self.egg[runs] = before + nth_hit(own, hits, nth, rng)
