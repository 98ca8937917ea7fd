"""Chances by egg, kept small."""

from __future__ import annotations

import numpy as np

from core.routes.result import Floats


class Sparse:
    """Chances by season and egg: of each season only what is not nothing."""

    def __init__(self, chances: Floats) -> None:
        self._shape = chances.shape
        places = [np.flatnonzero(row) for row in chances]
        self._rows = [
            (int(own[0]), row[own[0] : own[-1] + 1].copy()) if len(own) else (0, row[:0].copy())
            for own, row in zip(places, chances, strict=True)
        ]

    @property
    def size(self) -> int:
        """How many numbers are kept."""
        return sum(len(own) for _, own in self._rows)

    def whole(self) -> Floats:
        """All of them, as they were."""
        found = np.zeros(self._shape)
        for row, (first, own) in zip(found, self._rows, strict=True):
            row[first : first + len(own)] = own
        return found
