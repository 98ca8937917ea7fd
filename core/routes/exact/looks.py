"""Goals of several rows, by inclusion and exclusion."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain, combinations

from core.routes.problem import Problem

# Which goal rows are looked at (their condition bits).
Rows = tuple[int, ...]


def goal_looks(problem: Problem) -> Iterator[tuple[Rows, int]]:
    """Every set of goal rows, and the sign that "none of them is full" has in the chance that not all are full."""
    rows = range(len(problem.wanted))
    for some in chain.from_iterable(combinations(rows, size) for size in range(1, len(rows) + 1)):
        yield some, 1 if len(some) % 2 else -1
