"""What the goal lacks, where the order of the young makes no difference to it."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

from core.genetics.young import Condition
from core.routes.exact.algebra import CountAlgebra, GoalAlgebra

Filled = tuple[int, ...]


def in_any_order(rows: Sequence[Condition]) -> bool:
    """Whether the goal is met by the same young in whatever order they hatch.

    So it is where of two rows no young fits both, or all that fit the one listed first fit the other too: a young
    that finds its row full then counts for the wider row.
    """
    return all(_apart(one, other) or _within(one, other) for one, other in combinations(rows, 2))


def _apart(one: Condition, other: Condition) -> bool:
    clash = any(other.forms.get(gene, form) != form for gene, form in one.forms.items())
    return clash or len({one.sex, other.sex} - {"any"}) > 1


def _within(one: Condition, other: Condition) -> bool:
    return other.sex in ("any", one.sex) and all(one.forms.get(gene) == form for gene, form in other.forms.items())


def goal_counts(rows: Sequence[Condition], wanted: Sequence[int]) -> CountAlgebra:
    """Counts per row, each up to full; a step is a young whose first row it is. What fills the last row falls out."""
    if len(rows) == 1:
        return GoalAlgebra(wanted)
    wider = [_next(rows, row) for row in range(len(rows))]

    def add(a: Filled, b: Filled) -> Filled | None:
        total = [x + y for x, y in zip(a, b, strict=True)]
        for row, full in enumerate(wanted):
            over = total[row] - full
            if over > 0:
                total[row] = full
                onward = wider[row]
                if onward is not None:
                    total[onward] += over
        return None if all(x == full for x, full in zip(total, wanted, strict=True)) else tuple(total)

    zero = (0,) * len(rows)
    return CountAlgebra(zero, [(*zero[:row], 1, *zero[row + 1 :]) for row in range(len(rows))], add)


def _next(rows: Sequence[Condition], row: int) -> int | None:
    """The row that a young counts for when it finds this one full."""
    later = range(row + 1, len(rows))
    return next((i for i in later if not _apart(rows[row], rows[i]) and _within(rows[row], rows[i])), None)
