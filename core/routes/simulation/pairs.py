"""The pairs that come up in play: true genotypes as numbers, and what a female lays with a male."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from core.plan.model import Sex
from core.routes.problem import Genotype, Problem
from core.routes.simulation.lots import Binomials, Floats, Indices, Lots

# Kinds and pairs that mean no genotype: an animal that is not a working breeder, and what comes of it.
BARREN = 0
NOTHING, SLUGS = 0, 1
# Above this many combinations of kinds a table of all of them would fill memory.
_MOST_COMBINATIONS = 1 << 23
_EGG_BITS = 10


class Kinds:
    """Numbers for the true genotypes of one sex, from 1; 0 is `BARREN`."""

    def __init__(self) -> None:
        self.genotypes: list[Genotype] = [()]
        self._numbers: dict[Genotype, int] = {}

    def number(self, genotype: Genotype) -> int:
        """The kind of animals of this genotype."""
        found = self._numbers.get(genotype)
        if found is None:
            found = self._numbers[genotype] = len(self.genotypes)
            self.genotypes.append(genotype)
        return found


class Pairs:
    """Numbers for pairs of a male and a female kind, as they come up."""

    def __init__(self, problem: Problem) -> None:
        """Start with no pairs but `NOTHING` and `SLUGS`."""
        self.problem = problem
        self.kinds: dict[Sex, Kinds] = {"male": Kinds(), "female": Kinds()}
        self.parents: list[tuple[int, int]] = [(BARREN, BARREN), (BARREN, BARREN)]
        # Per pair, condition bits to chances among its live young.
        self.young: list[dict[int, float]] = [{}, {}]
        self._stride = 64
        self._table: Indices = np.empty(0, dtype=np.intp)
        self._numbers: dict[tuple[int, int], int] = {}
        self._clutches = _Clutches(problem)
        self._clutch_rows: list[int] = [self._clutches.row(None), self._clutches.row(0.0)]
        self._fill_table()

    def __len__(self) -> int:
        return len(self.parents)

    def find(self, males: NDArray[np.int32], females: NDArray[np.int32]) -> Indices:
        """The pair of each male and female kind."""
        if len(self.kinds["female"].genotypes) > self._stride or self._males() * self._stride > len(self._table):
            self._fill_table()
        if not len(self._table):
            return self._find_each(males, females)
        codes = np.multiply(males, self._stride, dtype=np.intp)
        codes += females
        found = self._table.take(codes)
        if found.size and found.min() < 0:
            for code in np.unique(codes[found < 0]).tolist():
                self._table[code] = self._number(*divmod(code, self._stride))
            found = self._table.take(codes)
        return found

    def lay(self, rng: np.random.Generator, pairs: Indices) -> tuple[Indices, Indices]:
        """Eggs and live young of one clutch of each pair (none where the female does not lay)."""
        packed = self._clutches.draw(rng, np.array(self._clutch_rows, dtype=np.intp).take(pairs))
        return packed >> _EGG_BITS, packed & (2**_EGG_BITS - 1)

    def _males(self) -> int:
        return len(self.kinds["male"].genotypes)

    def _fill_table(self) -> None:
        """Lay the table out anew, with room to grow; none where it would be too large."""
        while self._stride < len(self.kinds["female"].genotypes):
            self._stride *= 2
        size = 64
        while size < self._males():
            size *= 2
        if size * self._stride > _MOST_COMBINATIONS:
            self._table = np.empty(0, dtype=np.intp)
            return
        self._table = np.full(size * self._stride, -1, dtype=np.intp)
        self._table[: self._stride] = SLUGS
        self._table[:: self._stride] = NOTHING
        for (male, female), number in self._numbers.items():
            self._table[male * self._stride + female] = number

    def _find_each(self, males: NDArray[np.int32], females: NDArray[np.int32]) -> Indices:
        codes = np.multiply(males, self._stride, dtype=np.intp) + females
        distinct, where = np.unique(codes, return_inverse=True)
        numbers = [self._number(*divmod(code, self._stride)) for code in distinct.tolist()]
        return np.array(numbers, dtype=np.intp).take(where.reshape(codes.shape))

    def _number(self, male: int, female: int) -> int:
        if female == BARREN:
            return NOTHING
        if male == BARREN:
            return SLUGS
        found = self._numbers.get((male, female))
        if found is None:
            found = self._numbers[male, female] = len(self.parents)
            masks = self.problem.masks(*self.genotypes(male, female))
            viable = sum(masks.values())
            self.parents.append((male, female))
            self.young.append({mask: chance / viable for mask, chance in masks.items()} if viable else {})
            self._clutch_rows.append(self._clutches.row(min(viable, 1.0)))
        return found

    def genotypes(self, male: int, female: int) -> tuple[Genotype, Genotype]:
        """The true genotypes of two kinds."""
        return self.kinds["male"].genotypes[male], self.kinds["female"].genotypes[female]


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
        hatched = self._binomials.chances(own.fertile * own.hatches * viable)
        laid = own.sizes[:, None] * (1 - own.lost) * hatched
        laid[:, 0] += own.sizes * own.lost
        return chances * (1 - lays) + laid * lays
