"""Conditions on how an animal looks, as one choice a gene: any, or one of the forms that the gene can show."""

from __future__ import annotations

from dataclasses import dataclass

from core.plan.book import Book
from core.plan.genotypes import NORMAL, SEXES, Table, mutants
from core.plan.model import AnySex, Combination, Forms, Gene, Plan


@dataclass(frozen=True)
class FormRow:
    """One gene: the forms that an animal can show, normal first, and the one asked for; None: any will do."""

    gene: Gene
    forms: tuple[str, ...]
    chosen: str | None


def form_rows(plan: Plan, forms: Forms, sex: AnySex) -> tuple[FormRow, ...]:
    """Give one row per gene of the plan, in its order, for animals of `sex`."""
    tables = Book(plan).tables
    return tuple(FormRow(gene, shown_forms(tables[gene.id], sex), forms.get(gene.id)) for gene in plan.genes)


def shown_forms(table: Table, sex: AnySex) -> tuple[str, ...]:
    """Give the forms that an animal of `sex` can hatch with: normal, then those of one copy, then of two."""
    sexes = SEXES if sex == "any" else (sex,)
    pairs = dict.fromkeys(pair for one in sexes for pair in table.pairs(one) if pair not in table.lethal)
    order = {allele: place for place, allele in enumerate(table.alleles)}
    placed = sorted(pairs, key=lambda pair: (len(mutants(pair)), [order.get(part, 0) for part in pair]))
    found = dict.fromkeys(table.form(pair) for pair in placed)
    return (*(form for form in found if form == NORMAL), *(form for form in found if form != NORMAL))


def with_form(plan: Plan, forms: Forms, gene: str, form: str | None) -> Forms:
    """Give the condition with another form asked for of one gene, in the order of the plan's genes; None: any."""
    asked = {**forms, gene: form}
    return {one.id: found for one in plan.genes if (found := asked.get(one.id)) is not None}


def offered_combinations(plan: Plan, sex: AnySex) -> tuple[Combination, ...]:
    """Give the trade names whose forms an animal of `sex` can show together."""
    tables = Book(plan).tables
    return tuple(
        one
        for one in plan.combinations
        if one.forms and all(form in shown_forms(tables[gene], sex) for gene, form in one.forms.items())
    )
