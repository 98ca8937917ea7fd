"""When to stop with a female: how many normal young more before another way is better."""

from __future__ import annotations

from collections.abc import Generator
from dataclasses import dataclass

import msgspec

from core.genetics.beliefs import is_possible
from core.plan.genotypes import NORMAL
from core.plan.model import ClutchRecord, Plan, Route, YoungSeen
from core.routes.evaluate import evaluate_route
from core.season.next_steps import NextStep, without
from core.season.telling import carrier_chance, telling
from core.text import tr

# So many young are looked ahead; a rule that needs more helps nobody.
MOST_YOUNG = 24
_EPSILON = 1e-9


@dataclass(frozen=True)
class StoppingRule:
    """After `young` more young of the pair that show none of these genes, dropping her is better."""

    female: str
    male: str
    genes: tuple[str, ...]
    young: int

    def sentence(self, plan: Plan) -> str:
        """The rule in words."""
        names = {animal.id: animal.name or animal.id for animal in plan.my_animals}
        genes = {gene.id: gene.name or gene.id for gene in plan.genes}
        shown = tr(" or ").join(genes[gene] for gene in self.genes)
        return tr(
            "No visual {shown} in {young} more young of {female} and {male}: move her on.",
            shown=shown,
            young=self.young,
            female=names[self.female],
            male=names[self.male],
        )


def stopping_rule(plan: Plan, route: Route, male: str, female: str) -> Generator[float, None, StoppingRule | None]:
    """The least number of normal young after which the route without her is better; None where none is.

    Each number is asked of the model itself: the clutch is added to the records and both routes are worked out anew.
    Better is less money to set aside, or, where neither reaches the goal's chance, a greater chance. Yields progress.
    """
    other = without(route, female)
    genes = settled_by_young(plan, male, female)
    if other is None or not genes:
        return None
    drawn = msgspec.structs.replace(route, scale=None)
    for young in range(1, MOST_YOUNG + 1):
        yield young / (MOST_YOUNG + 1)
        told = with_normal_young(plan, male, female, genes, young)
        # Linked genes may not let so many young be normal for all of them at once.
        if not is_possible(told):
            return None
        with_her = NextStep("carry on", "", drawn, evaluate_route(told, drawn))
        without_her = NextStep("drop", female, other, evaluate_route(told, other))
        if _better(without_her, with_her):
            return StoppingRule(female, male, genes, young)
    return None


def in_doubt(plan: Plan, animal: str) -> tuple[str, ...]:
    """The goal's genes that the animal carries with a chance between 0 and 1."""
    genes = dict.fromkeys(gene for row in plan.goal.want for gene, form in row.forms.items() if form != NORMAL)
    found = []
    for gene in genes:
        chance = carrier_chance(plan, animal, gene)
        if _EPSILON < chance < 1 - _EPSILON:
            found.append(gene)
    return tuple(found)


def settled_by_young(plan: Plan, male: str, female: str) -> tuple[str, ...]:
    """The genes in doubt about a female that a normal young by this male makes less likely, and that can be normal."""
    found = []
    for gene in in_doubt(plan, female):
        told = telling(plan, male, female, gene, 1)
        if told.visual[1] < 1 - _EPSILON and told.dam[1] < told.dam[0] - _EPSILON:
            found.append(gene)
    return tuple(found)


def with_normal_young(plan: Plan, male: str, female: str, genes: tuple[str, ...], young: int) -> Plan:
    """The plan with one more clutch of a pair, all of it normal for these genes."""
    seen = YoungSeen(forms=dict.fromkeys(genes, NORMAL), count=young)
    record = ClutchRecord(sire=male, dam=female, season=0, young=(seen,))
    return msgspec.structs.replace(plan, clutch_records=(*plan.clutch_records, record))


def _better(one: NextStep, other: NextStep) -> bool:
    if one.to_goal is None and other.to_goal is None:
        return one.chance > other.chance
    return one.money < other.money
