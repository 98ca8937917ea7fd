"""Whatever stands anywhere in a plan, reading it ends with a plan or with faults."""

from __future__ import annotations

import json
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from core.plan.check import check_plan
from core.plan.read import read_plan
from tests.core.plan.plan_cases import faults_of, rich

TELLING = ["", "+", "a/a", "+/+", "b/W", "a l/+ +", "amel", "amel lav", "first", "sire", "1/0", "2/3", "any", "hold"]
LEAVES = st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=5) | st.sampled_from(TELLING)
VALUES = st.recursive(
    LEAVES,
    lambda inner: (
        st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from(TELLING) | st.text(max_size=5), inner, max_size=3)
    ),
    max_leaves=6,
)


def ways(part: Any) -> list[tuple[Any, Any]]:
    """Every container in a plan with every key or index of it."""
    steps = list(part.items()) if isinstance(part, dict) else list(enumerate(part)) if isinstance(part, list) else []
    return [(part, key) for key, _ in steps] + [way for _, inner in steps for way in ways(inner)]


@settings(max_examples=200, deadline=None)
@given(st.data())
def test_any_value_anywhere_ends_in_a_plan_or_in_faults(data: st.DataObject) -> None:
    plan = rich()
    for _ in range(data.draw(st.integers(1, 3))):
        part, key = data.draw(st.sampled_from(ways(plan)))
        part[key] = data.draw(VALUES)
    text = json.dumps(plan).encode()
    lines = faults_of(text)
    assert all(line.isprintable() for line in lines)
    assert lines or check_plan(read_plan(text)) == ()
