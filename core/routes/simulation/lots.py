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

    A value has as many cells to itself as its span fills, and they hold it; what is left of all spans shares the last
    cells, which hold ~v of the first value v in them, and only for them the rest of the draw is needed. Cells of the
    same place in the rows of a group stand side by side: a row is known by where its first cell is, and the next one of
    its group is one on.
    """

    def __init__(self, cell_bits: int, group: int = 1) -> None:
        """Start without rows; a row has 2**cell_bits cells, at most 2**16, and a group so many rows."""
        self._cell_bits = cell_bits
        self._step = np.uint16(group) if group << cell_bits < 1 << _CELL else np.uint32(group)
        self._rows = 0
        # Of the values in cells that are shared; and per value, the last draw that gives it there.
        self._values: Indices = np.empty(0, dtype=np.intp)
        self._last: Indices = np.empty(0, dtype=np.intp)
        # Per value its row, and both in one number: these ascend.
        self._row_of: Indices = np.empty(0, dtype=np.intp)
        self._ends: Indices = np.empty(0, dtype=np.intp)
        self._cells: Indices = np.empty(0, dtype=np.intp)

    def add(self, values: Indices, chances: Floats) -> Indices:
        """Add whole groups of rows; tells where they are: [rows].

        values, chances: [rows, values]; chances are in proportion within a row, and a value of chance 0 is never drawn.
        """
        group, cells, width = int(self._step), 2**self._cell_bits, _BITS - self._cell_bits
        spans = _spans(chances)
        whole, rest = spans >> width, spans & ((1 << width) - 1)
        shared = whole.sum(axis=1, keepdims=True)
        first = self._share(values, rest, shared)
        owners, owned = np.hstack((values, shared)), np.hstack((whole, cells - shared))
        own = np.repeat(owners.ravel(), owned.ravel()).reshape(-1, cells)
        found = np.where(np.arange(cells) < shared, own, ~first).reshape(-1, group, cells).swapaxes(1, 2)
        where = len(self._cells) + np.arange(found.size).reshape(found.shape)[:, 0].ravel()
        self._cells = np.concatenate((self._cells, found.ravel()))
        self._rows += len(chances)
        return where

    def _share(self, values: Indices, rest: Indices, shared: Indices) -> Indices:
        """Put what is left of the spans into the cells from `shared` on, [rows, 1]; the first value in each of them."""
        rows, cells, width = len(rest), 2**self._cell_bits, _BITS - self._cell_bits
        last = (shared << width) + np.cumsum(rest, axis=1) - 1
        row, column = np.nonzero(rest)
        ends = np.bincount(row * (cells + 1) + (last[row, column] >> width) + 1, minlength=rows * (cells + 1))
        first = np.cumsum(ends).reshape(rows, cells + 1)[:, :-1] + len(self._values)
        self._values = np.concatenate((self._values, values[row, column]))
        self._last = np.concatenate((self._last, last[row, column]))
        self._row_of = np.concatenate((self._row_of, row + self._rows))
        self._ends = (self._row_of << _BITS) + self._last
        return first

    def draw(self, rng: np.random.Generator, rows: Indices) -> Indices:
        """One value from each of these rows, in the shape of `rows`."""
        cells = np.right_shift(_bits(rng, rows.size, "<u2"), _CELL - self._cell_bits).reshape(rows.shape)
        places = (cells * self._step).astype(np.intp)
        places += rows
        found: Indices = self._cells.take(places)
        flat = found.reshape(-1)
        shared = np.flatnonzero(flat < 0)
        if shared.size:
            flat[shared] = self._within(rng, cells.reshape(-1).take(shared), ~flat.take(shared))
        return found

    def _within(self, rng: np.random.Generator, cells: Words, first: Indices) -> Indices:
        """Values of cells that several share, from the first that each touches."""
        draws = np.right_shift(_bits(rng, len(first), "<u4"), self._cell_bits).astype(np.intp)
        draws += cells.astype(np.intp) << (_BITS - self._cell_bits)
        # Few cells are shared by more than two that are likely.
        where = first + (draws > self._last.take(first))
        beyond = np.flatnonzero(draws > self._last.take(where))
        if beyond.size:
            rows = self._row_of.take(where.take(beyond))
            where[beyond] = np.searchsorted(self._ends, (rows << _BITS) + draws.take(beyond))
        return self._values.take(where)


def spread(counts: Indices) -> Indices:
    """Every place as many times as its count says, ascending; `np.repeat` takes several times as long."""
    ends = np.cumsum(counts)
    total = int(ends[-1]) if ends.size else 0
    return np.cumsum(np.bincount(ends[:-1], minlength=total)[:total])


def _bits(rng: np.random.Generator, size: int, kind: str) -> Words:
    """Random words of a kind, cut from what the generator makes, in the order of its bytes on any machine."""
    words = np.dtype(kind)
    raw = np.asarray(rng.bit_generator.random_raw(-(-size * words.itemsize // 8)))
    return raw.astype("<u8", copy=False).view(words)[:size]


def _spans(chances: Floats) -> Indices:
    """How many of all draws give each value, by row."""
    sums = np.cumsum(chances, axis=1)
    ends = np.ceil(sums / sums[:, -1:] * (_TOP + 1)).astype(np.intp)
    # Rounding must not leave draws beyond the last value that can be.
    columns = np.arange(chances.shape[1])
    final = np.where(chances > 0, columns, -1).max(axis=1)
    ends[columns >= final[:, None]] = _TOP + 1
    return np.asarray(np.diff(ends, axis=1, prepend=0))


class Binomials:
    """Binomial counts out of 0..most, for the few chances a route asks about."""

    def __init__(self, most: int) -> None:
        """most: the largest number of trials."""
        self._lots = Lots(cell_bits=6, group=most + 1)
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
        """For each chance the row of 0 trials; n trials are n on."""
        keys = np.round(chances, 14).tolist()
        new = [key for key in dict.fromkeys(keys) if key not in self._bases]
        if new:
            rows = self.chances(np.array(new)).reshape(-1, len(self._ways))
            where = self._lots.add(np.broadcast_to(self._values, rows.shape), rows)
            self._bases |= zip(new, where[:: len(self._ways)].tolist(), strict=True)
        return np.array([self._bases[key] for key in keys], dtype=np.intp)

    def draw(self, rng: np.random.Generator, rows: Indices) -> Indices:
        """Successes, for each `base + trials`."""
        return self._lots.draw(rng, rows)
