"""A product whose parts change one at a time is what multiplying all of them gives."""

from __future__ import annotations

from functools import reduce

import numpy as np
import pytest

from core.routes.exact.together import Together


@pytest.mark.parametrize("many", [1, 2, 3, 5, 8, 13])
def test_exchanges_agree_with_multiplying_anew(many: int) -> None:
    rng = np.random.default_rng(many)
    parts = [rng.random(4) + 1j * rng.random(4) for _ in range(many)]
    kept = Together(np.multiply, parts)
    for _ in range(3 * many):
        place, other = int(rng.integers(many)), rng.random(4) + 0j
        trial = [other if at == place else part for at, part in enumerate(parts)]
        assert kept.with_instead(place, other) == pytest.approx(reduce(np.multiply, trial))
        kept.exchange(place, other)
        parts = trial
        assert kept.product == pytest.approx(reduce(np.multiply, parts))
