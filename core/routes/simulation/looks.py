"""What a season looks for in its young: patterns of conditions, and their chances for every pair."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from core.plan.model import Sex
from core.routes.simulation.learning import UNKNOWN, look_up
from core.routes.simulation.lots import Binomials, Floats, Indices, Lots
from core.routes.simulation.pairs import Pairs

# A row for what cannot be.
NEVER = -1
# In place of its kind: a young held back that is not fit to breed when it is due.
LOST = -1
# Chances below this are what subtracting leaves of nothing.
_DUST = 1e-13


class Asked(NamedTuple):
    """What matters of a young: the bits of the goal rows, and for each herd that may take it the bits of its picks."""

    goal: int
    picks: tuple[tuple[int, ...], ...]

    def shown(self, mask: int) -> int:
        """The bits that decide about a young: a herd takes it by the first pick that it fits, or not at all."""
        best = (next((1 << bit for bit in picks if mask >> bit & 1), 0) for picks in self.picks)
        return (mask & self.goal) | sum(best)


class Look:
    """What matters in each pairing, and the patterns of bits that decide about a young.

    A pattern is never empty: all other young are "the rest". The patterns of a clutch are drawn one after the other,
    each among the young that the ones before have left.

    rows: [patterns, pairs], the binomial row of a pattern's chance (to which the young left are added), or `NEVER`.
    worth: [patterns + 1, pairs], what a surplus young of the pattern can be expected to bring; last, of the rest.
    shows: [pairs], whether the pair's young show any pattern.
    """

    def __init__(self, pairs: Pairs, binomials: Binomials, asked: Sequence[Asked]) -> None:
        """asked: what matters in each pairing of the route."""
        self._pairs, self._binomials, self._asked = pairs, binomials, asked
        # The bits that decide about a young, by mask, for those that came up.
        self._decisive: dict[Asked, dict[int, int]] = {own: {} for own in asked}
        self.patterns: list[int] = []
        self.rows: Indices = np.empty((0, 0), dtype=np.intp)
        self.worth: Floats = np.empty((1, 0))
        self.shows: NDArray[np.bool_] = np.empty(0, dtype=np.bool_)
        self._young = Lots(cell_bits=8)
        self._young_rows: dict[tuple[int, int], int] = {}
        self._young_table: Indices = np.empty((0, 0), dtype=np.intp)

    def learn(self) -> None:
        """Take in the pairs that have come up since."""
        known, total = self.rows.shape[1], len(self._pairs)
        if known == total:
            return
        chances, worth = self._shown(known)
        rows = np.full((len(self.patterns), total), NEVER, dtype=np.intp)
        rows[: len(self.rows), :known] = self.rows
        values = np.zeros((len(self.patterns) + 1, total))
        values[: len(self.rows), :known], values[-1, :known] = self.worth[:-1], self.worth[-1]
        values[:, known:] = np.divide(worth, chances, out=np.zeros_like(worth), where=chances > 0)
        left = np.ones(total - known)
        where: list[tuple[int, Indices]] = []
        among: list[Floats] = []
        for pattern, own in enumerate(chances[:-1]):
            able = np.flatnonzero(own > 0)
            where.append((pattern, able))
            among.append(np.where(left[able] - own[able] < _DUST, 1.0, own[able] / left[able]))
            left = left - own
        if where:
            bases = self._binomials.bases(np.concatenate(among))
            ends = np.cumsum([len(able) for able in among])[:-1]
            for (pattern, able), base in zip(where, np.split(bases, ends), strict=True):
                rows[pattern, known + able] = base
        self.rows, self.worth, self.shows = rows, values, (rows != NEVER).any(axis=0)

    def code(self, pattern: int | Indices, pair: Indices) -> Indices:
        """A number for young of a pattern from a pair: where they stand in tables by both."""
        return np.asarray(pattern * self.rows.shape[1] + pair)

    def draw_young(self, rng: np.random.Generator, codes: Indices, sex: Sex) -> NDArray[np.int32]:
        """The kind of a young of each code, all of this sex; `LOST` where it does not grow up to breed."""
        if self._young_table.shape != self.rows.shape:
            self._young_table = np.full(self.rows.shape, UNKNOWN, dtype=np.intp)
            for key, row in self._young_rows.items():
                self._young_table[key] = row
        rows = look_up(self._young_table.reshape(-1), codes, lambda new: self._add_young(new, sex))
        return np.subtract(self._young.draw(rng, rows), 1, dtype=np.int32, casting="same_kind")

    def _add_young(self, codes: list[int], sex: Sex) -> None:
        """Work out what young of these codes carry."""
        asked: dict[int, list[int]] = {}
        for code in codes:
            pattern, pair = divmod(code, self.rows.shape[1])
            asked.setdefault(pair, []).append(pattern)
        found: dict[tuple[int, int], dict[int, float]] = {}
        for pair, patterns in asked.items():
            found |= {(pattern, pair): own for pattern, own in self._young_of(pair, patterns, sex).items()}
        # Values are kinds and one more; 0 stands for `LOST`.
        biology = self._pairs.problem.biology
        works = biology.reaches * biology.works[sex]
        shape = len(found), max(map(len, found.values())) + 2
        kinds, chances = np.zeros(shape, dtype=np.intp), np.zeros(shape)
        for row, own in enumerate(found.values()):
            share = np.array(list(own.values()))
            kinds[row, : len(own)], chances[row, : len(own)] = list(own), share / share.sum() * works
        kinds[:, :-1] += 1
        chances[:, -2], chances[:, -1] = biology.reaches - works, 1 - biology.reaches
        for key, where in zip(found, self._young.add(kinds, chances).tolist(), strict=True):
            self._young_rows[key] = self._young_table[key] = where

    def _young_of(self, pair: int, patterns: list[int], sex: Sex) -> dict[int, dict[int, float]]:
        """For each of these patterns, the kinds of a pair's young, with chances in proportion."""
        kinds, asked = self._pairs.kinds[sex], self._asked[self._pairs.matings[pair][0]]
        numbers, decisive = {self.patterns[pattern]: pattern for pattern in patterns}, self._decisive[asked]
        found: dict[int, dict[int, float]] = {pattern: {} for pattern in patterns}
        for (mask, genotype), chance in self._pairs.problem.young(*self._pairs.genotypes(pair)).items():
            pattern = numbers.get(decisive[mask])
            if pattern is not None and chance > 0:
                kind = kinds.number(genotype)
                found[pattern][kind] = found[pattern].get(kind, 0.0) + chance
        return found

    def _shown(self, known: int) -> tuple[Floats, Floats]:
        """Chances of each pattern, and last of the rest, in the pairs from `known` on; and the same times worth."""
        young = self._pairs.young[known:]
        sizes = [len(masks) for masks, _ in young]
        pair = np.repeat(np.arange(len(young)), sizes)
        pairing = np.repeat([mating[0] for mating in self._pairs.matings[known:]], sizes)
        masks = np.concatenate([numbers for numbers, _ in young])
        chance = np.concatenate([chances for _, chances in young])
        price = np.array([self._pairs.problem.price(mask) for mask in self._pairs.masks] or [0.0])
        pattern = self._pattern_numbers()[pairing, masks]
        codes = np.where(pattern == NEVER, len(self.patterns), pattern) * len(young) + pair
        shape = len(self.patterns) + 1, len(young)
        size = shape[0] * shape[1]
        chances: Floats = np.bincount(codes, weights=chance, minlength=size).astype(np.float64)
        worth: Floats = np.bincount(codes, weights=chance * price[masks], minlength=size).astype(np.float64)
        return chances.reshape(shape), worth.reshape(shape)

    def _pattern_numbers(self) -> Indices:
        """Which pattern each mask shows in each pairing, `NEVER` for none: [pairings, masks].

        New patterns go to the end, so that the order stays the same for every pair.
        """
        masks = self._pairs.masks
        numbers = {}
        for asked, decisive in self._decisive.items():
            decisive |= {mask: asked.shown(mask) for mask in masks if mask not in decisive}
            shown = [decisive[mask] for mask in masks]
            self.patterns += [own for own in dict.fromkeys(shown) if own and own not in self.patterns]
            numbers[asked] = [self.patterns.index(own) if own else NEVER for own in shown]
        every = [numbers[asked] for asked in self._asked]
        return np.array(every, dtype=np.intp).reshape(len(every), len(masks))
