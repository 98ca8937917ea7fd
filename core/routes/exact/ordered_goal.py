"""What overlapping goal rows lack: counts in which the order of young makes a difference."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from core.routes.exact.algebra import Complex, CountAlgebra

# A part of a grid: where it begins and ends along every axis.
Block = tuple[tuple[int, int], ...]
Cuts = tuple[slice, ...]


class OrderedGoal(CountAlgebra):
    """Counts of overlapping rows; a step is a set of rows (bits) that a young fits, of which the first not full counts.

    What fills the last row falls out: it would be the last of all states, which are those of a grid in its order.
    """

    def __init__(self, wanted: Sequence[int]) -> None:
        """wanted: how many each row asks for."""
        self._wanted = tuple(wanted)
        self._shape = tuple(full + 1 for full in wanted)
        super().__init__((0,) * len(wanted), range(1, 1 << len(wanted)), self._count)
        self._shifts = self._shifts_of_steps()

    def lay(self, element: Complex, miss: Complex, steps: Sequence[Complex]) -> Complex:
        """One more egg: no change with weight `miss`, or step v with weight `steps[v]` (each [points])."""
        before = np.zeros((*self._shape, element.shape[-1]), dtype=complex)
        before.reshape(-1, element.shape[-1])[: self.size] = element
        after: Complex = before * miss
        for source, target, own in self._shifts:
            after[target] += before[source] * (steps[own[0]] if len(own) == 1 else sum(steps[step] for step in own))
        return after.reshape(-1, element.shape[-1])[: self.size]

    def _count(self, state: tuple[int, ...], rows: int) -> tuple[int, ...] | None:
        for row, (count, full) in enumerate(zip(state, self._wanted, strict=True)):
            if rows >> row & 1 and count < full:
                state = (*state[:row], count + 1, *state[row + 1 :])
                break
        return None if state == self._wanted else state

    def _shifts_of_steps(self) -> list[tuple[Cuts, Cuts, list[int]]]:
        """Which blocks of the grid are moved, and to where, and by which steps."""
        found: dict[tuple[Block, Block], list[int]] = {}
        for step, rows in enumerate(range(1, 1 << len(self._wanted))):
            block = tuple((0, size) for size in self._shape)
            for row, full in enumerate(self._wanted):
                if rows >> row & 1:
                    source, target = (_put(block, row, ends) for ends in ((0, full), (1, full + 1)))
                    found.setdefault((source, target), []).append(step)
                    block = _put(block, row, (full, full + 1))
            found.setdefault((block, block), []).append(step)
        return [(_cuts(source), _cuts(target), own) for (source, target), own in found.items()]


def _put(block: Block, axis: int, ends: tuple[int, int]) -> Block:
    return (*block[:axis], ends, *block[axis + 1 :])


def _cuts(block: Block) -> Cuts:
    return tuple(slice(*ends) for ends in block)
