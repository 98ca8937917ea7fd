"""Kinship and inbreeding over any pedigree."""

from __future__ import annotations

from collections.abc import Mapping

import msgspec
import numpy as np
from numpy.typing import NDArray

from core.genetics.pedigree import Pedigree, ancestors_first


class Kinship(msgspec.Struct, frozen=True, eq=False):
    """Coefficients of kinship between the animals of a pedigree: `matrix` by `row`, symmetrical."""

    row: Mapping[str, int]
    matrix: NDArray[np.float64]

    def between(self, one: str, two: str) -> float:
        """Kinship of two animals, which is Wright's F of their young."""
        return float(self.matrix[self.row[one], self.row[two]])

    def inbreeding(self, animal: str) -> float:
        """Wright's F of an animal."""
        return 2 * self.between(animal, animal) - 1


def kinship(pedigree: Pedigree) -> Kinship:
    """Kinship between all animals of a pedigree whose founders are unrelated and not inbred.

    The recursion of Wright S 1922, American Naturalist 56:330-338: f(x, y) is the mean of f(sire of x, y) and
    f(dam of x, y) for x no ancestor of y, and f(x, x) = (1 + f(sire of x, dam of x)) / 2.
    """
    order = ancestors_first(pedigree)
    row = {animal: k for k, animal in enumerate(order)}
    matrix = np.zeros((len(order), len(order)))
    for k, animal in enumerate(order):
        parents = pedigree[animal]
        if parents is None:
            matrix[k, k] = 0.5
            continue
        sire, dam = (row[parent] for parent in parents)
        matrix[k, :k] = matrix[:k, k] = (matrix[sire, :k] + matrix[dam, :k]) / 2
        matrix[k, k] = (1 + matrix[sire, dam]) / 2
    return Kinship(row, matrix)
