"""What records say of who carries what, and what one more record changed."""

from __future__ import annotations

from dataclasses import dataclass

from core.genetics.beliefs import beliefs
from core.genetics.compile import compile_genetics
from core.plan.model import Plan
from core.season.telling import carriers

# Chances closer than this are the same.
_SAME = 1e-9


@dataclass(frozen=True)
class Change:
    """The chance that an animal of mine carries a gene, before and after."""

    animal: str
    gene: str
    before: float
    after: float


def carrier_chances(plan: Plan) -> dict[str, dict[str, float]]:
    """Per animal of mine and gene, the chance that it carries one mutant copy at least.

    Errors: ImpossibleEvidence, TooEntangled.
    """
    genetics = compile_genetics(plan.genes, plan.linkage, plan.species)
    holds = {gene: (k, carriers(unit, gene)) for k, unit in enumerate(genetics.units) for gene in unit.genes}
    return {
        animal: {gene: float(found[k] @ carrying) for gene, (k, carrying) in holds.items()}
        for animal, found in beliefs(plan, genetics).items()
    }


def changes(before: Plan, after: Plan) -> tuple[Change, ...]:
    """Every chance that is not what it was, the greatest change first; for animals and genes that both plans have.

    Errors: ImpossibleEvidence, TooEntangled.
    """
    old, new = carrier_chances(before), carrier_chances(after)
    moved = [
        Change(animal, gene, old[animal][gene], chance)
        for animal, genes in new.items()
        for gene, chance in genes.items()
        if gene in old.get(animal, {}) and abs(old[animal][gene] - chance) > _SAME
    ]
    return tuple(sorted(moved, key=_least_change))


def _least_change(change: Change) -> float:
    return -abs(change.after - change.before)
