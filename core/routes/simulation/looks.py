"""What a season looks for in its young: patterns of conditions, and their chances for every pair."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from core.plan.model import Sex
from core.routes.simulation.lots import Binomials, Floats, Indices, Lots
from core.routes.simulation.pairs import Pairs

# A row for what cannot be.
NEVER = -1
# Chances below this are what subtracting leaves of nothing.
_DUST = 1e-13


class Look:
    """The condition bits that matter in each pairing, and the patterns of them that a young can show.

    A pattern is the set of those bits that a young fits, and never empty: all other young are "the rest". The
    patterns of a clutch are drawn one after the other, each among the young that the ones before have left.
    """

    def __init__(self, pairs: Pairs, binomials: Binomials, bits: Sequence[int]) -> None:
        """bits: per pairing of the route, the condition bits that matter in it."""
        self._pairs, self._binomials = pairs, binomials
        self._bits = list(dict.fromkeys(bits))
        self._which: Indices = np.array([self._bits.index(b) for b in bits], dtype=np.intp)
        self.patterns: list[int] = []
        self._known = 0
        self.rows: Indices = np.empty((0, 0), dtype=np.intp)
        self.worth: Floats = np.empty((0, 0))
        self.worth_of_rest: Floats = np.empty(0)
        self._young = Lots(cell_bits=5)
        self._young_rows: dict[tuple[int, int, int], int] = {}
        self._young_table: Indices = np.empty((0, 0), dtype=np.intp)

    def places(self, pairs: Indices, pairings: Indices) -> Indices:
        """Where a mating is looked up, from its pair and its pairing: columns of `rows` and `worth`.

        rows: [patterns, places], the binomial row of a pattern's chance (plus the young left), or `NEVER`.
        worth: [patterns, places], what a surplus young of the pattern can be expected to bring.
        """
        if self._known < len(self._pairs):
            self._learn()
        if len(self._bits) == 1:
            return pairs
        return pairs + (self._which * self._known).take(pairings)

    def draw_young(self, rng: np.random.Generator, places: Indices, patterns: Indices, sex: Sex) -> NDArray[np.int32]:
        """The kind of one young of each pattern, from each place; all of them are of this sex."""
        if self._young_table.shape != self.rows.shape:
            self._lay_out_young()
        rows = self._young_table[patterns, places]
        if rows.size and rows.min() == NEVER:
            codes = np.unique((patterns * self.rows.shape[1] + places)[rows == NEVER])
            for pattern, place in (divmod(code, self.rows.shape[1]) for code in codes.tolist()):
                self._young_table[pattern, place] = self._young_row(pattern, place, sex)
            rows = self._young_table[patterns, places]
        return self._young.draw(rng, rows).astype(np.int32)

    def _lay_out_young(self) -> None:
        self._young_table = np.full(self.rows.shape, NEVER, dtype=np.intp)
        for (pattern, which, pair), row in self._young_rows.items():
            self._young_table[pattern, which * self._known + pair] = row

    def _young_row(self, pattern: int, place: int, sex: Sex) -> int:
        which, pair = divmod(place, self._known)
        found = self._young_rows.get((pattern, which, pair))
        if found is None:
            kinds, bits = self._pairs.kinds[sex], self._bits[which]
            chances: dict[int, float] = {}
            parents = self._pairs.genotypes(*self._pairs.parents[pair])
            for (mask, genotype), chance in self._pairs.problem.young(*parents).items():
                if mask & bits == self.patterns[pattern] and chance > 0:
                    kind = kinds.number(genotype)
                    chances[kind] = chances.get(kind, 0.0) + chance
            found = self._young.add(np.array([list(chances)], dtype=np.intp), np.array([list(chances.values())]))
            self._young_rows[pattern, which, pair] = found
        return found

    def _learn(self) -> None:
        """Take in the pairs that have come up since."""
        old = self.rows.reshape(len(self.patterns), len(self._bits), self._known)
        old_worth = self.worth.reshape(old.shape)
        old_rest = self.worth_of_rest.reshape(old.shape[1:])
        new = range(self._known, len(self._pairs))
        found = [[self._split(pair, bits) for pair in new] for bits in self._bits]
        shape = len(self.patterns), len(self._bits), len(self._pairs)
        rows, worth, rest = np.full(shape, NEVER, dtype=np.intp), np.zeros(shape), np.zeros(shape[1:])
        rows[: len(old), :, : self._known] = old
        worth[: len(old), :, : self._known] = old_worth
        rest[:, : self._known] = old_rest
        for which, splits in enumerate(found):
            for pair, (by_pattern, left) in zip(new, splits, strict=True):
                rest[which, pair] = left
                for pattern, (row, value) in by_pattern.items():
                    rows[pattern, which, pair], worth[pattern, which, pair] = row, value
        self._known = len(self._pairs)
        self.rows, self.worth = rows.reshape(shape[0], rest.size), worth.reshape(shape[0], rest.size)
        self.worth_of_rest = rest.ravel()

    def _split(self, pair: int, bits: int) -> tuple[dict[int, tuple[int, float]], float]:
        """Per pattern of a pair's young its binomial row and worth; and the worth of the rest."""
        chances: dict[int, float] = {}
        worth: dict[int, float] = {}
        for mask, chance in self._pairs.young[pair].items():
            shown = mask & bits
            chances[shown] = chances.get(shown, 0.0) + chance
            worth[shown] = worth.get(shown, 0.0) + chance * self._pairs.problem.price(mask)
        split = {}
        left = 1.0
        # New patterns go to the end, so that the order is the same for every pair.
        self.patterns += [shown for shown in chances if shown and chances[shown] > 0 and shown not in self.patterns]
        for index, shown in enumerate(self.patterns):
            chance = chances.get(shown, 0.0)
            if chance > 0:
                among = 1.0 if left - chance < _DUST else chance / left
                split[index] = self._binomials.base(among), worth[shown] / chance
                left -= chance
        rest = chances.get(0, 0.0)
        return split, worth[0] / rest if rest > 0 else 0.0
