"""The animals of many runs at once: who is there, what they carry, and who grows up."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.genetics.beliefs import draw
from core.routes.problem import Herd, Problem
from core.routes.simulation.lots import Floats, Indices, Lots
from core.routes.simulation.pairs import BARREN, Kinds, Pairs

Tally = NDArray[np.int32]


@dataclass(frozen=True)
class Places:
    """Where each herd's animals stand in a flock's `kinds`: herd h has rows first[h].. first[h] + count - 1."""

    first: tuple[int, ...]
    rows: int


def places(problem: Problem) -> Places:
    """Every herd's rows; the last row of all stays `BARREN` and stands for nobody."""
    first, total = [], 0
    for herd in problem.herds:
        first.append(total)
        total += herd.count
    return Places(tuple(first), total + 1)


class Flock:
    """The runs of a chunk that still go on. Arrays have one column a run.

    runs: their numbers. kinds: [places, runs], true genotypes; of a held herd only those that are
    fit to breed, in the order held. grown, growing, ever, fit: [herds, runs], of held herds: breeder-size animals,
    young growing up, all that were ever held, and those of them that are fit to breed. need: [goal rows, runs],
    animals still wanted. eggs, paid: [runs], laid and paid so far.
    """

    def __init__(self, problem: Problem, pairs: Pairs, numbers: range, rng: np.random.Generator) -> None:
        """Draw the true genotypes of all bought and owned animals, and whether they work."""
        self.problem, self.places = problem, places(problem)
        self.runs: Indices = np.arange(numbers.start, numbers.stop)
        runs = len(numbers)
        self.kinds: NDArray[np.int32] = np.full((self.places.rows, runs), BARREN, dtype=np.int32)
        herds = len(problem.herds)
        self.grown: Tally = np.zeros((herds, runs), dtype=np.int32)
        self.growing: Tally = np.zeros((herds, runs), dtype=np.int32)
        self.ever: Tally = np.zeros((herds, runs), dtype=np.int32)
        self.fit: Tally = np.zeros((herds, runs), dtype=np.int32)
        self.need: Tally = np.repeat(np.array(problem.wanted, dtype=np.int32)[:, None], runs, axis=1)
        self.eggs: Tally = np.zeros(runs, dtype=np.int32)
        self.paid: Floats = np.zeros(runs)
        # By herd and the season in which they are due: young held back, and those of them that are fit, [2, runs].
        self._cohorts: dict[tuple[int, int], Tally] = {}
        self._draw_founders(pairs, rng)

    def __len__(self) -> int:
        return len(self.runs)

    def hold(self, herd: Herd, season: int, runs: Indices, held: Indices, fit: Indices) -> None:
        """Count young held back in some runs at the end of a season; the caller sets `kinds` of the fit ones."""
        due = herd.index, season + self.problem.biology.matures[herd.sex]
        if due not in self._cohorts:
            self._cohorts[due] = np.zeros((2, len(self)), dtype=np.int32)
        self._cohorts[due][0, runs] += held
        self._cohorts[due][1, runs] += fit
        self.growing[herd.index, runs] += held
        self.ever[herd.index, runs] += held
        self.fit[herd.index, runs] += fit

    def begin(self, season: int) -> None:
        """Groups whose time is over leave; young due now become breeder-size, or leave when not fit."""
        for herd in self.problem.herds:
            if not herd.held:
                continue
            due = self._cohorts.pop((herd.index, season), None)
            if not herd.there(season):
                self.grown[herd.index] = self.growing[herd.index] = 0
            elif due is not None:
                self.growing[herd.index] -= due[0]
                self.grown[herd.index] += due[1]

    def keep(self, going_on: NDArray[np.bool_]) -> None:
        """Let the other runs go."""
        where = np.flatnonzero(going_on)
        self.runs, self.eggs, self.paid = self.runs[where], self.eggs[where], self.paid[where]
        self.kinds = self.kinds.take(where, axis=1)
        self.grown, self.growing = self.grown.take(where, axis=1), self.growing.take(where, axis=1)
        self.ever, self.fit = self.ever.take(where, axis=1), self.fit.take(where, axis=1)
        self.need = self.need.take(where, axis=1)
        self._cohorts = {key: own.take(where, axis=1) for key, own in self._cohorts.items()}

    def _draw_founders(self, pairs: Pairs, rng: np.random.Generator) -> None:
        together = self._draw_named(pairs, rng)
        for herd in self.problem.herds:
            if herd.held:
                continue
            first = self.places.first[herd.index]
            rows = self.kinds[first : first + herd.count]
            if herd.named:
                rows[:] = together[list(herd.named)]
            else:
                rows[:] = _draw_kinds(herd, pairs, rows.shape, rng)
            works = self.problem.biology.works[herd.sex]
            if works < 1:
                rows[rng.random(rows.shape) >= works] = BARREN

    def _draw_named(self, pairs: Pairs, rng: np.random.Generator) -> NDArray[np.int32]:
        """Kinds of the named animals, drawn together: [named, runs]."""
        problem = self.problem
        if not problem.named:
            return np.empty((0, len(self)), dtype=np.int32)
        sexes = {place: herd.sex for herd in problem.herds for place in herd.named}
        if problem.crowded:
            units = draw(problem.plan, problem.judge.genetics, problem.named, len(self), rng)
            each = np.stack(units, axis=-1)
            return np.stack([_numbered(pairs.kinds[sexes[place]], each[:, place]) for place in sorted(sexes)])
        kinds = [
            [pairs.kinds[sexes[place]].number(genotype) for place, genotype in enumerate(genotypes)]
            for genotypes, _ in problem.together
        ]
        drawn = _draw_one([chance for _, chance in problem.together], (len(self),), rng)
        return np.array(kinds, dtype=np.int32)[drawn].T


def _numbered(kinds: Kinds, genotypes: Indices) -> NDArray[np.int32]:
    """The kinds of genotypes, [runs, units]: [runs]."""
    distinct, where = np.unique(genotypes, axis=0, return_inverse=True)
    numbers = [kinds.number(tuple(genotype)) for genotype in distinct.tolist()]
    return np.array(numbers, dtype=np.int32).take(where.ravel())


def _draw_kinds(herd: Herd, pairs: Pairs, shape: tuple[int, ...], rng: np.random.Generator) -> NDArray[np.int32]:
    kinds = np.array([pairs.kinds[herd.sex].number(genotype) for genotype, _ in herd.prior], dtype=np.int32)
    if len(kinds) == 1:
        return np.full(shape, kinds[0])
    return kinds[_draw_one([chance for _, chance in herd.prior], shape, rng)]


def _draw_one(chances: list[float], shape: tuple[int, ...], rng: np.random.Generator) -> Indices:
    lots = Lots(cell_bits=8)
    lots.add(np.arange(len(chances))[None], np.array([chances]))
    return lots.draw(rng, np.zeros(shape, dtype=np.intp))
