"""The search on a large sheet: how long, how soon the first proposals, and what was proven; prints ratios.

Invented: twelve kinds of males and twelve of females that carry two genes in the usual ways, at prices that grow with
what they carry, up to eight females, six seasons. Beside it a fixed piece of numpy work.
"""

from __future__ import annotations

import json
import time
from itertools import product
from statistics import median
from typing import Any

from core.plan.model import Plan
from core.plan.read import read_plan
from core.search.find import find
from core.search.found import Found
from tests.bench.comparison import kernel

Json = dict[str, Any]
_RUNS, _EVERY = 3, 5
_LAV: tuple[tuple[Any, int], ...] = (("l/l", 190), ("l/+", 70), ({"l/+": "2/3", "+/+": "1/3"}, 45), ("+/+", 0))
_AMEL: tuple[tuple[Any, int], ...] = (("a/a", 160), ("a/+", 60), ("+/+", 0))


def sheet(kinds: int = 12, seasons: int = 6) -> Plan:
    """So many kinds of males and of females for sale."""
    offers: list[Json] = []
    for sex, dearer in (("male", 1.0), ("female", 1.25)):
        for number, ((lav, a), (amel, b)) in enumerate(list(product(_LAV, _AMEL))[:kinds]):
            carries = {gene: what for gene, what in (("lav", lav), ("amel", amel)) if what != "+/+"}
            price = round(dearer * (30 + a + b + (a * b) / 60))
            offers.append({"id": f"{sex}-{number}", "sex": sex, "carries": carries, "price": price, "quantity": 8})
    whole: Json = {
        "format": "pairwright-plan",
        "version": 1,
        "title": "Invented for a benchmark",
        "currency": "USD",
        "genes": [
            {"id": "lav", "name": "Lavender", "alleles": ["l"], "forms": {"l/l": "lavender"}},
            {"id": "amel", "name": "Amelanistic", "alleles": ["a"], "forms": {"a/a": "amel"}},
        ],
        "species": {
            "name": "Corn snake",
            "sex_system": "ZW",
            "clutch": {"mean": 10, "sd": 3, "min": 3, "max": 18},
            "matures": {"male": 2, "female": 3},
            "lays": 0.85,
            "fertile": 0.9,
            "hatches": 0.9,
            "clutch_lost": 0.05,
            "breeds": {"male": 0.95, "female": 0.93},
            "reaches_breeding": 0.9,
            "females_per_male": 8,
        },
        "goal": {
            "want": [{"forms": {"lav": "lavender", "amel": "amel"}}],
            "chance": 0.8,
            "seasons": seasons,
            "outright_price": 1500,
        },
        "costs": {"setup": 100, "keep_adult": 50, "keep_young": 30, "per_egg": 0.5, "per_young": 3},
        "for_sale": offers,
    }
    return read_plan(json.dumps(whole).encode())


def timed(plan: Plan, beside: list[float]) -> tuple[float, float, Found]:
    """Seconds of work to the first three proposals and to the end, and what was found.

    Work, and not time by the clock, which other programs change; beside: takes in the kernel's, run in between.
    """
    spent, first, found, looked = 0.0, 0.0, Found(), 0
    steps, begun = find(plan), time.process_time()
    for found in steps:
        spent += time.process_time() - begun
        if not first and len(found.proposals) >= 3:
            first = spent
        if found.looked >= looked + _EVERY:
            looked = found.looked
            beside.append(_kernel_time())
        begun = time.process_time()
    return first, spent, found


def _kernel_time() -> float:
    begun = time.process_time()
    kernel()
    return time.process_time() - begun


def main() -> None:
    """Print the figures."""
    plan = sheet()
    kernels: list[float] = []
    every = [timed(plan, kernels) for _ in range(_RUNS)]
    beside = median(kernels)
    found = every[0][2]
    first, whole = median(one[0] for one in every), median(one[1] for one in every)
    print(f"first proposals: {first:.2f} s, {first / beside:.0f} times the kernel")
    print(f"the whole search: {whole:.2f} s, {whole / beside:.0f} times the kernel")
    print(f"worked out {found.looked} of {found.of} candidates")
    last = found.proposals[-1].money
    print(f"nothing below {found.floor:.0f} was left out; the last proposal needs {last:.0f}")
    print(f"what could be missed: {found.gap:.1%} of the money")


if __name__ == "__main__":
    main()
