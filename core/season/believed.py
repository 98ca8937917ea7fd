"""What is believed of my animals, and what the records did to it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import msgspec

from core.genetics.beliefs import belief_report, beliefs
from core.genetics.compile import compile_genetics
from core.genetics.units import Floats, Unit
from core.plan.genotypes import NORMAL
from core.plan.model import Animal, Carries, Plan
from core.season.telling import carriers

# Chances this close to 0 or 1 are certain.
_SURE = 1e-9
State = Literal["shows", "carries", "proven", "cleared", "open", "free"]


@dataclass(frozen=True)
class GeneBelief:
    """One gene of an animal: the chance that it carries it, before the clutch records and with them.

    `state`: it shows it; carries it by its parents or its look; was proven by its young; was cleared, as far as its
    look and young can; may carry it; or never was in question. `normal_young`: how many normal young of its clutches
    tell of the gene.
    """

    gene: str
    state: State
    before: float
    now: float
    normal_young: int


@dataclass(frozen=True)
class Believed:
    """An animal of mine: what it is taken to carry, as a plan writes it, and each gene that is carried or in doubt."""

    animal: Animal
    carries: Carries
    genes: tuple[GeneBelief, ...]


def believed(plan: Plan) -> tuple[Believed, ...]:
    """Every animal of mine, in the plan's order. Errors: ImpossibleEvidence, TooEntangled."""
    genetics = compile_genetics(plan.genes, plan.linkage, plan.species)
    bare = msgspec.structs.replace(plan, clutch_records=())
    now, before, report = beliefs(plan, genetics), beliefs(bare, genetics), belief_report(plan)
    return tuple(
        Believed(
            animal,
            msgspec.convert({genes: _clear(found) for genes, found in report[animal.id].items()}, Carries),
            tuple(
                belief
                for unit, old, new in zip(genetics.units, before[animal.id], now[animal.id], strict=True)
                for gene in unit.genes
                if (belief := _belief(plan, animal.id, unit, gene, old, new)).state != "free"
            ),
        )
        for animal in plan.my_animals
    )


def _clear(chances: dict[str, float]) -> dict[str, float] | str:
    """Without what is only rounding; one genotype that is certain stands by itself."""
    kept = {genotype: chance for genotype, chance in chances.items() if chance > _SURE}
    total = sum(kept.values())
    return next(iter(kept)) if len(kept) == 1 else {genotype: chance / total for genotype, chance in kept.items()}


def _belief(plan: Plan, animal: str, unit: Unit, gene: str, old: Floats, new: Floats) -> GeneBelief:
    carrying, normal = carriers(unit, gene), unit.fits({gene: NORMAL})
    before, now = float(old @ carrying), float(new @ carrying)
    young = _normal_young(plan, animal, gene)
    return GeneBelief(gene, _state(before, now, float(new @ normal)), before, now, young)


def _state(before: float, now: float, normal: float) -> State:
    if normal < _SURE:
        return "shows"
    if now > 1 - _SURE:
        return "carries" if before > 1 - _SURE else "proven"
    if now > _SURE:
        return "open"
    return "cleared" if before > _SURE else "free"


def _normal_young(plan: Plan, animal: str, gene: str) -> int:
    return sum(
        row.count
        for record in plan.clutch_records
        if animal in (record.sire, record.dam)
        for row in record.young
        if row.forms.get(gene) == NORMAL
    )
