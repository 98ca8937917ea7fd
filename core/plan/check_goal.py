"""What the goal, the prices of surplus and the trade names must mean."""

from __future__ import annotations

from core.plan.book import Book
from core.plan.chances import chance
from core.plan.faults import Faults
from core.plan.model import Plan
from core.text import tr


def check_goal(plan: Plan, book: Book, faults: Faults) -> None:
    """Check the wanted chance, and that some genotype shows every form that is asked for, priced or named."""
    if not 0 < chance(plan.goal.chance) < 1:
        faults.meaning("goal.chance", tr("must lie between 0 and 1 and be neither"))
    for i, row in enumerate(plan.goal.want):
        book.check_forms(f"goal.want[{i}].forms", row.forms, row.sex, faults)
    for i, price in enumerate(plan.costs.surplus):
        book.check_forms(f"costs.surplus[{i}].forms", price.forms, price.sex, faults)
    for i, combination in enumerate(plan.combinations):
        book.check_forms(f"combinations[{i}].forms", combination.forms, "any", faults)
