"""What animals carry, by brute force: every joint genotype of the whole pedigree, weighed by all that was seen.

Units assort independently, and every sighting (a form of one gene, the sex of one young) is about one unit, so each
unit is weighed on its own. A young that hatched is viable, so its chances are those among the viable.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from typing import Any

from .chances import Distribution, product
from .genetics import Genome, Genotype, Pair, Plan

Rows = dict[tuple[Pair, ...], Fraction]


def beliefs(plan: Plan) -> dict[str, Any]:
    """The posterior of each animal and unit, in the form of the page."""
    genome = Genome(plan)
    order = [animal["id"] for animal in elders_first(plan.get("my_animals", []))]
    told: dict[str, dict[str, dict[str, Fraction]]] = {animal["id"]: {} for animal in plan.get("my_animals", [])}
    for u, unit in enumerate(genome.units):
        if not unit.genes:
            continue
        posterior = unit_posterior(plan, genome, u)
        for place, animal in enumerate(order):
            chances = Distribution((genome.written(u, row[place]), p) for row, p in posterior.items())
            told[animal][" ".join(unit.genes)] = dict(chances.items())
    return {"animals": told}


def joint(plan: Plan, genome: Genome, animals: Sequence[str]) -> Distribution[tuple[Genotype, ...]]:
    """The joint belief about the animals named, in that order."""
    order = [animal["id"] for animal in elders_first(plan["my_animals"])]
    places = [order.index(animal) for animal in animals]
    units = []
    for u in range(len(genome.units)):
        posterior = unit_posterior(plan, genome, u)
        units.append(Distribution((tuple(row[place] for place in places), p) for row, p in posterior.items()))
    return Distribution((tuple(zip(*by_unit, strict=True)), p) for by_unit, p in product(units).items())


def elders_first(animals: Sequence[dict[str, Any]]) -> list[dict[str, Any]]:
    """The animals in an order in which parents come before their young."""
    placed: list[dict[str, Any]] = []
    known: set[str] = set()
    waiting = list(animals)
    while waiting:
        ready = [animal for animal in waiting if "sire" not in animal or {animal["sire"], animal["dam"]} <= known]
        placed += ready
        known |= {animal["id"] for animal in ready}
        waiting = [animal for animal in waiting if animal["id"] not in known]
    return placed


def unit_posterior(plan: Plan, genome: Genome, unit: int) -> Distribution[tuple[Pair, ...]]:
    """Joint chances of one unit's genotypes in all animals, elders first."""
    ordered = elders_first(plan.get("my_animals", []))
    names = [animal["id"] for animal in ordered]
    rows: Rows = {(): Fraction(1)}
    for animal in ordered:
        rows = _with_animal(genome, unit, rows, names, animal)
        for record in plan.get("clutch_records", []):
            pair = {record["sire"], record["dam"]}
            known = names[: names.index(animal["id"]) + 1]
            if animal["id"] in pair and pair <= set(known):
                sire, dam = known.index(record["sire"]), known.index(record["dam"])
                rows = {row: p * _clutch(genome, unit, row[sire], row[dam], record["young"]) for row, p in rows.items()}
                rows = {row: p for row, p in rows.items() if p}
    return Distribution(rows.items())


def _with_animal(genome: Genome, unit: int, rows: Rows, names: list[str], animal: dict[str, Any]) -> Rows:
    longer: Rows = {}
    for row, p in rows.items():
        if "sire" in animal:
            own = hatched(genome, unit, row[names.index(animal["sire"])], row[names.index(animal["dam"])]).items()
        else:
            own = genome.unit_prior(unit, animal.get("carries", {}), animal["sex"]).items()
        for pair, q in own:
            if _agrees(genome, unit, pair, animal.get("forms", {}), animal["sex"]):
                longer[(*row, pair)] = p * q
    return longer


def hatched(genome: Genome, unit: int, sire: Pair, dam: Pair) -> Distribution[Pair]:
    """One unit of a young that hatched."""
    return genome.unit_offspring(unit, sire, dam).given(lambda pair: genome.viable_pair(unit, pair))


def _clutch(genome: Genome, unit: int, sire: Pair, dam: Pair, seen: Iterable[dict[str, Any]]) -> Fraction:
    chance = Fraction(1)
    for row in seen:
        forms, sex = row.get("forms", {}), row.get("sex")
        young = hatched(genome, unit, sire, dam)
        each = sum((p for pair, p in young.items() if _agrees(genome, unit, pair, forms, sex)), Fraction(0))
        chance *= each ** row["count"]
    return chance


def _agrees(genome: Genome, unit: int, pair: Pair, forms: dict[str, str], sex: str | None) -> bool:
    loci = genome.units[unit]
    if sex is not None and loci.has_sex and genome.sex_of_pair(pair) != sex:
        return False
    shown = {gene: genome.form_in_pair(gene, pair, place) for place, gene in enumerate(loci.genes)}
    return all(shown[gene] == form for gene, form in forms.items() if gene in shown)
