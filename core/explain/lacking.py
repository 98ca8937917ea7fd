"""Which wanted looks no animal carries the copies for: where these are missing, no number of seasons helps."""

from __future__ import annotations

from collections.abc import Iterable

from core.plan.book import Book
from core.plan.genotypes import NORMAL, WILD, Table, mutants
from core.plan.model import Animal, Carries, Plan


def lacking(plan: Plan, animals: Iterable[Carries], own: Iterable[Animal] = ()) -> tuple[str, ...]:
    """The wanted forms, in the plan's order, that nothing bred from `animals` and `own` can ever show."""
    book = Book(plan)
    there: dict[str, set[str]] = {gene: {WILD} for gene in book.tables}
    for carries in animals:
        _gather(book, carries, there)
    for one in own:
        _gather(book, one.carries, there)
        for gene, form in one.forms.items():
            # What is seen is there, whatever else is known.
            there[gene].update(*(_alleles(pair) for pair in _showing(book.tables[gene], form)))
    asked = ((gene.id, want.forms.get(gene.id, NORMAL)) for gene in plan.genes for want in plan.goal.want)
    wanted = dict.fromkeys((gene, form) for gene, form in asked if form != NORMAL)
    return tuple(
        form
        for gene, form in wanted
        if not any(_alleles(pair) <= there[gene] for pair in _showing(book.tables[gene], form))
    )


def _gather(book: Book, carries: Carries, there: dict[str, set[str]]) -> None:
    for key, entry in carries.items():
        genes = key.split(" ")
        for genotype in [entry] if isinstance(entry, str) else entry:
            for half in genotype.split("/"):
                for gene, allele in zip(genes, half.split(" "), strict=False):
                    there[gene].update({allele} & {*book.tables[gene].alleles})


def _showing(table: Table, form: str) -> list[tuple[str, str]]:
    """The genotypes of either sex that look so."""
    return [pair for sex in ("male", "female") for pair in table.pairs(sex) if table.form(pair) == form]


def _alleles(pair: tuple[str, str]) -> set[str]:
    return {*mutants(pair)}
