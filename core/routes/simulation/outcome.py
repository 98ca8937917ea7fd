"""What one season comes to in every run."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.routes.simulation.clutches import Clutches, Shown
from core.routes.simulation.flock import Tally
from core.routes.simulation.looks import Look
from core.routes.simulation.lots import Floats, Indices


@dataclass(frozen=True)
class Outcome:
    """Arrays over runs, filled while the season is played.

    surplus: young neither counted nor held. sales: what they can be expected to bring, given what they show.
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
    def of(clutches: Clutches, rows: int) -> Outcome:
        """The outcome before anything is counted or held back. rows: of the goal."""
        eggs, young = clutches.eggs.sum(axis=0), clutches.young.sum(axis=0)
        runs = len(eggs)
        return Outcome(
            eggs=eggs,
            young=young,
            surplus=young.copy(),
            sales=np.zeros(runs),
            met=np.zeros(runs, dtype=np.bool_),
            egg=np.zeros(runs, dtype=np.intp),
            filled=np.zeros((rows, runs), dtype=np.int32),
        )


@dataclass(frozen=True)
class Scene:
    """Some runs of a season, with what is looked for in them: the clutches of `runs`, by pattern shown.

    runs: [columns], which runs of the flock and of the outcome the clutches' columns are.
    """

    runs: Indices
    clutches: Clutches
    look: Look
    shown: Shown
    outcome: Outcome

    def meet(self, columns: Indices, clutch: Indices, position: Indices) -> None:
        """The goal is met in some columns, by an egg of a clutch: its position there, from 1."""
        eggs = self.clutches.eggs.take(columns, axis=1)
        before = np.where(np.arange(len(eggs))[:, None] < clutch, eggs, 0).sum(axis=0)
        self.outcome.met[self.runs[columns]] = True
        self.outcome.egg[self.runs[columns]] = before + position
