"""The genes of a plan looked up by name, with the places that a check on them depends on."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import cached_property

from core.plan.faults import Faults, at, at_key, quote
from core.plan.genotypes import SEXES, Table
from core.plan.model import AnySex, Plan, Sex


class Book:
    """Genes and linkage rows of a plan; of doubled ids the first counts."""

    def __init__(self, plan: Plan) -> None:
        system = plan.species.sex_system
        self.tables = {gene.id: Table(gene, system) for gene in reversed(plan.genes)}
        self.places = {gene.id: at("genes", i) for i, gene in reversed([*enumerate(plan.genes)])}
        self._rows = plan.linkage

    @cached_property
    def rows(self) -> dict[str, tuple[str, ...]]:
        """The gene ids of each linkage row, under its joined ids."""
        return {" ".join(row.genes): row.genes for row in self._rows if all(gene in self.tables for gene in row.genes)}

    def gene_needs(self, gene: str) -> tuple[str, ...]:
        """Give the places that decide which genotypes of a gene there are and how they look."""
        keys = ("id", "alleles", "forms", "lethal", "placement")
        return ("species.sex_system", *(f"{self.places[gene]}.{key}" for key in keys))

    def id_needs(self) -> tuple[str, ...]:
        """Give the places that decide which gene ids there are."""
        return tuple(f"{place}.id" for place in self.places.values()) or ("genes",)

    def row_needs(self) -> tuple[str, ...]:
        """Give the places that decide which joined ids there are."""
        return tuple(f"linkage[{i}].genes" for i in range(len(self._rows))) or ("linkage",)

    def check_forms(self, place: str, forms: dict[str, str], sex: AnySex, faults: Faults) -> None:
        """Check that every form is shown by a genotype that an animal of `sex` can hatch with."""
        sexes: tuple[Sex, ...] = SEXES if sex == "any" else (sex,)
        for gene, form in forms.items():
            here = at_key(place, gene)
            table = self.tables.get(gene)
            if table is None:
                message = f"no gene has the id {quote(gene)}{faults.suggest(gene, self.tables)}"
                faults.meaning(here, message, *self.id_needs())
                continue
            shown = frozenset[str]().union(*(table.shown[one] for one in sexes))
            if form not in shown:
                who = "genotype" if sex == "any" else f"genotype of a {sex}"
                faults.meaning(
                    here, f"no {who} shows {quote(form)}{faults.suggest(form, shown)}", *self.gene_needs(gene)
                )


def check_unique(values: Iterable[str], place_of: Callable[[int], str], faults: Faults) -> None:
    """Check that no value of a list comes twice."""
    first: dict[str, int] = {}
    for i, value in enumerate(values):
        if value in first:
            faults.meaning(place_of(i), f"{quote(value)} is already {place_of(first[value])}", place_of(first[value]))
        first.setdefault(value, i)
