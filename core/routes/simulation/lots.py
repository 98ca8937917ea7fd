"""Drawing from many small distributions at once: inversion with a guide table."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]
Words = NDArray[np.unsignedinteger[Any]]

# A draw is a whole number below 2**32, so that a chance is kept to about 2e-10.
_BITS = 32
_TOP = 2**_BITS - 1
# Random bits that choose a cell.
_CELL = 16


class Lots:
    """Rows of distributions over whole numbers from 0. Each row's span of draws is cut into cells.

    Most cells lie within the span of one value, which they hold; the others hold ~v of the first value v they touch,
    and only for them the rest of the draw is needed.
    """

    def __init__(self, cell_bits: int) -> None:
        """Start without rows; a row has 2**cell_bits cells, at most 2**16."""
        self._cell_bits = cell_bits
        self._rows = 0
        self._values: Indices = np.empty(0, dtype=np.intp)
        # Per value, the last draw that gives it.
        self._last: Indices = np.empty(0, dtype=np.intp)
        # Per value its row, and both in one number: these ascend.
        self._row_of: Indices = np.empty(0, dtype=np.intp)
        self._ends: Indices = np.empty(0, dtype=np.intp)
        self._cells: Indices = np.empty(0, dtype=np.intp)

    def add(self, values: Indices, chances: Floats) -> int:
        """Add rows; gives the number of the first.

        values, chances: [rows, values]; chances are in proportion within a row, and a value of chance 0 is never drawn.
        """
        last, kept = _last_draws(chances)
        cells, width = 2**self._cell_bits, _BITS - self._cell_bits
        rows, columns = np.nonzero(kept)
        passed = (last[rows, columns] >> width) + 1
        ends = np.bincount(rows * (cells + 1) + passed, minlength=len(chances) * (cells + 1))
        begins = np.concatenate(([0], np.cumsum(kept.sum(axis=1))[:-1])) + len(self._values)
        first = np.cumsum(ends.reshape(len(chances), cells + 1)[:, :-1], axis=1) + begins[:, None]
        self._values = np.concatenate((self._values, values[kept]))
        self._last = np.concatenate((self._last, last[rows, columns]))
        self._row_of = np.concatenate((self._row_of, rows + self._rows))
        self._ends = (self._row_of << _BITS) + self._last
        whole = self._last.take(first) >= ((np.arange(cells) + 1) << width) - 1
        self._cells = np.concatenate((self._cells, np.where(whole, self._values.take(first), ~first).ravel()))
        self._rows += len(chances)
        return self._rows - len(chances)

    def draw(self, rng: np.random.Generator, rows: Indices) -> Indices:
        """One value from each of these rows, in the shape of `rows`."""
        cells = np.right_shift(_bits(rng, rows.size, "<u2"), _CELL - self._cell_bits).reshape(rows.shape)
        found: Indices = self._cells.take((rows << self._cell_bits) + cells)
        flat = found.reshape(-1)
        shared = np.flatnonzero(flat < 0)
        if shared.size:
            flat[shared] = self._within(rng, cells.reshape(-1).take(shared), ~flat.take(shared))
        return found

    def _within(self, rng: np.random.Generator, cells: Words, first: Indices) -> Indices:
        """Values of cells that several share, from the first that each touches."""
        draws = np.right_shift(_bits(rng, len(first), "<u4"), self._cell_bits).astype(np.intp)
        draws += cells.astype(np.intp) << (_BITS - self._cell_bits)
        # Most cells are shared by two.
        where = first + (draws > self._last.take(first))
        beyond = np.flatnonzero(draws > self._last.take(where))
        if beyond.size:
            rows = self._row_of.take(where.take(beyond))
            where[beyond] = np.searchsorted(self._ends, (rows << _BITS) + draws.take(beyond))
        return self._values.take(where)


def _bits(rng: np.random.Generator, size: int, kind: str) -> Words:
    """Random words of a kind, cut from what the generator makes, in the order of its bytes on any machine."""
    words = np.dtype(kind)
    raw = np.asarray(rng.bit_generator.random_raw(-(-size * words.itemsize // 8)))
    return raw.astype("<u8", copy=False).view(words)[:size]


def _last_draws(chances: Floats) -> tuple[NDArray[np.int64], NDArray[np.bool_]]:
    """Per value the last draw that gives it, and which values are given by any."""
    sums = np.cumsum(chances, axis=1)
    last = np.ceil(sums / sums[:, -1:] * (_TOP + 1)).astype(np.int64) - 1
    # Rounding must not leave draws beyond the last value that can be.
    columns = np.arange(chances.shape[1])
    final = np.where(chances > 0, columns, -1).max(axis=1)
    last[columns >= final[:, None]] = _TOP
    before = np.concatenate((np.full((len(last), 1), -1), last[:, :-1]), axis=1)
    return last, (chances > 0) & (last > before)


class Binomials:
    """Binomial counts out of 0..most, for the few chances a route asks about."""

    def __init__(self, most: int) -> None:
        """most: the largest number of trials."""
        self._lots = Lots(cell_bits=6)
        self._bases: dict[float, int] = {}
        trials = np.arange(most + 1)
        self._values = trials.astype(np.intp)
        ways = np.zeros((most + 1, most + 1))
        ways[:, 0] = 1
        for n in range(1, most + 1):
            ways[n, 1:] = ways[n - 1, 1:] + ways[n - 1, :-1]
        self._ways = ways
        self._left = np.maximum(trials[:, None] - trials, 0)

    def chances(self, chance: Floats) -> Floats:
        """The chance of k among n, for each chance of success: [chances, n, k]."""
        hits = np.arange(len(self._ways))
        powers, other = chance[:, None] ** hits, (1 - chance[:, None]) ** hits
        return np.asarray(self._ways * powers[:, None, :] * other[:, self._left])

    def bases(self, chances: Floats) -> Indices:
        """For each chance the row of 0 trials; n trials are n rows on."""
        keys = np.round(chances, 14).tolist()
        new = [key for key in dict.fromkeys(keys) if key not in self._bases]
        if new:
            rows = self.chances(np.array(new)).reshape(-1, len(self._ways))
            first = self._lots.add(np.broadcast_to(self._values, rows.shape), rows)
            self._bases |= {key: first + k * len(self._ways) for k, key in enumerate(new)}
        return np.array([self._bases[key] for key in keys], dtype=np.intp)

    def draw(self, rng: np.random.Generator, rows: Indices) -> Indices:
        """Successes, for each `base + trials`."""
        return self._lots.draw(rng, rows)
