"""Times all beliefs of a large herd: `python -m tests.bench.beliefs`.

Sixty animals with three genes, four breeding males and a hundred clutches, beside the fixed kernel of the comparison.
"""

from __future__ import annotations

import json
import random
import time
from statistics import median

from core.genetics.beliefs import belief_report
from core.plan.model import Plan
from core.plan.read import read_plan
from tests.bench.comparison import kernel

_TURNS = 15
_ANIMALS, _MALES, _CLUTCHES, _GENES = 60, 4, 100, 3
_FOUNDERS = 6


def main() -> None:
    """Print the medians and their ratio."""
    plan = large_herd(random.Random(1))
    times: dict[str, list[float]] = {"beliefs": [], "kernel": []}
    for _ in range(_TURNS):
        for name, work in (("kernel", kernel), ("beliefs", lambda: belief_report(plan))):
            begun = time.perf_counter()
            work()
            times[name].append(time.perf_counter() - begun)
    told = {f"{name}_ms": round(1000 * median(found), 2) for name, found in times.items()}
    print(json.dumps(told | {"ratio": round(median(times["beliefs"]) / median(times["kernel"]), 2)}))


def large_herd(rng: random.Random) -> Plan:
    """Founders that may carry each gene, and descendants of a few males with any of the females."""
    genes = [f"g{number}" for number in range(_GENES)]
    possible = {gene: {"a/+": "1/2", "+/+": "1/2"} for gene in genes}
    sexes = ["male", "male", *["female"] * (_FOUNDERS - 2), "male", "male", *["female"] * (_ANIMALS - _FOUNDERS - 2)]
    animals: list[dict[str, object]] = []
    for number, sex in enumerate(sexes):
        animal: dict[str, object] = {"id": f"a{number}", "sex": sex}
        if number < _FOUNDERS:
            animal["carries"] = possible
        else:
            sire, dam = _pair(animals, rng)
            animal |= {"sire": sire, "dam": dam}
        animals.append(animal)
    records = []
    for number in range(_CLUTCHES):
        sire, dam = _pair(animals, rng)
        young = [{"forms": dict.fromkeys(genes, "normal"), "count": rng.randint(1, 6)}]
        records.append({"sire": sire, "dam": dam, "season": number % 6, "young": young})
    whole = {
        "format": "pairwright-plan",
        "version": 1,
        "title": "A large herd, invented",
        "currency": "USD",
        "genes": [{"id": gene, "name": gene, "alleles": ["a"], "forms": {"a/a": gene}} for gene in genes],
        "species": {
            "name": "Corn snake",
            "sex_system": "ZW",
            "clutch": {"fixed": 6},
            "matures": {"male": 1, "female": 1},
        },
        "goal": {"want": [{"forms": {genes[0]: genes[0]}}], "chance": 0.8, "seasons": 4},
        "my_animals": animals,
        "clutch_records": records,
    }
    return read_plan(json.dumps(whole).encode())


def _pair(animals: list[dict[str, object]], rng: random.Random) -> tuple[object, object]:
    males = [one["id"] for one in animals if one["sex"] == "male"][:_MALES]
    females = [one["id"] for one in animals if one["sex"] == "female"]
    return rng.choice(males), rng.choice(females)


if __name__ == "__main__":
    main()
