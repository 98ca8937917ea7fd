"""Beliefs are calibrated: of animals given 70 %, about 70 % carry."""

from __future__ import annotations

import numpy as np

from core.plan.model import Plan
from core.season.learned import carrier_chances
from tests.core.season.season_cases import plan, record

_HERDS = 1000
_BANDS = 6


def _child(one: int, two: int, rng: np.random.Generator) -> int:
    """Mutant copies of a young of parents with so many."""
    return int(rng.random() < one / 2) + int(rng.random() < two / 2)


def _herd(rng: np.random.Generator) -> tuple[Plan, dict[str, int]]:
    """Two possible hets, two of their normal young, and clutches of all of them, drawn from true genotypes."""
    prior = {"lav": {"l/+": 0.6, "+/+": 0.4}}
    while True:
        true = {"M": int(rng.random() < 0.6), "F": int(rng.random() < 0.6)}
        true["S"], true["D"] = _child(true["M"], true["F"], rng), _child(true["M"], true["F"], rng)
        if true["S"] < 2 and true["D"] < 2:
            break
    normal = {"sire": "M", "dam": "F", "forms": {"lav": "normal"}}
    animals = [
        {"id": "M", "sex": "male", "carries": prior},
        {"id": "F", "sex": "female", "carries": prior},
        {"id": "S", "sex": "male", **normal},
        {"id": "D", "sex": "female", **normal},
    ]
    records = []
    for sire, dam in (("M", "F"), ("S", "D"), ("S", "F"), ("M", "D")):
        young = [_child(true[sire], true[dam], rng) for _ in range(int(rng.integers(0, 4)))]
        visual = young.count(2)
        records.append(record(sire, dam, ("lavender", visual), ("normal", len(young) - visual)))
    return plan(my_animals=animals, clutch_records=records), true


def test_of_animals_given_a_chance_that_share_carries() -> None:
    rng = np.random.default_rng(7)
    given, carries = [], []
    for _ in range(_HERDS):
        told, true = _herd(rng)
        for animal, genes in carrier_chances(told).items():
            given.append(genes["lav"])
            carries.append(true[animal] > 0)
    chances, found = np.array(given), np.array(carries)
    assert found[chances > 1 - 1e-9].all()
    open_still = (chances < 1 - 1e-9).nonzero()[0]
    for band in np.array_split(open_still[chances[open_still].argsort(kind="stable")], _BANDS):
        mean = chances[band].mean()
        # Five standard errors of animals that hang together in fours.
        assert abs(found[band].mean() - mean) < 2 * 5 * np.sqrt(mean * (1 - mean) / len(band))
