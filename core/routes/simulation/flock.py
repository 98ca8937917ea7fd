"""The animals of many runs at once: who is there, what they carry, and who grows up."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.genetics.beliefs import draw
from core.routes.problem import Herd, Problem
from core.routes.simulation.lots import Floats, Indices, Lots
from core.routes.simulation.pairs import BARREN, NOTHING, Kinds, Pairs

Tally = NDArray[np.int32]

# Counts of a held herd, packed in one number: all that were ever held, and, from these bits on, those of them that are
# fit to breed, animals of breeder size, and young growing up.
_FIT, _GROWN, _GROWING = 16, 32, 48
_COUNT = (1 << 16) - 1


@dataclass(frozen=True)
class Places:
    """Where each herd's animals stand in a flock's `kinds`: herd h has rows first[h].. first[h] + count - 1."""

    first: tuple[int, ...]
    width: int


def places(problem: Problem) -> Places:
    """Every herd's rows; the last one of all stays `BARREN` and stands for nobody."""
    first, total = [], 0
    for herd in problem.herds:
        first.append(total)
        total += herd.count
    return Places(tuple(first), total + 1)


class Flock:
    """The runs of a chunk that still go on. Arrays have one column a run.

    runs: their numbers. kinds: [places, runs of the chunk], true genotypes; of a held herd only those that are fit to
    breed, in the order held. columns: [runs], a run's place in the chunk. tallies: [held herds, runs], packed
    counts of each. need: [goal rows, runs], animals still wanted. eggs, paid: [runs], laid and paid so far.
    pairs: [clutches, runs], the pair of every clutch in laying order; roster: [runs], the roster they are of, by its
    number in `alike`; of the runs that are `stale`, other animals are grown up now.
    """

    def __init__(self, problem: Problem, pairs: Pairs, numbers: range, rng: np.random.Generator) -> None:
        """Draw the true genotypes of all bought and owned animals, and whether they work."""
        self.problem, self.places = problem, places(problem)
        self.runs: Indices = np.arange(numbers.start, numbers.stop)
        runs = len(numbers)
        self.columns: Indices = np.arange(runs)
        self.kinds: NDArray[np.int32] = np.full((self.places.width, runs), BARREN, dtype=np.int32)
        self._row = {herd.index: row for row, herd in enumerate(herd for herd in problem.herds if herd.held)}
        self.tallies: Indices = np.zeros((len(self._row), runs), dtype=np.intp)
        self.need: Tally = np.repeat(np.array(problem.wanted, dtype=np.int32)[:, None], runs, axis=1)
        self.eggs: Tally = np.zeros(runs, dtype=np.int32)
        self.paid: Floats = np.zeros(runs)
        self.alike: object = None
        self.pairs: Indices = np.empty((0, runs), dtype=np.intp)
        self.roster: Indices = np.zeros(runs, dtype=np.intp)
        self.stale: NDArray[np.bool_] = np.zeros(runs, dtype=np.bool_)
        # What is added to a herd's tally in a season, when young held back are due: by column.
        self._due: dict[tuple[int, int], Indices] = {}
        self._draw_founders(pairs, rng)

    def __len__(self) -> int:
        return len(self.runs)

    def vacancies(self, herd: Herd) -> Indices:
        """How many more young each run may hold back for a herd."""
        return np.asarray(herd.count - (self.tallies[self._row[herd.index]] & _COUNT))

    def fit(self, herd: Herd) -> Indices:
        """Young held back so far that are fit to breed."""
        return np.asarray(self.tallies[self._row[herd.index]] >> _FIT & _COUNT)

    def grown(self, herd: Herd, runs: Indices) -> Indices:
        """Held animals of breeder size in some runs."""
        return np.asarray(self.tallies[self._row[herd.index]].take(runs) >> _GROWN & _COUNT)

    def reared(self) -> tuple[Indices, Indices]:
        """Held animals of breeder size, and young growing up, of all herds."""
        total = self.tallies.sum(axis=0)
        return total >> _GROWN & _COUNT, total >> _GROWING

    def hold(self, herd: Herd, season: int, runs: Indices, held: Indices, fit: Indices) -> None:
        """Count young held back at the end of a season in some runs; the caller sets `kinds` of the fit ones."""
        due = np.zeros(self.kinds.shape[1], dtype=np.intp)
        due[self.columns.take(runs)] = (fit << _GROWN) - (held << _GROWING)
        self._due[herd.index, season + self.problem.biology.matures[herd.sex]] = due
        self.tallies[self._row[herd.index]][runs] += held * (1 | 1 << _GROWING) + (fit << _FIT)

    def begin(self, season: int) -> None:
        """Groups whose time is over leave; young due now become breeder-size, or leave when not fit."""
        for index, tally in zip(self._row, self.tallies, strict=True):
            due = self._due.pop((index, season), None)
            if not self.problem.herds[index].there(season):
                self.stale |= tally >> _GROWN > 0
                tally &= (1 << _GROWN) - 1
            elif due is not None:
                due = due.take(self.columns)
                tally += due
                self.stale |= due != 0

    def mate(self, runs: Indices, pairs: Indices) -> None:
        """Set the pairs of some runs: [clutches, those runs]."""
        if len(runs) == len(self):
            self.pairs = pairs
            return
        more = len(pairs) - len(self.pairs)
        if more > 0:
            self.pairs = np.concatenate((self.pairs, np.full((more, len(self)), NOTHING)))
        self.pairs[: len(pairs), runs] = pairs
        self.pairs[len(pairs) :, runs] = NOTHING

    def place(self, herd: Herd, first: Indices, runs: Indices, own: Indices, kinds: NDArray[np.int32]) -> None:
        """Set what animals of a herd carry, run by run, one after the other in each.

        first: by run, the place in the herd of its first one, less how many there are of runs before it. own: of each
        animal, the place of its run in `runs`.
        """
        step = self.kinds.shape[1]
        begin = (first + self.places.first[herd.index]) * step + self.columns.take(runs)
        where = begin.take(own)
        where += np.arange(0, len(own) * step, step)
        self.kinds.reshape(-1)[where] = kinds

    def idle(self) -> NDArray[np.bool_]:
        """Whether a run has no clutch, and no young growing up that could change that."""
        idle = np.bitwise_or.reduce(self.pairs, axis=0) == NOTHING
        idle &= self.reared()[1] == 0
        return np.asarray(idle)

    def keep(self, going_on: NDArray[np.bool_]) -> None:
        """Let the other runs go."""
        where = np.flatnonzero(going_on)
        self.runs, self.columns, self.eggs = self.runs.take(where), self.columns.take(where), self.eggs.take(where)
        self.tallies, self.need = self.tallies.take(where, axis=1), self.need.take(where, axis=1)
        self.pairs, self.paid = self.pairs.take(where, axis=1), self.paid.take(where)
        self.roster, self.stale = self.roster.take(where), self.stale.take(where)

    def _draw_founders(self, pairs: Pairs, rng: np.random.Generator) -> None:
        together = self._draw_named(pairs, rng)
        self._let_work(together, rng)
        for herd in self.problem.herds:
            if herd.held:
                continue
            first = self.places.first[herd.index]
            own = self.kinds[first : first + herd.count]
            if herd.named:
                own[:] = together[list(herd.named)]
                continue
            own[:] = _draw_kinds(herd, pairs, own.shape, rng)
            works = self.problem.biology.works[herd.sex]
            if works < 1:
                own[rng.random(own.shape) >= works] = BARREN

    def _let_work(self, together: NDArray[np.int32], rng: np.random.Generator) -> None:
        """Which of the named animals work; one that is in several herds works in all of them or in none."""
        sexes = {place: herd.sex for herd in self.problem.herds for place in herd.named}
        for place, sex in sexes.items():
            works = self.problem.biology.works[sex]
            if works < 1:
                together[place][rng.random(len(self)) >= works] = BARREN

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
        return np.array(kinds, dtype=np.int32).T.take(drawn, axis=1)


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
