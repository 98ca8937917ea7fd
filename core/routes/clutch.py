"""How many eggs a clutch has."""

from __future__ import annotations

import math

import numpy as np

from core.plan.chances import chance
from core.plan.model import Clutch
from core.routes.result import Floats


def clutch_sizes(clutch: Clutch) -> Floats:
    """Chances of 0, 1, 2, … eggs in a clutch: [largest + 1], sums to 1."""
    if clutch.fixed is not None:
        chances = {clutch.fixed: 1.0}
    elif clutch.counts is not None:
        chances = {int(size): chance(value) for size, value in clutch.counts.items()}
    else:
        chances = _cut_normal(clutch)
    sizes = np.zeros(max(size for size, weight in chances.items() if weight > 0) + 1)
    for size, weight in chances.items():
        if weight > 0:
            sizes[size] = weight
    sizes /= sizes.sum()
    return sizes


def _cut_normal(clutch: Clutch) -> dict[int, float]:
    """A normal cut to whole numbers: the weight of n is the normal's chance of n - 1/2 to n + 1/2."""
    assert clutch.mean is not None
    assert clutch.sd is not None
    assert clutch.min is not None
    assert clutch.max is not None
    return {n: _between(clutch.mean, clutch.sd, n - 0.5, n + 0.5) for n in range(clutch.min, clutch.max + 1)}


def _between(mean: float, sd: float, low: float, high: float) -> float:
    """The normal's chance of low..high, worked out in the nearer tail so that far weights keep their digits."""
    scale = sd * math.sqrt(2)
    a, b = (low - mean) / scale, (high - mean) / scale
    return math.erfc(a) - math.erfc(b) if a > 0 else math.erfc(-b) - math.erfc(-a)
