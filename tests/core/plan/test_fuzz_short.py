"""A short run of the fuzzer; the long one is `python -m tests.bench.fuzz`."""

from __future__ import annotations

import random

from tests.bench.fuzz import run


def test_harmed_plans_end_in_a_plan_or_in_faults() -> None:
    found: list[str] = []

    def note(_data: bytes, what: str) -> None:
        found.append(what)

    told = run(1500, random.Random(20), note)
    assert found == []
    assert told.valid > 50
    assert told.evaluated > 3
