"""How many eggs a clutch holds."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Any

from .chances import Distribution, always, exact


def clutch_sizes(clutch: dict[str, Any]) -> Distribution[int]:
    if "fixed" in clutch:
        return always(int(clutch["fixed"]))
    if "counts" in clutch:
        return Distribution((int(size), exact(p)) for size, p in clutch["counts"].items())

    def weight(n: int) -> Fraction:
        near, far = sorted((abs(n - 0.5 - clutch["mean"]), abs(n + 0.5 - clutch["mean"])))
        if abs(n - clutch["mean"]) < 0.5:
            near = -near  # the mean lies inside this size
        return Fraction(_beyond(near / clutch["sd"]) - _beyond(far / clutch["sd"]))

    return Distribution((n, weight(n)) for n in range(clutch["min"], clutch["max"] + 1))


def _beyond(z: float) -> float:
    """The normal tail beyond z."""
    return math.erfc(z / math.sqrt(2)) / 2
