"""The pairs that come up in play: true genotypes as numbers, and what a female lays with a male."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from core.plan.model import Sex
from core.routes.problem import Genotype, Problem
from core.routes.simulation.learning import UNKNOWN, look_up
from core.routes.simulation.lots import Binomials, Floats, Indices, Lots

# An animal that is not a working breeder, and the pairs that come of it.
BARREN = 0
NOTHING, SLUGS = 0, 1
# Above this many combinations of kinds a table of all of them would fill memory.
_MOST_COMBINATIONS = 1 << 22
# What is in a clutch, in one number: eggs, from this bit on young, from twice as far on hits. Such numbers add up.
_FIELD = 20
_EGGS = (1 << _FIELD) - 1
ONE_YOUNG = 1 << _FIELD
# Eggs, young and hits of larger clutches make too many combinations for a table.
LARGEST_COUNTED = 40


def eggs_of(packed: Indices) -> Indices:
    """Eggs of clutches, or of sums of them."""
    return packed & _EGGS


def young_of(packed: Indices) -> Indices:
    """Live young of clutches, or of sums of them."""
    return packed >> _FIELD & _EGGS


def hits_of(packed: Indices) -> Indices:
    """Young that fit the goal's first row, where they were drawn."""
    return packed >> 2 * _FIELD


class Kinds:
    """Numbers for the true genotypes of one sex, from 1; 0 is `BARREN`."""

    def __init__(self) -> None:
        """Start with `BARREN` only."""
        self.genotypes: list[Genotype] = [()]
        self._numbers: dict[Genotype, int] = {}

    def number(self, genotype: Genotype) -> int:
        """The kind of animals of this genotype."""
        found = self._numbers.get(genotype)
        if found is None:
            found = self._numbers[genotype] = len(self.genotypes)
            self.genotypes.append(genotype)
        return found

    def __len__(self) -> int:
        return len(self.genotypes)


class Pairs:
    """Numbers for pairs of a male and a female kind in one pairing of the route, as they come up."""

    def __init__(self, problem: Problem) -> None:
        """Start with no pairs but `NOTHING` and `SLUGS`."""
        self.problem = problem
        self.kinds: dict[Sex, Kinds] = {"male": Kinds(), "female": Kinds()}
        # Per pair: the pairing and the two kinds.
        self.matings: list[tuple[int, int, int]] = [(0, BARREN, BARREN)] * 2
        # Every distinct set of condition bits that young can fit; and per pair which of them, with chances.
        self.masks: list[int] = []
        self.young: list[tuple[Indices, Floats]] = [(np.empty(0, dtype=np.intp), np.empty(0))] * 2
        self._mask_numbers: dict[int, int] = {}
        # Per pair, the share of viable eggs; None for females that never lay.
        self.viable: list[float | None] = [None, 0.0]
        self._same: dict[tuple[int, int], tuple[tuple[Indices, Floats], float]] = {}
        self._litters: dict[tuple[tuple[int, float], ...], tuple[tuple[Indices, Floats], float]] = {}
        self._clutches = _Clutches(problem)
        self._rows: dict[bool, Indices] = {counted: np.empty(0, dtype=np.intp) for counted in (False, True)}
        self._shares: Floats = np.empty((3, 0))
        self._numbers: dict[tuple[int, int, int], int] = {}
        self._males = self._females = 32
        self._table: Indices | None = None
        self._fill_table()

    def __len__(self) -> int:
        return len(self.matings)

    def find(self, pairings: Indices, males: NDArray[np.int32], females: NDArray[np.int32]) -> Indices:
        """The pair of each male and female kind: [clutches, runs]; pairings may have one column."""
        if len(self.kinds["male"]) > self._males or len(self.kinds["female"]) > self._females:
            self._fill_table()
        codes = np.multiply(males, self._females, dtype=np.intp)
        codes += females
        codes += pairings * (self._males * self._females)
        if self._table is None:
            distinct, where = np.unique(codes, return_inverse=True)
            numbers = [self._number(code) for code in distinct.tolist()]
            return np.array(numbers, dtype=np.intp).take(where.reshape(codes.shape))
        return look_up(self._table, codes, self._learn)

    def lay(self, rng: np.random.Generator, pairs: Indices, *, counted: bool) -> Indices:
        """What is in one clutch of each pair, packed: [clutches, runs]; with hits where they are to be counted."""
        return self._clutches.draw(rng, self._clutch_rows(counted=counted).take(pairs))

    def _clutch_rows(self, *, counted: bool) -> Indices:
        """The row of each pair's clutches."""
        rows = self._rows[counted]
        if len(rows) < len(self):
            new = range(len(rows), len(self))
            hits = [hit or None for hit in self._told()[0].tolist()] if counted else [None] * len(self)
            more = self._clutches.rows([(self.viable[pair], hits[pair]) for pair in new])
            rows = self._rows[counted] = np.concatenate((rows, more))
        return rows

    def income(self) -> tuple[Floats, Floats]:
        """Per pair, what the young of a clutch can be expected to bring, and what one goal animal could."""
        return self._told()[1], self._told()[2]

    def _told(self) -> Floats:
        """Per pair, the share of live young that fit the goal's first row, and the two of `income`: [3, pairs]."""
        known, total = self._shares.shape[1], len(self.young)
        if known < total:
            young = self.young[known:]
            pair = np.repeat(np.arange(len(young)), [len(masks) for masks, _ in young])
            masks = np.concatenate([numbers for numbers, _ in young])
            chance = np.concatenate([chances for _, chances in young])
            price = np.array([self.problem.price(mask) for mask in self.masks] or [0.0])[masks]
            goal = np.array([mask & 1 for mask in self.masks] or [0])[masks]
            hit, worth, both = (
                np.bincount(pair, chance * own, minlength=len(young)) for own in (goal, price, goal * price)
            )
            each = [self._clutches.mean_young(viable) for viable in self.viable[known:]]
            more = np.array([hit, worth * each, both / np.where(hit > 0, hit, 1.0)])
            self._shares = np.concatenate((self._shares, more), axis=1)
        return self._shares

    def genotypes(self, pair: int) -> tuple[Genotype, Genotype]:
        """The true genotypes of a pair."""
        _, male, female = self.matings[pair]
        return self.kinds["male"].genotypes[male], self.kinds["female"].genotypes[female]

    def _fill_table(self) -> None:
        """Lay the table out anew, with room to grow; none where it would be too large."""
        while self._males < len(self.kinds["male"]):
            self._males *= 2
        while self._females < len(self.kinds["female"]):
            self._females *= 2
        shape = len(self.problem.pairings), self._males, self._females
        if shape[0] * shape[1] * shape[2] > _MOST_COMBINATIONS:
            self._table = None
            return
        table = np.full(shape, UNKNOWN, dtype=np.intp)
        table[:, BARREN, :] = SLUGS
        table[:, :, BARREN] = NOTHING
        for mating, number in self._numbers.items():
            table[mating] = number
        self._table = table.ravel()

    def _learn(self, codes: list[int]) -> None:
        """Put the pairs of these codes into the table."""
        if self._table is not None:
            self._table[codes] = [self._number(code) for code in codes]

    def _number(self, code: int) -> int:
        """The pair of a code, its young worked out where it is new."""
        rest, female = divmod(code, self._females)
        pairing, male = divmod(rest, self._males)
        if female == BARREN:
            return NOTHING
        if male == BARREN:
            return SLUGS
        key = pairing, male, female
        if key not in self._numbers:
            self._numbers[key] = len(self.matings)
            self.matings.append(key)
            if key[1:] not in self._same:
                self._same[key[1:]] = self._work_out(len(self.matings) - 1)
            self.young.append(self._same[key[1:]][0])
            self.viable.append(self._same[key[1:]][1])
        return self._numbers[key]

    def _work_out(self, pair: int) -> tuple[tuple[Indices, Floats], float]:
        """What the live young of a pair fit, with chances; and the share of eggs that are viable."""
        masks = tuple(self.problem.masks(*self.genotypes(pair)).items())
        if masks not in self._litters:
            viable = sum(chance for _, chance in masks)
            chances = np.array([chance for _, chance in masks if viable]) / (viable or 1.0)
            numbers = np.array([self._mask_number(mask) for mask, _ in masks if viable], dtype=np.intp)
            self._litters[masks] = (numbers, chances), min(viable, 1.0)
        return self._litters[masks]

    def _mask_number(self, mask: int) -> int:
        found = self._mask_numbers.get(mask)
        if found is None:
            found = self._mask_numbers[mask] = len(self.masks)
            self.masks.append(mask)
        return found


class _Clutches:
    """What is in a clutch, for each share of viable eggs and of hits among the live young."""

    def __init__(self, problem: Problem) -> None:
        self._biology = problem.biology
        self._binomials = Binomials(len(problem.biology.sizes) - 1)
        self._lots = Lots(cell_bits=11)
        own = problem.biology
        laid = float(own.sizes @ np.arange(len(own.sizes))) * (1 - own.lost) * self._lays()
        self._mean = laid * own.fertile * own.hatches
        self._rows: dict[tuple[float | None, ...], int] = {}

    def rows(self, shares: Sequence[tuple[float | None, float | None]]) -> Indices:
        """The rows of pairs with these shares; viable None: of females that never lay. hit None: hits are not asked."""
        keys = [tuple([None if own is None else round(own, 14) for own in pair]) for pair in shares]
        new = [key for key in dict.fromkeys(keys) if key not in self._rows]
        if new:
            found = [self._packed(*key) for key in new]
            table = np.zeros((2, len(new), max(len(values) for values, _ in found)))
            for row, (values, chances) in enumerate(found):
                table[:, row, : len(values)] = values, chances
            where = self._lots.add(table[0].astype(np.intp), table[1])
            self._rows |= zip(new, where.tolist(), strict=True)
        return np.array([self._rows[key] for key in keys], dtype=np.intp)

    def draw(self, rng: np.random.Generator, rows: Indices) -> Indices:
        """Eggs, young and hits, packed."""
        return self._lots.draw(rng, rows)

    def mean_young(self, viable: float | None) -> float:
        """Live young of one clutch, on average."""
        return 0.0 if viable is None else self._mean * viable

    def _lays(self) -> float:
        # Several clutches a season stand or fall together in laying, so that is drawn apart from them.
        return self._biology.lays if self._biology.clutches == 1 else 1.0

    def _packed(self, viable: float | None, hit: float | None) -> tuple[Indices, Floats]:
        """What a clutch may hold, packed, and its chance."""
        both = self._chances(viable)
        eggs, young = np.nonzero(both)
        packed, chances = eggs | young << _FIELD, both[eggs, young]
        if hit is None:
            return packed, chances
        every = self._binomials.chances(np.array([hit]))[0][young] * chances[:, None]
        place, hits = np.nonzero(every)
        return packed[place] | hits << 2 * _FIELD, every[place, hits]

    def _chances(self, viable: float | None) -> Floats:
        """The chance of n eggs and k live young: [n, k]."""
        own = self._biology
        chances = np.zeros((len(own.sizes),) * 2)
        chances[0, 0] = 1.0
        if viable is None:
            return chances
        lays = self._lays()
        hatched = self._binomials.chances(np.array([own.fertile * own.hatches * viable]))[0]
        laid = own.sizes[:, None] * (1 - own.lost) * hatched
        laid[:, 0] += own.sizes * own.lost
        return np.asarray(chances * (1 - lays) + laid * lays)
