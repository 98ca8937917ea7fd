"""The pairs that come up in play: true genotypes as numbers, and what a female lays with a male."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from core.plan.model import Sex
from core.routes.problem import Genotype, Problem
from core.routes.simulation.lots import Binomials, Floats, Indices, Lots

# An animal that is not a working breeder, and the pairs that come of it.
BARREN = 0
NOTHING, SLUGS = 0, 1
_UNKNOWN = -1
# Above this many combinations of kinds a table of all of them would fill memory.
_MOST_COMBINATIONS = 1 << 22
_EGG_BITS = 10


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
        self._same: dict[tuple[int, int], tuple[tuple[Indices, Floats], int]] = {}
        self._clutches = _Clutches(problem)
        self._clutch_rows: Indices = np.array([self._clutches.row(None), self._clutches.row(0.0)], dtype=np.intp)
        self._worth: Floats = np.empty(0)
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
        found = self._table.take(codes)
        if found.size and found.min() == _UNKNOWN:
            new = np.zeros(len(self._table), dtype=np.bool_)
            new[codes[found == _UNKNOWN]] = True
            for code in np.flatnonzero(new).tolist():
                self._table[code] = self._number(code)
            found = self._table.take(codes)
        return found

    def lay(self, rng: np.random.Generator, pairs: Indices) -> tuple[Indices, Indices]:
        """Eggs and live young of one clutch of each pair (none where the female does not lay)."""
        if len(self._clutch_rows) < len(self.matings):
            rows = [self._same[mating[1:]][1] for mating in self.matings[len(self._clutch_rows) :]]
            self._clutch_rows = np.concatenate((self._clutch_rows, np.array(rows, dtype=np.intp)))
        packed = self._clutches.draw(rng, self._clutch_rows.take(pairs))
        return packed >> _EGG_BITS, packed & (2**_EGG_BITS - 1)

    def worth(self) -> Floats:
        """Per pair, what a surplus young can be expected to bring."""
        new = range(len(self._worth), len(self.young))
        if new:
            prices = np.array([self.problem.price(mask) for mask in self.masks] or [0.0])
            more = [float(chances @ prices[masks]) for masks, chances in self.young[new.start :]]
            self._worth = np.concatenate((self._worth, more))
        return self._worth

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
        table = np.full(shape, _UNKNOWN, dtype=np.intp)
        table[:, BARREN, :] = SLUGS
        table[:, :, BARREN] = NOTHING
        for mating, number in self._numbers.items():
            table[mating] = number
        self._table = table.ravel()

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
        return self._numbers[key]

    def _work_out(self, pair: int) -> tuple[tuple[Indices, Floats], int]:
        """What the live young of a pair fit, with chances; and the row of its clutches."""
        masks = self.problem.masks(*self.genotypes(pair))
        viable = sum(masks.values())
        if not viable:
            return self.young[SLUGS], self._clutches.row(0.0)
        chances = np.array(list(masks.values())) / viable
        numbers = [self._mask_number(mask) for mask in masks]
        return (np.array(numbers, dtype=np.intp), chances), self._clutches.row(min(viable, 1.0))

    def _mask_number(self, mask: int) -> int:
        found = self._mask_numbers.get(mask)
        if found is None:
            found = self._mask_numbers[mask] = len(self.masks)
            self.masks.append(mask)
        return found


class _Clutches:
    """How many eggs a female lays, and how many live young hatch, for each share of viable eggs."""

    def __init__(self, problem: Problem) -> None:
        self._biology = problem.biology
        self._binomials = Binomials(len(problem.biology.sizes) - 1)
        self._lots = Lots(cell_bits=12)
        self._rows: dict[float | None, int] = {}

    def row(self, viable: float | None) -> int:
        """The row of pairs with this share of viable eggs; None: of females that never lay."""
        key = None if viable is None else round(viable, 14)
        if key not in self._rows:
            eggs, young = np.indices((len(self._biology.sizes),) * 2)
            chances = self._chances(key).ravel()[None]
            values = (eggs << _EGG_BITS | young).ravel()[None]
            self._rows[key] = self._lots.add(values.astype(np.intp), chances)
        return self._rows[key]

    def draw(self, rng: np.random.Generator, rows: Indices) -> Indices:
        """Eggs and young, packed."""
        return self._lots.draw(rng, rows)

    def _chances(self, viable: float | None) -> Floats:
        """The chance of n eggs and k live young: [n, k]."""
        own = self._biology
        chances = np.zeros((len(own.sizes),) * 2)
        chances[0, 0] = 1.0
        if viable is None:
            return chances
        # Several clutches a season stand or fall together in laying, so that is drawn apart from them.
        lays = own.lays if own.clutches == 1 else 1.0
        hatched = self._binomials.chances(np.array([own.fertile * own.hatches * viable]))[0]
        laid = own.sizes[:, None] * (1 - own.lost) * hatched
        laid[:, 0] += own.sizes * own.lost
        return np.asarray(chances * (1 - lays) + laid * lays)
