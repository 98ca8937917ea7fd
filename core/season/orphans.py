"""An animal of mine taken out of the plan: its young stand with what they may have inherited from it."""

from __future__ import annotations

from msgspec.structs import replace

from core.genetics.beliefs import ImpossibleEvidence
from core.genetics.elimination import TooEntangled
from core.genetics.pedigree import ancestors_first
from core.plan.model import Animal, Carries, Plan
from core.plan.removals import without_animal
from core.season.believed import believed

_PLAIN = frozenset("+WXYZ")


def without_parent(plan: Plan, animal: str) -> Plan:
    """The plan without one of my animals, its records and its places in routes; its young have a prior of their own.

    What was seen of the young and of theirs stays evidence beside that prior, so it is no part of it.
    """
    left = without_animal(plan, animal)
    young = {one.id: one for one in plan.my_animals if animal in (one.sire, one.dam)}
    mine = tuple(
        replace(one, carries=_inherited(plan, young[one.id])) if one.id in young else one for one in left.my_animals
    )
    return replace(left, my_animals=mine)


def _inherited(plan: Plan, young: Animal) -> Carries:
    """What a young may carry by its parents alone, with all that is known of these; nothing where that is too much."""
    later = _descendants(plan, young.id)
    animals = tuple(replace(one, forms={}) if one is young else one for one in plan.my_animals if one.id not in later)
    records = tuple(one for one in plan.clutch_records if {one.sire, one.dam}.isdisjoint({young.id, *later}))
    try:
        known = believed(replace(plan, my_animals=animals, clutch_records=records))
    except (ImpossibleEvidence, TooEntangled):
        return {}
    carries = next(one.carries for one in known if one.animal.id == young.id)
    return {gene: entry for gene, entry in carries.items() if not (isinstance(entry, str) and _is_plain(entry))}


def _descendants(plan: Plan, animal: str) -> set[str]:
    parents = {one.id: (one.sire, one.dam) if one.sire and one.dam else None for one in plan.my_animals}
    found = {animal}
    for name in ancestors_first(parents):
        found |= {name} if found & {*(parents[name] or ())} else set()
    return found - {animal}


def _is_plain(genotype: str) -> bool:
    return _PLAIN.issuperset(genotype.replace("/", " ").split(" "))
