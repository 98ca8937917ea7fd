"""Names changed wherever a plan uses them: genes, alleles, forms and animals."""

from __future__ import annotations

from collections.abc import Callable

from msgspec.structs import replace

from core.plan.genotypes import Table
from core.plan.mapped import map_carries, map_forms
from core.plan.model import Animal, Carries, Forms, Gene, Group, Owned, Plan, Sex


def rename_gene(plan: Plan, index: int, new: str) -> Plan:
    """Give the plan with another id for one gene, in every genotype, condition and linked set."""
    old = plan.genes[index].id

    def keys(carries: Carries, _sex: Sex) -> Carries:
        return {" ".join(_same(part, old, new) for part in key.split(" ")): entry for key, entry in carries.items()}

    def forms(asked: Forms) -> Forms:
        return {_same(gene, old, new): form for gene, form in asked.items()}

    renamed = _with_gene(map_forms(map_carries(plan, keys), forms), index, replace(plan.genes[index], id=new))
    linkage = tuple(replace(row, genes=tuple(_same(gene, old, new) for gene in row.genes)) for row in plan.linkage)
    return replace(renamed, linkage=linkage)


def rename_allele(plan: Plan, index: int, old: str, new: str) -> Plan:
    """Give the plan with another name for one allele of a gene, in its tables and in what every animal carries."""
    gene = plan.genes[index]
    sets = {" ".join(row.genes): row.genes for row in plan.linkage}

    def alleles(text: str, place: int) -> str:
        halves = (half.split(" ") for half in text.split("/"))
        return "/".join(" ".join([*h[:place], _same(h[place], old, new), *h[place + 1 :]]) for h in halves)

    def change(carries: Carries, _sex: Sex) -> Carries:
        found: Carries = {}
        for key, entry in carries.items():
            genes = sets.get(key, (key,))
            place = genes.index(gene.id) if gene.id in genes else -1
            if place < 0:
                found[key] = entry
            elif isinstance(entry, str):
                found[key] = alleles(entry, place)
            else:
                found[key] = {alleles(text, place): share for text, share in entry.items()}
        return found

    renamed = replace(
        gene,
        alleles=tuple(_same(allele, old, new) for allele in gene.alleles),
        forms={alleles(text, 0): form for text, form in gene.forms.items()},
        lethal=tuple(alleles(text, 0) for text in gene.lethal),
    )
    return _with_gene(map_carries(plan, change), index, renamed)


def reshape_gene(plan: Plan, index: int, gene: Gene) -> Plan:
    """Give the plan with another table of forms for one gene.

    A form that no genotype shows any more, where the genotype that showed it now shows a new one, keeps its
    conditions under the new name.
    """
    old, new = Table(plan.genes[index], plan.species.sex_system), Table(gene, plan.species.sex_system)
    before, now = (table.shown["male"] | table.shown["female"] for table in (old, new))
    turned: dict[str, str] = {}
    for sex in ("male", "female"):
        for pair in old.pairs(sex):
            one, other = old.form(pair), new.form(pair)
            if one not in now and other not in before:
                turned[one] = other

    def change(asked: Forms) -> Forms:
        return {key: turned.get(form, form) if key == gene.id else form for key, form in asked.items()}

    return map_forms(_with_gene(plan, index, gene), change)


def rename_animal(plan: Plan, index: int, new: str) -> Plan:
    """Give the plan with another id for one of my animals, as a parent, in clutch records and in routes."""
    old = plan.my_animals[index].id

    def parents(animal: Animal) -> Animal:
        if animal.sire is None or animal.dam is None:
            return animal
        return replace(animal, sire=_same(animal.sire, old, new), dam=_same(animal.dam, old, new))

    mine = [parents(animal) for animal in plan.my_animals]
    mine[index] = replace(mine[index], id=new)
    records = (
        replace(one, sire=_same(one.sire, old, new), dam=_same(one.dam, old, new)) for one in plan.clutch_records
    )
    return replace(
        map_owned(plan, lambda animals: tuple(_same(one, old, new) for one in animals)),
        my_animals=tuple(mine),
        clutch_records=tuple(records),
    )


def map_owned(plan: Plan, change: Callable[[tuple[str, ...]], tuple[str, ...]]) -> Plan:
    """Give the plan with the animals that its routes' groups name changed."""

    def of_group(group: Group) -> Group:
        if isinstance(group, Owned) and group.animals is not None:
            return replace(group, animals=change(group.animals))
        return group

    routes = (replace(route, groups=tuple(of_group(group) for group in route.groups)) for route in plan.routes)
    return replace(plan, routes=tuple(routes))


def _with_gene(plan: Plan, index: int, gene: Gene) -> Plan:
    return replace(plan, genes=(*plan.genes[:index], gene, *plan.genes[index + 1 :]))


def _same(name: str, old: str, new: str) -> str:
    return new if name == old else name
