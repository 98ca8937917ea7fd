"""The genes of a plan looked up by name, with the places that a check on them depends on."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import cached_property

from core.plan.faults import Faults, at, at_key, quote
from core.plan.genotypes import Table
from core.plan.model import AnySex, Forms, Plan
from core.plan.sexes import sex_words
from core.text import tr


class Book:
    """Genes and linkage rows of a plan; of doubled ids the first counts."""

    def __init__(self, plan: Plan) -> None:
        system = plan.species.sex_system
        self.tables = {gene.id: Table(gene, system) for gene in reversed(plan.genes)}
        self.places = {gene.id: at("genes", i) for i, gene in reversed([*enumerate(plan.genes)])}
        self._genes = len(plan.genes)
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
        return tuple(f"genes[{i}].id" for i in range(self._genes)) or ("genes",)

    def row_needs(self) -> tuple[str, ...]:
        """Give the places that decide which joined ids there are."""
        rows = tuple(f"linkage[{i}].genes" for i in range(len(self._rows))) or ("linkage",)
        return (*rows, *self.id_needs())

    def check_forms(self, place: str, forms: Forms, sex: AnySex, faults: Faults) -> None:
        """Check that every form is shown by a genotype that an animal of `sex` can hatch with."""
        for gene, form in forms.items():
            here = at_key(place, gene)
            table = self.tables.get(gene)
            if table is None:
                message = tr(
                    "no gene has the id {gene}{suggest}", gene=quote(gene), suggest=faults.suggest(gene, self.tables)
                )
                faults.meaning(here, message, *self.id_needs())
                continue
            ever = table.shown["male"] | table.shown["female"]
            if form not in ever:
                message = tr("no genotype shows {form}{suggest}", form=quote(form), suggest=faults.suggest(form, ever))
                faults.meaning(here, message, *self.gene_needs(gene))
            elif sex != "any" and form not in table.shown[sex]:
                needs = (f"{_holder(place)}.sex", *self.gene_needs(gene))
                faults.meaning(
                    here, tr("no genotype of a {sex} shows {form}", sex=sex_words(sex), form=quote(form)), *needs
                )


def _holder(place: str) -> str:
    """Give the place of what a condition on forms belongs to: `goal.want[0]` for `goal.want[0].forms`."""
    return place.rpartition(".")[0]


def check_unique(values: Iterable[str], place_of: Callable[[int], str], faults: Faults) -> None:
    """Check that no value of a list comes twice."""
    first: dict[str, int] = {}
    for i, value in enumerate(values):
        if value in first:
            faults.meaning(
                place_of(i),
                tr("{value} is already {place}", value=quote(value), place=place_of(first[value])),
                place_of(first[value]),
            )
        first.setdefault(value, i)
